from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
import zxingcpp
from hypothesis import given, settings
from hypothesis import strategies as st
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas

from seedbox.errors import UsageError
from seedbox.printing import drawing
from seedbox.printing.content import FIELDS, MM, Box, LabelContent, LabelJob
from seedbox.printing.designs import Design, design
from seedbox.printing.frame import whole_dots
from seedbox.printing.labels import print_labels
from seedbox.printing.layout import Layout, lay_out
from seedbox.printing.pages import slots
from seedbox.printing.sheets import sheet, sheets

Make = Callable[[int], list[LabelContent]]
DPI = 600


def with_symbol(name: str, symbol: str) -> Design:
    found = design(name)
    return replace(found, code=replace(found.code, symbol=symbol))


@pytest.mark.parametrize(
    ("wish", "least", "room", "dpi", "module"),
    [
        (0.33, 0.25, 0.4, 300, 4 * 25.4 / 300),  # 0.339 mm
        (0.33, 0.25, 0.3, 300, 3 * 25.4 / 300),  # 0.254 mm
        (0.33, 0.25, 0.4, 203, 3 * 25.4 / 203),  # 0.375 mm
        (0.42, 0.25, 0.5, 300, 5 * 25.4 / 300),
        (0.33, 0.25, 0.25, 300, 0.0),  # 3 dots are 0.254 mm
        (0.25, 0.25, 1.0, 300, 3 * 25.4 / 300),
        (0.25, 0.25, 1.0, 203, 2 * 25.4 / 203),
    ],
)
def test_modules_are_whole_printer_dots(
    wish: float, least: float, room: float, dpi: int, module: float
) -> None:
    assert whole_dots(wish, least, room, dpi) == pytest.approx(module)


@settings(deadline=None)
@given(st.floats(0.25, 1), st.floats(0.05, 2), st.sampled_from((203, 300, 600, 1200)))
def test_a_module_is_never_below_the_least_nor_above_its_room(
    wish: float, room: float, dpi: int
) -> None:
    module = whole_dots(wish, 0.25, room, dpi)
    assert module == 0 or 0.25 - 1e-6 <= module <= room + 1e-6
    assert module or room < 0.25 + 25.4 / dpi


def rectangles(layout: Layout) -> list[Box]:
    places = [symbol.box for symbol in layout.symbols] + [layout.words.box]
    return places + ([layout.typed.box] if layout.typed else [])


@pytest.mark.parametrize("symbol", ["qr", "both"])
@pytest.mark.parametrize("kind", ["packet", "tray"])
def test_nothing_leaves_the_label_and_nothing_overlaps(kind: str, symbol: str) -> None:
    fitted = 0
    for one in sheets().values():
        try:
            boxes = rectangles(lay_out(with_symbol(kind, symbol), one, 300))
        except UsageError:
            assert symbol == "both"
            continue
        fitted += 1
        for box in boxes:
            assert box.x >= -0.01
            assert box.y >= -0.01
            assert box.right <= one.label_width_mm * MM + 0.01, one.name
            assert box.top <= one.label_height_mm * MM + 0.01, one.name
            assert min(box.width, box.height) >= 5 * 1.22, one.name  # a line of 5 points
        for at, first in enumerate(boxes):
            for second in boxes[at + 1 :]:
                apart_x = first.right <= second.x + 0.01 or second.right <= first.x + 0.01
                apart_y = first.top <= second.y + 0.01 or second.top <= first.y + 0.01
                assert apart_x or apart_y, one.name
    assert fitted >= (42 if symbol == "qr" else 30)


@pytest.mark.parametrize("name", ["a4-stake-20x140", "a4-stake-15x140"])
def test_what_is_pushed_into_the_soil_is_blank(
    name: str, make_items: Make, render: Callable[..., Any], tmp_path: Path
) -> None:
    one = sheet(name)
    job = LabelJob(design("packet"), one, make_items(1), outlines=False)
    page = render(print_labels(job, tmp_path / "labels.pdf").path)
    top, bottom = (
        round((one.top_mm + share * one.label_height_mm) / 25.4 * 300) for share in (0.6, 1.0)
    )
    assert page[top:bottom].min() == 255
    assert page[:top].min() == 0


@pytest.mark.parametrize("kind", ["packet", "tray"])
@pytest.mark.parametrize(
    "name",
    ["a4-189-25x10", "a4-65-38x21-butt", "a4-4-105x148-butt", "a4-stake-15x140", "roll-12mm"],
)
def test_the_qr_quiet_zone_on_the_page_is_four_modules(
    name: str, kind: str, make_items: Make, render: Callable[..., Any], tmp_path: Path
) -> None:
    """ISO/IEC 18004:2015, 9.1, measured on the page, with cutting lines drawn."""
    one = sheet(name)
    job = LabelJob(design(kind), one, make_items(min(one.count, 14)), outlines=True)
    page = render(print_labels(job, tmp_path / "labels.pdf").path, dpi=DPI)
    found = zxingcpp.read_barcodes(page, formats=zxingcpp.QRCode)
    assert found
    for code in found:
        left, top = code.position.top_left.x, code.position.top_left.y
        right, bottom = code.position.bottom_right.x, code.position.bottom_right.y
        quiet = round((right - left) / 21 * 4) - 2  # two pixels for the reader's own rounding
        assert (right - left) / 21 / DPI * 25.4 > 0.245
        around = page[top - quiet : bottom + quiet, left - quiet : right + quiet].copy()
        around[quiet - 2 : 2 - quiet, quiet - 2 : 2 - quiet] = 255
        # A cutting line may touch the outermost pixels where the label ends with the quiet zone.
        assert around[3:-3, 3:-3].min() == 255


@pytest.mark.parametrize("name", ["a4-65-38x21-butt", "a4-33-70x25-butt"])
def test_the_code_128_quiet_zone_on_the_page_is_ten_x(
    name: str, make_items: Make, render: Callable[..., Any], tmp_path: Path
) -> None:
    """ISO/IEC 15417:2007, 4.4, measured along the middle of the bars."""
    one = sheet(name)
    job = LabelJob(with_symbol("packet", "both"), one, make_items(3), outlines=False)
    path = print_labels(job, tmp_path / "labels.pdf").path
    page = render(path, dpi=DPI)
    found = zxingcpp.read_barcodes(page, formats=zxingcpp.Code128)
    assert len(found) == 3
    for code in found:
        left, right = code.position.top_left.x, code.position.top_right.x
        middle = (code.position.top_left.y + code.position.bottom_left.y) // 2
        unit = 3 * 25.4 / 300 / 25.4 * DPI
        quiet = int(10 * unit) - 3
        assert page[middle, left - quiet : left - 2].min() == 255
        assert page[middle, right + 3 : right + quiet].min() == 255


class Recorder(Canvas):  # type: ignore[misc]
    """Notes where every run is drawn; the words of turned labels come in their own frame."""

    drawn: list[tuple[float, float, float, float]]

    def drawString(self, x: float, y: float, text: str) -> None:
        wide = stringWidth(text, self._fontname, self._fontsize)
        Recorder.drawn.append((x, y, x + wide, self._fontsize))
        super().drawString(x, y, text)


WORDS = st.text(max_size=60) | st.text("Abc Ễ́漢字 w", max_size=120)


@settings(max_examples=60, deadline=None)
@given(
    st.fixed_dictionaries(dict.fromkeys(set(FIELDS) - {"code"}, WORDS)),
    st.sampled_from(
        ["a4-189-25x10", "a4-65-38x21-gap", "letter-30-2.625x1", "a4-4-105x148-butt", "roll-38mm"]
    ),
    st.sampled_from(["packet", "tray"]),
)
def test_every_drawn_run_stays_inside_its_label(
    fields: dict[str, str], name: str, kind: str
) -> None:
    one = sheet(name)
    job = LabelJob(design(kind), one, [LabelContent("P4K7QMX2", fields)])
    place = slots(job)[0].box
    original, drawing.Canvas = drawing.Canvas, Recorder
    Recorder.drawn = []
    try:
        drawing.draw_pages(job, one, slots(job), 300)
    finally:
        drawing.Canvas = original
    assert Recorder.drawn
    for left, baseline, right, size in Recorder.drawn:
        assert left >= place.x - 0.01
        assert right <= place.right + 0.01
        assert baseline - 0.27 * size >= place.y - 0.01
        assert baseline + 0.95 * size <= place.top + 0.01
