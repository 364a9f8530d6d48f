"""All codes in one photo, however many and however small.

A reader gives up on a crowded photo, so we look again and again: at the whole, at tiles, at
enlarged tiles; what was read is painted over, so that each look has less to do. Then come symbols
that mud lies on, and last turned and inverted pictures, which seldom help and cost most.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from concurrent.futures import ThreadPoolExecutor
from statistics import median
from typing import Any

import zxingcpp
from PIL import ImageDraw

from seedbox.scanning.mending import mended
from seedbox.scanning.sightings import Meaning, Point, Sighting, Symbol
from seedbox.scanning.views import Box, Look, cut_out, tiles, turned, turned_back

_SYMBOLS = {
    zxingcpp.BarcodeFormat.QRCode: Symbol.QR,
    zxingcpp.BarcodeFormat.Code128: Symbol.CODE_128,
    zxingcpp.BarcodeFormat.EAN13: Symbol.EAN_13,
}

FIRST = (Look(0), Look(1), Look(2), Look(2, softer=True))
CLOSER = (Look(4, evened=True), Look(3), Look(3, sharper=True), Look(2, sharper=True))
CLOSEST = (Look(3), Look(5), Look(6))
"""For squares of less than two pixels and a half: slow, and of no use to larger ones."""
TURNED = tuple(Look(scale, turn=degrees) for degrees in range(15, 90, 15) for scale in (0, 1, 2))
"""Code 128 is read up to some 8 degrees askew, and at right angles to that as well."""
INVERTED = (Look(0, inverted=True), Look(1, inverted=True), Look(2, inverted=True))

_ENOUGH_PIXELS, _TINY_PIXELS = 3.5, 2.5
_QR_SQUARES = 21


def find(image: Any, *, thorough: bool = False) -> list[Sighting]:
    """Every symbol that can be read in an upright greyscale picture, each text once.

    `thorough` looks in every way, whatever was found. What fails its check character is no
    sighting.
    """
    search = _Search(image)
    search.look(FIRST)
    if thorough or search.is_tiny():
        search.look(CLOSEST)
    if thorough or (search.is_crowded() and not search.is_tiny()):
        search.look(CLOSER, while_it_helps=not thorough)
    search.mend(thorough=thorough)
    if thorough or search.has_loose_bars():
        search.look(TURNED)
    if thorough or not search.has_ours():
        search.look(INVERTED)
    return list(search.found.values())


class _Search:
    """What was found so far, and the photo with that painted over."""

    def __init__(self, image: Any) -> None:
        self.found: dict[tuple[Symbol, str], Sighting] = {}
        self._image = image.copy()

    def has_ours(self) -> bool:
        return any(each.meaning is Meaning.OURS for each in self.found.values())

    def is_crowded(self) -> bool:
        """Nothing of ours yet, or codes so small that others may have been missed."""
        return not self.has_ours() or self._squares_below(_ENOUGH_PIXELS)

    def is_tiny(self) -> bool:
        """Whether most symbols are at the edge of what can be read at all."""
        return self._squares_below(_TINY_PIXELS)

    def _squares_below(self, pixels: float) -> bool:
        sides = [
            each.side
            for each in self.found.values()
            if each.meaning is Meaning.OURS and each.symbol is Symbol.QR
        ]
        return bool(sides) and median(sides) < pixels * _QR_SQUARES

    def has_loose_bars(self) -> bool:
        """Labels with bars alone are about, or nothing of ours: bars may lie askew unread."""
        squares = {text for symbol, text in self.found if symbol is Symbol.QR}
        bars = [
            each
            for each in self.found.values()
            if each.symbol is Symbol.CODE_128 and each.meaning is Meaning.OURS
        ]
        return not self.has_ours() or any(each.text not in squares for each in bars)

    def look(self, ways: Sequence[Look], *, while_it_helps: bool = False) -> None:
        """Looks in each way in turn, or until one shows nothing new and something is known."""
        for way in ways:
            before = len(self.found)
            self._keep(seen(self._image, way))
            if while_it_helps and self.has_ours() and len(self.found) == before:
                return

    def mend(self, *, thorough: bool) -> None:
        """Looks for symbols that a reader gives up, as mud lies on their corners."""
        self._keep(mended(self._image, thorough=thorough))

    def _keep(self, sightings: Iterable[Sighting]) -> None:
        pen = ImageDraw.Draw(self._image)
        for sighting in sightings:
            if sighting.meaning is not Meaning.MISREAD:
                self.found.setdefault((sighting.symbol, sighting.text), sighting)
                pen.polygon(sighting.corners, fill=255)


def seen(image: Any, look: Look) -> list[Sighting]:
    """What one look at a picture shows; nothing is checked."""
    shown = turned(image, look.turn)
    boxes = list(tiles(shown.size)) if look.scale else [(0, 0, *shown.size)]
    if look.scale == 1 and len(boxes) == 1 and not look.turn and not look.inverted:
        return []  # a picture of one tile was seen as a whole
    with ThreadPoolExecutor(os.cpu_count()) as pool:  # the reader lets other threads run
        parts = list(pool.map(lambda box: _read(shown, box, look), boxes))
    size = image.size

    def back(point: Point) -> Point:
        return turned_back(point, look.turn, shown.size, size)

    return [_moved(each, back) for part in parts for each in part]


def _moved(sighting: Sighting, back: Any) -> Sighting:
    one, two, three, four = map(back, sighting.corners)
    return Sighting(sighting.text, sighting.symbol, (one, two, three, four))


def _read(image: Any, box: Box, look: Look) -> list[Sighting]:
    scale = look.scale or 1
    read = zxingcpp.read_barcodes(
        cut_out(image, box, look),
        # Made for each call: one kept for good is reported as a leak when the program ends.
        formats=zxingcpp.BarcodeFormats(list(_SYMBOLS)),
        try_invert=look.inverted,
        try_downscale=not look.scale,
    )

    def place(point: Any) -> Point:
        return point.x / scale + box[0], point.y / scale + box[1]

    return [
        Sighting(code.text, _SYMBOLS[code.format], _corners(code.position, place))
        for code in read
        if code.format in _SYMBOLS
    ]


def _corners(position: Any, place: Any) -> tuple[Point, Point, Point, Point]:
    return (
        place(position.top_left),
        place(position.top_right),
        place(position.bottom_right),
        place(position.bottom_left),
    )
