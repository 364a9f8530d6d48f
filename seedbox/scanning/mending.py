"""QR symbols that have lost their finder patterns to mud, read all the same.

A reader looks for the three squares in the corners and gives up when one of them is dirty, however
much of the rest could be corrected. All that does not depend on the code is known beforehand: the
squares, the timing patterns, the format. So one clean square is enough: the others are looked for
where they must lie, and the symbol is handed to the reader straightened, with all that is known
painted anew (ISO/IEC 18004:2015, 6.3 and 7.9; numbers from memory). What it says still passes the
error correction of the symbol and the check character of the code.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from itertools import product
from typing import Any

import zxingcpp
from PIL import Image, ImageDraw

from seedbox.scanning.poses import (
    SIDE,
    Bits,
    Pose,
    best_poses,
    binarised,
    fit,
    known_modules,
    refined,
)
from seedbox.scanning.sightings import Meaning, Point, Sighting, Symbol
from seedbox.scanning.squares import Square, squares

LONGEST = (700, 1400)
"""Sides to which a photo is reduced [pixels]; small symbols are seen in the second only."""
_SQUARES_TRIED, _SQUARES_TRIED_THOROUGHLY = 8, 200
_MODULE, _QUIET = 6, 4
_LEAST_FIT = 0.7
"""Share of known modules that must be right: half are by chance, nine tenths under much mud."""
_STEPS = (0.0, -0.7, 0.7)
"""How far the corner without a square may lie off [modules]: a photo taken askew."""


def mended(image: Any, *, thorough: bool = False) -> list[Sighting]:
    """Symbols of ours in an upright greyscale picture of which one corner square is clean.

    `thorough` looks at every pixel of a large photo, too, and at whatever may be a square.
    """
    found: list[Sighting] = []
    most = _SQUARES_TRIED_THOROUGHLY if thorough else _SQUARES_TRIED
    for reduced, scale in _reduced(image, thorough=thorough):
        bits = binarised(reduced)
        for square in squares(bits)[:most]:
            if not any(_lies_in(each, square.x * scale, square.y * scale) for each in found):
                found += _read(image, bits, square, scale)
    return found


def _reduced(image: Any, *, thorough: bool) -> Iterator[tuple[Any, int]]:
    """The picture made smaller, and by how much; each size once."""
    known = set()
    for longest in (*LONGEST, *((max(image.size),) if thorough else ())):
        scale = max(1, round(max(image.size) / longest))
        if scale not in known:
            known.add(scale)
            yield image.reduce(scale), scale


def _lies_in(sighting: Sighting, x: float, y: float) -> bool:
    across, down = zip(*sighting.corners, strict=True)
    return min(across) < x < max(across) and min(down) < y < max(down)


def _read(image: Any, bits: Bits, square: Square, scale: int) -> list[Sighting]:
    """The symbol of which the square is a corner, if it can be read."""
    for pose in best_poses(bits, square):
        better = refined(bits, pose)
        if fit(bits, better) < _LEAST_FIT * len(known_modules()):
            continue
        for off_x, off_y in product(_STEPS, _STEPS):
            sighting = _decoded(image, _corners(better, off_x, off_y, scale))
            if sighting is not None:
                return [sighting]
    return []


def _corners(pose: Pose, off_x: float, off_y: float, scale: int) -> tuple[Point, ...]:
    """Corners of the symbol in the photo, clockwise from its own top left."""
    half = SIDE / 2
    places = ((-half, -half), (half, -half), (half + off_x, half + off_y), (-half, half))
    placed = (pose.place(x, y) for x, y in places)
    return tuple(((x + 0.5) * scale, (y + 0.5) * scale) for x, y in placed)


def _decoded(image: Any, corners: tuple[Point, ...]) -> Sighting | None:
    one, two, three, four = corners
    quad = (*one, *four, *three, *two)
    side = SIDE * _MODULE
    straight = image.transform(
        (side, side), Image.Transform.QUAD, quad, Image.Resampling.BILINEAR, fillcolor=255
    )
    page = Image.new("L", (side + 2 * _QUIET * _MODULE,) * 2, 255)
    page.paste(straight, (_QUIET * _MODULE,) * 2)
    page.paste(*_known_picture())
    for code in zxingcpp.read_barcodes(
        page, formats=zxingcpp.BarcodeFormats([zxingcpp.BarcodeFormat.QRCode]), try_invert=False
    ):
        sighting = Sighting(code.text, Symbol.QR, (one, two, three, four))
        if sighting.meaning is Meaning.OURS:
            return sighting
    return None


@lru_cache(maxsize=1)
def _known_picture() -> tuple[Any, tuple[int, int], Any]:
    """What every symbol of ours has, where it stands, and the mask that leaves the rest alone."""
    side = (SIDE + 2 * _QUIET) * _MODULE
    drawn, mask = Image.new("L", (side, side), 255), Image.new("1", (side, side))
    pens = ImageDraw.Draw(drawn), ImageDraw.Draw(mask)
    for column, row, dark in known_modules():
        left, top = (column + _QUIET) * _MODULE, (row + _QUIET) * _MODULE
        box = (left, top, left + _MODULE - 1, top + _MODULE - 1)
        pens[0].rectangle(box, fill=0 if dark else 255)
        pens[1].rectangle(box, fill=1)
    return drawn, (0, 0), mask
