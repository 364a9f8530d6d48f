"""Every design on every sheet that it fits, looked at from outside: codes by zxing-cpp on the page
as printed, words by the places that PDFium finds for their characters.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import combinations
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
import zxingcpp

from seedbox.errors import UsageError
from seedbox.printing.content import Box, LabelContent, LabelJob
from seedbox.printing.designs import Design, design, designs
from seedbox.printing.drawing import draw_pages
from seedbox.printing.layout import lay_out, with_code
from seedbox.printing.pages import Slot, slots
from seedbox.printing.places import Layout
from seedbox.printing.sheets import Sheet, sheet, sheets

Make = Callable[[int], list[LabelContent]]
Ink = Callable[..., list[tuple[str, Box, tuple[float, float]]]]
READER = zxingcpp.BarcodeFormats([zxingcpp.QRCode, zxingcpp.Code128])
DPI = 300
OVERHANG_PT = 0.5
"""Slanted letters lean out of their advance a little."""
# How many of the 46 sheets each way of carrying the code fits: fewer would be a loss.
FITS = {"once": 46, "twice": 36, "rugged": 40}


def variants() -> list[Design]:
    """Every shipped design, and with its code twice and rugged where it has one."""
    found = list(designs().values())
    coded = [one for one in found if one.code.printed]
    return found + [with_code(one, layout) for one in coded for layout in ("twice", "rugged")]


def fits(one: Design, stock: Sheet) -> bool:
    try:
        return bool(lay_out(one, stock, DPI))
    except UsageError:
        return False


@pytest.mark.parametrize("layout", FITS)
def test_how_many_sheets_a_way_of_carrying_the_code_fits(layout: str) -> None:
    one = with_code(design("packet"), layout)
    assert sum(fits(one, stock) for stock in sheets().values()) >= FITS[layout]


@pytest.mark.parametrize("name", list(sheets()))
def test_codes_are_read_and_words_stay_in_their_place(
    name: str, make_items: Make, ink: Ink
) -> None:
    stock = sheet(name)
    fitting = [one for one in variants() if fits(one, stock)]
    assert {one.name for one in fitting} >= set(designs()) - {"divider"}
    items = make_items(len(fitting))
    job = LabelJob(
        design("packet"),
        stock,
        [replace(item, design=one) for item, one in zip(items, fitting, strict=True)],
    )
    document = pypdfium2.PdfDocument(draw_pages(job, stock, slots(job), DPI))
    try:
        pages: dict[int, list[Slot]] = defaultdict(list)
        for slot in slots(job):
            pages[slot.page].append(slot)
        for number, on_page in pages.items():
            image = document[number].render(scale=DPI / 72, grayscale=True).to_numpy()
            check_codes(image, on_page, stock)
            check_words(ink(document[number]), on_page, stock)
    finally:
        document.close()


def laid_out(slot: Slot, stock: Sheet) -> Layout:
    assert slot.content.design is not None
    return lay_out(slot.content.design, stock, DPI)


def check_codes(image: Any, on_page: list[Slot], stock: Sheet) -> None:
    """On each label exactly its own code, once for each symbol that its design puts there."""
    for slot in on_page:
        scale, high = DPI / 72, image.shape[0]
        rows = slice(max(0, round(high - slot.box.top * scale)), round(high - slot.box.y * scale))
        columns = slice(max(0, round(slot.box.x * scale)), round(slot.box.right * scale))
        found = zxingcpp.read_barcodes(image[rows, columns], formats=READER, try_invert=False)
        kinds = sorted("qr" if code.format == zxingcpp.QRCode else "code128" for code in found)
        assert {code.text for code in found} <= {slot.content.code}
        assert kinds == sorted(laid_out(slot, stock).kinds), slot.content.design


def check_words(found: list[Any], on_page: list[Slot], stock: Sheet) -> None:
    """Each character lies in one box of words, on no code nor quiet zone, on no other line."""
    lines: dict[tuple[int, int, int], list[Box]] = defaultdict(list)
    quiet = [moved(symbol.box, slot.box) for slot, symbol in symbols(on_page, stock)]
    for char, box, origin in found:
        at, place, turned = home(box, on_page, stock, char)
        lines[at, place, round(origin[0 if turned else 1])].append(box)
        assert not any(meet(box, other) for other in quiet), char
    for slot in on_page:
        assert any(at == id(slot) for at, *_ in lines), "a label without words"
    whole = {key: around(boxes) for key, boxes in lines.items()}
    for (one, first), (other, second) in combinations(whole.items(), 2):
        if one[:2] == other[:2]:
            assert not meet(first, second), (one, other)


def symbols(on_page: list[Slot], stock: Sheet) -> Iterator[tuple[Slot, Any]]:
    for slot in on_page:
        for symbol in laid_out(slot, stock).symbols:
            yield slot, symbol


def home(box: Box, on_page: list[Slot], stock: Sheet, char: str) -> tuple[int, int, bool]:
    """The label and the box of words that a character lies in."""
    for slot in on_page:
        layout = laid_out(slot, stock)
        places = [place for place in (layout.words, layout.typed, layout.tab) if place]
        for number, place in enumerate(places):
            if within(box, moved(place.box, slot.box)):
                return id(slot), number, place.turned
    raise AssertionError(f"{char} at {box} lies in no box of words")


def moved(box: Box, at: Box) -> Box:
    return replace(box, x=box.x + at.x, y=box.y + at.y)


def within(box: Box, outer: Box) -> bool:
    left, bottom = outer.x - OVERHANG_PT, outer.y - OVERHANG_PT
    right, top = outer.right + OVERHANG_PT, outer.top + OVERHANG_PT
    return left <= box.x and box.right <= right and bottom <= box.y and box.top <= top


def meet(one: Box, other: Box) -> bool:
    apart_x = one.right <= other.x + 0.05 or other.right <= one.x + 0.05
    apart_y = one.top <= other.y + 0.05 or other.top <= one.y + 0.05
    return not (apart_x or apart_y)


def around(boxes: list[Box]) -> Box:
    left, bottom = min(box.x for box in boxes), min(box.y for box in boxes)
    right, top = max(box.right for box in boxes), max(box.top for box in boxes)
    return Box(left, bottom, right - left, top - bottom)


def test_the_page_in_the_file_is_the_page_drawn(make_items: Make, tmp_path: Path) -> None:
    """The checks above look at bytes in memory; `print_labels` writes the same."""
    from seedbox.printing.labels import print_labels

    job = LabelJob(design("tray"), sheet("a4-80-36x17"), make_items(90))
    printed = print_labels(job, tmp_path / "labels.pdf", proof=False)
    assert printed.path.read_bytes() == draw_pages(job, job.sheet, slots(job), DPI)
    assert (printed.labels, printed.pages) == (90, 2)
