"""Places on the paper: a measured printer scale, rolls of any length, round corners."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
import zxingcpp
from hypothesis import given
from hypothesis import strategies as st

from seedbox.errors import UsageError
from seedbox.printing.content import MM, Box, LabelContent, LabelJob
from seedbox.printing.designs import design, designs
from seedbox.printing.labels import print_labels
from seedbox.printing.layout import lay_out, with_code
from seedbox.printing.pages import slots
from seedbox.printing.sheets import Sheet, read_sheets, sheet, sheets

Make = Callable[[int], list[LabelContent]]
ROLLS = [name for name, one in sheets().items() if one.is_roll]
ONE = [LabelContent("P4K7QMX2", {"crop": "Pea"})]


@given(
    st.sampled_from(sorted(sheets())),
    st.floats(0.9, 1.1),
    st.floats(0.9, 1.1),
    st.floats(-5, 5),
    st.floats(-5, 5),
    st.integers(1, 400),
)
def test_a_printer_that_stretches_puts_labels_where_the_sheet_has_them(
    name: str, x: float, y: float, right: float, down: float, start: int
) -> None:
    """What the printer makes of the page, worked out from its top left corner [mm]."""
    one = sheet(name)
    start = (start - 1) % one.count + 1
    job = LabelJob(design("packet"), one, ONE, start=start, scale_x=x, scale_y=y,
                   offset_x_mm=right, offset_y_mm=down)  # fmt: skip
    (slot,) = slots(job)
    row, column = divmod(start - 1, one.columns)
    top = (one.page_height_mm * MM - slot.box.top) / MM * y
    assert slot.box.x / MM * x == pytest.approx(one.left_mm + column * one.column_pitch_mm + right)
    assert top == pytest.approx(one.top_mm + row * one.row_pitch_mm + down, abs=1e-6)
    assert slot.box.width / MM * x == pytest.approx(one.label_width_mm)
    assert slot.box.height / MM * y == pytest.approx(one.label_height_mm)


def test_a_scaled_page_is_read_back_and_its_codes_lie_where_they_should(
    make_items: Make, render: Callable[..., Any], tmp_path: Path
) -> None:
    one = sheet("a4-65-38x21-gap")
    plain = LabelJob(design("packet"), one, make_items(65))
    stretched = replace(plain, scale_x=1.02, scale_y=0.985)
    places = []
    for job, sizes in ((plain, (1.0, 1.0)), (stretched, (1.02, 0.985))):
        printed = print_labels(job, tmp_path / "labels.pdf")
        assert printed.unreadable == ()
        found = zxingcpp.read_barcodes(render(printed.path), formats=zxingcpp.QRCode)
        centres = {code.text: _centre(code) for code in found}
        places.append({text: (x * sizes[0], y * sizes[1]) for text, (x, y) in centres.items()})
    assert places[0].keys() == places[1].keys()
    for code, (x, y) in places[0].items():
        # 300 dpi: 12 pixels are 1 mm; a code moves within its label as that gets smaller.
        assert places[1][code] == (pytest.approx(x, abs=12), pytest.approx(y, abs=12))


def _centre(code: Any) -> tuple[float, float]:
    corner, other = code.position.top_left, code.position.bottom_right
    return (corner.x + other.x) / 2, (corner.y + other.y) / 2


@given(st.sampled_from(ROLLS), st.floats(10, 2000), st.sampled_from(sorted(designs())))
def test_a_roll_gives_labels_of_any_length(name: str, length: float, kind: str) -> None:
    """Either the design is laid out inside the label, or a sentence says that it does not fit."""
    one = sheet(name).with_length(length)
    along, across = sorted((one.page_width_mm, one.page_height_mm), reverse=one.reading == "along")
    assert length == pytest.approx(one.label_width_mm if one.reading == "along"
                                   else one.label_height_mm)  # fmt: skip
    assert along and across
    try:
        layout = lay_out(design(kind), one, 300)
    except UsageError as refusal:
        assert f"{one.label_width_mm:.4g} x {one.label_height_mm:.4g} mm" in refusal.sentence
        assert refusal.hint
        return
    for box in layout.boxes():
        assert box.x >= -1e-6
        assert box.y >= -1e-6
        assert box.right <= one.label_width_mm * MM + 1e-6
        assert box.top <= one.label_height_mm * MM + 1e-6


@pytest.mark.parametrize("name", ROLLS)
@pytest.mark.parametrize("length", [30.0, 61.7, 250.0, 2000.0])
def test_rolls_are_printed_at_that_length_and_read_back(
    name: str, length: float, make_items: Make, tmp_path: Path
) -> None:
    import pypdfium2

    job = LabelJob(design("packet"), sheet(name), make_items(2), length_mm=length)
    printed = print_labels(job, tmp_path / "roll.pdf")
    assert (printed.pages, printed.unreadable) == (2, ())
    document = pypdfium2.PdfDocument(printed.path)
    size = [edge / MM for edge in document[0].get_size()]
    document.close()
    fixed = float(name.removeprefix("roll-").removesuffix("mm"))
    wanted = [length, fixed] if sheet(name).reading == "along" else [fixed, length]
    assert size == pytest.approx(wanted, abs=0.01)


@pytest.mark.parametrize("length", [9.9, 2000.1, float("nan"), -20.0])
@pytest.mark.parametrize("name", ROLLS)
def test_lengths_that_no_roll_has_are_refused(name: str, length: float, tmp_path: Path) -> None:
    job = LabelJob(design("packet"), sheet(name), ONE, length_mm=length)
    with pytest.raises(UsageError, match="10 to 2000 mm"):
        print_labels(job, tmp_path / "roll.pdf")
    assert list(tmp_path.iterdir()) == []


def test_a_tape_too_low_for_a_square_carries_bars(tmp_path: Path) -> None:
    tape = replace(sheet("roll-12mm"), page_height_mm=6.0, label_height_mm=6.0).with_length(80)
    job = LabelJob(design("packet"), tape, [LabelContent("P4K7QMX2", {"crop": "Pea"})])
    assert lay_out(job.design, tape, 300).kinds == ("code128",)
    assert print_labels(job, tmp_path / "tape.pdf").unreadable == ()


def test_where_nothing_fits_a_sentence_names_what_would() -> None:
    rugged = with_code(design("packet"), "rugged")
    with pytest.raises(UsageError) as caught:
        lay_out(rugged, sheet("a4-189-25x10"), 300)
    assert "25.4 x 10 mm" in caught.value.sentence
    named = [one for one in sheets() if one in caught.value.hint]
    assert len(named) == 3
    assert all(lay_out(rugged, sheet(one), 300) for one in named)
    assert lay_out(with_code(rugged, "once"), sheet("a4-189-25x10"), 300)


ROUND = """
[mine]
page_width_mm = {width}
page_height_mm = {height}
columns = 1
rows = 1
label_width_mm = {width}
label_height_mm = {height}
left_mm = 0
top_mm = 0
corner = "round"
corner_mm = {corner}
"""


@given(st.floats(8, 120), st.floats(8, 120), st.floats(0, 8), st.sampled_from(sorted(designs())),
       st.sampled_from(("once", "twice", "rugged")))  # fmt: skip
def test_nothing_stands_in_a_round_corner(
    width: float, height: float, corner: float, kind: str, layout: str
) -> None:
    """Neither words nor a quiet zone: each corner of each box lies inside the rounded outline."""
    one = replace(sheet("roll-62mm"), page_width_mm=width, page_height_mm=height,
                  label_width_mm=width, label_height_mm=height, corner_mm=corner)  # fmt: skip
    try:
        places = lay_out(with_code(design(kind), layout), one, 300)
    except UsageError:
        return
    for box in places.boxes():
        for x in (box.x, box.right):
            for y in (box.y, box.top):
                assert outside_by(x / MM, y / MM, one) <= 0.02, (box, corner)


def outside_by(x: float, y: float, one: Sheet) -> float:
    """How far a point lies outside a rectangle with round corners [mm]."""
    radius = min(one.corner_mm, one.label_width_mm / 2, one.label_height_mm / 2)
    right = max(abs(x - one.label_width_mm / 2) - one.label_width_mm / 2 + radius, 0.0)
    up = max(abs(y - one.label_height_mm / 2) - one.label_height_mm / 2 + radius, 0.0)
    return math.hypot(right, up) - radius


def test_a_radius_is_read_and_only_for_round_corners(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(ROUND.format(width=60, height=30, corner=3.5))
    assert read_sheets(path)["mine"].corner_mm == 3.5
    path.write_text(ROUND.format(width=60, height=30, corner=3.5).replace('"round"', '"square"'))
    with pytest.raises(Exception, match="corner_mm: is for round corners"):
        read_sheets(path)
    assert sheet("a4-65-38x21-gap").corner_mm == 2.0
    assert sheet("a4-65-38x21-butt").corner_mm == 0.0


def test_butted_labels_leave_their_neighbours_alone(make_items: Make) -> None:
    """On sheets without gaps no box of one label reaches into the next one."""
    for name in (name for name in sheets() if name.endswith("butt")):
        one = sheet(name)
        job = LabelJob(design("packet"), one, make_items(2))
        first, second = slots(job)
        layout = lay_out(job.design, one, 300)
        for box in layout.boxes():
            assert Box(first.box.x + box.x, 0, box.width, 0).right <= second.box.x + 1e-6
