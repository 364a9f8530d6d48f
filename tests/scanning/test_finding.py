"""All codes of a photo: crowded, tilted, turned, inverted, and nothing that is none of ours.

Reach for crowded photos (design of this project): 99 % of 60, 97 % of 150, 95 % of 300 labels. A
small photo stands for them here; `python -m tests.bench.scanning` measures the large ones.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
import segno
import zxingcpp
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageOps

from seedbox.scanning import finding
from seedbox.scanning.finding import find
from seedbox.scanning.placing import in_reading_order
from seedbox.scanning.sightings import Meaning, Sighting, Symbol
from seedbox.scanning.views import OVERLAP, tiles, turned, turned_back
from tests.scanning.composing import Shot, codes
from tests.scanning.conftest import CODES, EAN

Shoot = Callable[..., Any]


def texts(image: Any, **how: Any) -> list[str]:
    return [each.text for each in in_reading_order(find(image, **how))]


def symbol(text: str, kind: Any) -> Any:
    """A symbol on a white ground, made by a library that is not ours."""
    made = zxingcpp.create_barcode(text, kind)
    return Image.fromarray(zxingcpp.write_barcode_to_image(made, scale=4))


def on_table(picture: Any, size: tuple[int, int] = (900, 650)) -> Any:
    table = Image.new("L", size, 225)
    table.paste(picture, (200, 200))
    return table


def test_a_crowded_photo_is_read_nearly_whole_and_in_reading_order(shoot: Shoot) -> None:
    wanted = codes(25, seed=4)
    image = shoot(wanted, 5, (2000, 906), Shot())
    seen = texts(image)
    assert len(set(seen) & set(wanted)) >= 0.97 * len(wanted)
    assert set(seen) <= set(wanted)
    assert seen == [code for code in wanted if code in seen]


def test_squares_of_less_than_two_pixels_are_still_read(shoot: Shoot) -> None:
    """As in a photo of 300 labels with 12 million pixels; a plain call reads none."""
    wanted = codes(12, seed=4)
    image = shoot(wanted, 4, (1143, 408), Shot(fill=0.98), least_module_mm=0.33)
    seen = texts(image)
    assert len(set(seen) & set(wanted)) >= 0.8 * len(wanted)
    assert set(seen) <= set(wanted)
    assert not zxingcpp.read_barcodes(image, formats=zxingcpp.BarcodeFormat.QRCode)


def test_one_call_of_the_reader_would_not_have_been_enough(shoot: Shoot) -> None:
    """The test above shows something only if it is harder than what a reader does by itself."""
    image = shoot(codes(25, seed=4), 5, (2000, 906), Shot())
    alone = zxingcpp.read_barcodes(image, formats=zxingcpp.BarcodeFormat.QRCode)
    assert len(alone) < 0.9 * 25


@pytest.mark.parametrize("degrees", [37, 90, 180])
def test_squares_are_read_however_the_photo_is_turned(shoot: Shoot, degrees: int) -> None:
    image = turned(shoot(CODES[:6], 3, (1200, 800)), degrees)
    assert set(texts(image)) == set(CODES[:6])


@pytest.mark.parametrize("degrees", [24, 131])
def test_bars_are_read_at_free_angles(shoot: Shoot, degrees: int) -> None:
    one = Shot(tilt=0, askew=0, blur=0.5, grain=4, shade=0.2, fill=0.9)
    image = shoot(CODES[:2], 1, (1000, 1150), one, symbol="code128", on="a4-21-64x38-gap")
    assert set(texts(turned(image, degrees))) == set(CODES[:2])


def test_light_symbols_on_dark_are_read_too(shoot: Shoot) -> None:
    image = ImageOps.invert(shoot(CODES[:4], 2, (1000, 700)))
    assert set(texts(image)) == set(CODES[:4])


def test_places_of_a_turned_photo_are_those_of_the_photo(shoot: Shoot) -> None:
    """A reader tells the row of the bars that it read: any within their height, 100 pixels."""
    one = Shot(tilt=0, askew=0, blur=0.5, grain=4, shade=0.2, fill=0.9)
    level = shoot(CODES[:1], 1, (900, 500), one, symbol="code128", on="a4-21-64x38-gap")
    here = find(level)[0].centre
    for degrees in (-30,):
        image = turned(level, degrees)
        x, y = turned_back(find(image, thorough=True)[0].centre, degrees, image.size, level.size)
        assert (x, y) == pytest.approx(here, abs=50)


@given(
    st.floats(-180, 180),
    st.tuples(st.floats(0, 400), st.floats(0, 300)),
)
def test_turning_back_is_the_inverse_of_how_pictures_turn(
    degrees: float, point: tuple[float, float]
) -> None:
    """By a mark painted on a picture: Pillow turns it, we say where it was."""
    x, y = 60 + round(point[0]) % 280, 60 + round(point[1]) % 180
    picture = Image.new("L", (400, 300), 255)
    picture.paste(0, (x - 3, y - 3, x + 4, y + 4))
    image = turned(picture, degrees)
    left, top, right, bottom = ImageOps.invert(image).point(lambda v: 255 * (v > 127)).getbbox()
    middle = ((left + right) / 2, (top + bottom) / 2)
    assert turned_back(middle, degrees, image.size, picture.size) == pytest.approx((x, y), abs=3)


def test_a_photo_without_codes_gives_none() -> None:
    assert find(Image.effect_noise((900, 600), 60)) == []
    assert find(Image.new("L", (300, 300), 255)) == []


def test_a_stranger_s_link_is_kept_as_text_and_nothing_more() -> None:
    link = "https://garden.example/win?x=<b>[red]"
    (seen,) = find(on_table(symbol(link, zxingcpp.BarcodeFormat.QRCode)))
    assert (seen.text, seen.symbol, seen.meaning) == (link, Symbol.QR, Meaning.FOREIGN)


def test_a_trade_number_is_a_hint_and_no_code_of_ours() -> None:
    (seen,) = find(on_table(symbol(EAN, zxingcpp.BarcodeFormat.EAN13)))
    assert (seen.text, seen.symbol, seen.meaning) == (EAN, Symbol.EAN_13, Meaning.TRADE_NUMBER)


def test_a_code_that_fails_its_check_character_is_dropped() -> None:
    right = CODES[0]
    wrong = right[:-1] + ("7" if right[-1] != "7" else "8")
    assert find(on_table(symbol(wrong, zxingcpp.BarcodeFormat.QRCode))) == []
    (seen,) = find(on_table(symbol(right, zxingcpp.BarcodeFormat.QRCode)))
    assert seen.text == right


def test_every_one_of_more_symbols_than_a_call_can_give_is_found() -> None:
    """One call gives at most 255; an independent encoder draws 280 at 2 pixels a square."""
    wanted = codes(280, seed=9)
    table = Image.new("L", (20 * 64, 14 * 64), 255)
    for number, code in enumerate(wanted):
        made = segno.make(code, version=1, error="h", micro=False)
        small = Image.new("L", (21, 21), 255)
        small.putdata([255 * (not dark) for row in made.matrix for dark in row])
        row, column = divmod(number, 20)
        table.paste(small.resize((42, 42), Image.Resampling.NEAREST), (column * 64, row * 64 + 9))
    table = ImageOps.expand(table, 20, 255)
    assert texts(table) == wanted


@given(st.integers(1, 5000), st.integers(1, 5000))
def test_tiles_cover_the_photo_and_share_a_code_s_width(width: int, height: int) -> None:
    boxes = list(tiles((width, height)))
    for length, starts, ends in (
        (width, {box[0] for box in boxes}, {box[2] for box in boxes}),
        (height, {box[1] for box in boxes}, {box[3] for box in boxes}),
    ):
        low, high = sorted(starts), sorted(ends)
        assert low[0] == 0
        assert high[-1] == length
        following = zip(high, low[1:], strict=False)
        assert all(end - start >= OVERLAP for end, start in following)


@given(st.integers(1, 6), st.integers(1, 6), st.floats(-0.7, 0.7), st.floats(0, 0.08), st.randoms())
def test_a_grid_is_read_row_by_row_whatever_its_tilt(
    columns: int, rows: int, tilt: float, slope: float, rng: Any
) -> None:
    """Labels of a grid lie 3 sides apart; the photo is tilted and rows rise towards one end."""
    from math import cos, sin

    def at(x: float, y: float) -> tuple[float, float]:
        y += slope * x
        return x * cos(tilt) - y * sin(tilt), x * sin(tilt) + y * cos(tilt)

    grid = []
    for row in range(rows):
        for column in range(columns):
            x, y = column * 90.0, row * 90.0
            corners = (at(x, y), at(x + 30, y), at(x + 30, y + 30), at(x, y + 30))
            grid.append(Sighting(f"{row},{column}", Symbol.QR, corners))
    mixed = rng.sample(grid, len(grid))
    assert in_reading_order(mixed) == grid


def test_looking_closer_ends_when_it_shows_nothing_new(
    shoot: Shoot, monkeypatch: pytest.MonkeyPatch
) -> None:
    looks: list[object] = []
    real = finding.seen
    monkeypatch.setattr(
        finding, "seen", lambda image, look: looks.append(look) or real(image, look)
    )
    find(shoot(CODES[:4], 2, (1400, 1000)))
    assert tuple(looks) == finding.FIRST
