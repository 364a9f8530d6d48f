"""Label contents of an invented garden, and a page looked at from outside."""

from __future__ import annotations

import ctypes
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy
import pypdfium2
import pytest
from pypdfium2 import raw

from seedbox.printing.content import Box, LabelContent

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


@pytest.fixture(scope="session")
def make_items() -> Callable[[int], list[LabelContent]]:
    """`count` labels with every field filled, each with a code of its own."""

    def make(count: int) -> list[LabelContent]:
        return [_content(number) for number in range(count)]

    return make


def _content(number: int) -> LabelContent:
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


@pytest.fixture(scope="session")
def ink() -> Callable[[Any], list[tuple[str, Box, tuple[float, float]]]]:
    """Where PDFium finds the characters of a page: each with the box of its ink and the place of
    its baseline [points]. Blanks are left out.
    """

    def found(page: Any) -> list[tuple[str, Box, tuple[float, float]]]:
        words = page.get_textpage()
        try:
            return [
                (chr(code), _char_box(words, at), _origin(words, at))
                for at in range(words.count_chars())
                if (code := raw.FPDFText_GetUnicode(words, at)) > 32 and not chr(code).isspace()
            ]
        finally:
            words.close()

    return found


def _char_box(words: Any, at: int) -> Box:
    left, bottom, right, top = words.get_charbox(at)
    return Box(left, bottom, right - left, top - bottom)


def _origin(words: Any, at: int) -> tuple[float, float]:
    x, y = ctypes.c_double(), ctypes.c_double()
    raw.FPDFText_GetCharOrigin(words, at, x, y)
    return x.value, y.value


@pytest.fixture(scope="session")
def render() -> Callable[..., Any]:
    """A page of a PDF as a greyscale array [row, column], 0 black to 255 white."""

    def page(path: Path, dpi: int = 300, number: int = 0) -> Any:
        document = pypdfium2.PdfDocument(path)
        try:
            image = document[number].render(scale=dpi / 72, grayscale=True).to_pil()
            return numpy.asarray(image)
        finally:
            document.close()

    return page
