"""Symbols with dirty corner squares: read where a reader gives up, and nothing made up."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
import segno
import zxingcpp
from PIL import Image, ImageDraw

from seedbox.scanning.finding import find
from seedbox.scanning.mending import mended
from seedbox.scanning.poses import binarised, known_modules
from seedbox.scanning.sightings import Meaning
from seedbox.scanning.squares import squares
from tests.scanning.composing import codes

MODULE, QUIET = 8, 4
CODE = codes(1)[0]
CORNERS = ((0, 0), (14, 0), (0, 14))


def symbol(text: str = CODE, **options: Any) -> Any:
    """A symbol by segno in a greyscale picture with room about it."""
    wanted = {"version": 1, "error": "h", "mask": 2, "micro": False, "boost_error": False}
    made = segno.make(text, **{**wanted, **options})
    dark = np.array([list(row) for row in made.matrix], bool)
    page = np.pad(np.where(dark, 40, 225).astype(np.uint8), 2 * QUIET, constant_values=225)
    return Image.fromarray(page.repeat(MODULE, 0).repeat(MODULE, 1))


def blotted(picture: Any, *spots: tuple[float, float], radius: float = 4.5) -> Any:
    """Round blots; places and radius in modules from the symbol's top left."""
    copy, pen_at = picture.copy(), 2 * QUIET
    pen = ImageDraw.Draw(copy)
    for x, y in spots:
        left, top = (x + pen_at - radius) * MODULE, (y + pen_at - radius) * MODULE
        pen.ellipse((left, top, left + 2 * radius * MODULE, top + 2 * radius * MODULE), fill=90)
    return copy


def plain(picture: Any) -> set[str]:
    return {each.text for each in zxingcpp.read_barcodes(np.asarray(picture))}


def test_what_is_known_of_every_symbol_is_so_in_those_of_another_writer():
    """segno writes ISO/IEC 18004 symbols and knows nothing of this."""
    for text in codes(40):
        made = segno.make(text, version=1, error="h", mask=2, micro=False, boost_error=False)
        for column, row, dark in known_modules():
            assert bool(made.matrix[row][column]) == dark, (column, row)


@pytest.mark.parametrize("clean", range(3))
@pytest.mark.parametrize("turn", [0, 7, 45, 90, 200])
def test_one_clean_corner_is_enough(clean: int, turn: float):
    dirty = [(x + 3.5, y + 3.5) for at, (x, y) in enumerate(CORNERS) if at != clean]
    picture = blotted(symbol(), *dirty).rotate(turn, Image.Resampling.BICUBIC, True, fillcolor=225)
    assert plain(picture) == set()
    assert [each.text for each in mended(picture)] == [CODE]


def test_it_says_where_the_symbol_lies():
    corners = mended(blotted(symbol(), (3.5, 3.5)))[0].corners
    edge, end = 2 * QUIET * MODULE, (2 * QUIET + 21) * MODULE
    wanted = ((edge, edge), (end, edge), (end, end), (edge, end))
    for (x, y), (right_x, right_y) in zip(corners, wanted, strict=True):
        assert abs(x - right_x) < MODULE and abs(y - right_y) < MODULE


def test_squares_are_found_however_they_are_turned():
    for turn in range(0, 90, 15):
        picture = symbol().rotate(turn, Image.Resampling.BICUBIC, True, fillcolor=225)
        assert len(squares(binarised(picture))) >= 3, turn


def test_a_photo_with_some_clean_and_some_dirty_labels_gives_both():
    table = Image.new("L", (900, 420), 130)
    other = codes(2)[1] if codes(2)[0] == CODE else codes(2)[0]
    table.paste(symbol(other), (40, 40))
    table.paste(blotted(symbol(), (17.5, 3.5), (3.5, 17.5)), (480, 50))
    assert {each.text for each in find(table)} == {CODE, other}


@pytest.mark.parametrize(
    "picture",
    [
        symbol("HELLO", mask=None),
        symbol("HTTPS://A", error="q"),
        symbol(CODE, error="l", mask=5),
        Image.effect_noise((400, 400), 120),
        Image.new("L", (300, 300), 255),
    ],
    ids=["words", "a link", "another mask", "noise", "nothing"],
)
def test_nothing_is_made_up(picture: Any):
    dirty = blotted(picture, (3.5, 3.5))
    assert mended(dirty) == []


def test_a_wrong_check_character_is_no_code():
    wrong = CODE[:-1] + ("A" if CODE[-1] != "A" else "B")
    assert mended(blotted(symbol(wrong), (3.5, 3.5))) == []
    found = find(symbol(wrong))
    assert all(each.meaning is not Meaning.OURS for each in found)
