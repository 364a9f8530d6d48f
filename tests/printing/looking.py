"""Pages of labels looked at from outside: codes by zxing-cpp, words by the places that PDFium finds
for their characters. What is wrong raises AssertionError.
"""

from __future__ import annotations

import ctypes
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations
from typing import Any

import pypdfium2
import zxingcpp
from pypdfium2 import raw

from seedbox.errors import UsageError
from seedbox.printing.content import Box, LabelContent, LabelJob
from seedbox.printing.designs import Design, design, designs
from seedbox.printing.drawing import draw_pages
from seedbox.printing.layout import lay_out, with_code
from seedbox.printing.pages import Slot, slots
from seedbox.printing.places import Layout
from seedbox.printing.sheets import Sheet

READER = zxingcpp.BarcodeFormats([zxingcpp.QRCode, zxingcpp.Code128])
DPI = 300
OVERHANG_PT = 0.5
"""Slanted letters lean out of their advance a little."""

DIGITS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
NAMES = (
    ("Lettuce", "Lactuca sativa", "Grey Heron"),
    ("Climbing French bean", "Phaseolus vulgaris", "Blue Lantern Improved Extra Early"),
    ("Μαρούλι", "Lactuca sativa", "Ρωμαϊκό Θερινό"),
    ("Свёкла столовая", "Beta vulgaris", "Ночная заря"),
    ("Rau muống", "Ipomoea aquatica", "Ễnh Ương Đỏ Sẫm"),
    ("Donaudampfschifffahrtsrübenkohl", "Brassica oleracea", "Überwinterungsfähigkeitswunder"),
    ("ミニトマト", "Solanum lycopersicum", "夕焼け小町"),
)


def content(number: int) -> LabelContent:
    """A label with every field filled and a code of its own."""
    crop, botanical, variety = NAMES[number % len(NAMES)]
    serial = number * 2_654_435_761 % 32**7
    digits = "".join(DIGITS[serial >> 5 * place & 31] for place in range(7))
    fields = {
        "crop": crop,
        "botanical": botanical,
        "variety": variety,
        "year": "harvest 2023",
        "source": "Hollow Lane seed swap",
        "left": "84 seeds",
        "store": "cold shed",
        "germination": "46 of 50, March 2024",
        "caution": "Dressed seed: wear gloves, do not eat" if number % 4 == 1 else "",
        "note": "sow late" if number % 3 else "",
        "sown_on": "sown 3 May 2026",
        "cells": "24 cells",
        "place": "cold frame",
        "laid_on": "laid 20 February 2027",
        "seeds": "25 seeds, replicate 1 of 4",
        "first_count": "first count 26 February",
        "final_count": "last count 6 March",
        "temperature": "30 °C by day and 20 °C by night",
        "pretreatment": "soak 24 h, chill if fresh",
        "packet": "packet P4K7 QMX2",
        "tally": "26-Feb:_____ 1-Mar:_____ 3-Mar:_____ 6-Mar:_____",
        "harvested": "harvested 2023",
        "good_until": "good until 2029",
        "sealed": "sealed 2026-02-03 at 6 % moisture",
        "reference": "no. P4K7 QMX2",
        "month": "2026-11",
        "treated": "TREATED: dressed, do not eat" if number % 4 == 1 else "not treated",
        "hazard": "POISONOUS" if number % 5 == 2 else "",
        "sharer": "Ines Marlow",
        "town": "Netherby-under-the-Long-Hill" if number % 3 else "Netherby",
        "law": "Shared, not sold. Check your own local law before you pass it on.",
        "line": "Hollow Lane allotments, plot 7" if number % 2 else "",
        "number": f"cell {number + 1} of 120",
        "group": "Climbing beans and peas" if number % 2 else "March",
        "members": "broad bean, climbing French bean, dwarf French bean, pea, runner bean, vetch",
        "how_to_sow": "indoors 3 to 6 cm deep",
    }
    return LabelContent("P" + digits, fields)


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


def look_at_every_design(stock: Sheet) -> tuple[int, int]:
    """Draws a label of each design and way of carrying the code that fits, on as many pages as
    it takes; gives how many labels and how many codes were looked at.
    """
    fitting = [one for one in variants() if fits(one, stock)]
    items = [replace(content(number), design=one) for number, one in enumerate(fitting)]
    job = LabelJob(design("packet"), stock, items)
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
    return len(items), sum(len(laid_out(slot, stock).kinds) for slot in slots(job))


def ink(page: Any) -> list[tuple[str, Box, tuple[float, float]]]:
    """Where PDFium finds the characters of a page: each with the box of its ink and the place of
    its baseline [points]. Blanks are left out.
    """
    words = page.get_textpage()
    try:
        return [
            (chr(code), _char_box(words, at), _origin(words, at))
            for at in range(words.count_chars())
            if (code := raw.FPDFText_GetUnicode(words, at)) > 32 and not chr(code).isspace()
        ]
    finally:
        words.close()


def _char_box(words: Any, at: int) -> Box:
    left, bottom, right, top = words.get_charbox(at)
    return Box(left, bottom, right - left, top - bottom)


def _origin(words: Any, at: int) -> tuple[float, float]:
    x, y = ctypes.c_double(), ctypes.c_double()
    raw.FPDFText_GetCharOrigin(words, at, x, y)
    return x.value, y.value


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
