"""Corner squares of QR symbols: dark, light, dark, light, dark as 1 : 1 : 3 : 1 : 1, crosswise.

ISO/IEC 18004:2015, 6.3.3 (number from memory): that ratio is met on any line through the middle,
however it is turned.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from seedbox.scanning.poses import Bits

_RATIO = (1, 1, 3, 1, 1)
_SLACK = 0.6
"""How far a part may be off its share [modules]; the middle one twice that."""
_EVERY = 2
"""Rows are looked at one in two: a square has seven modules of two pixels or more."""
_LEAST_MODULE = 1.8


@dataclass(slots=True)
class Square:
    """A likely corner square: its middle and its module [pixels], and how many rows saw it."""

    x: float
    y: float
    module: float
    rows: int = 1

    def is_near(self, x: float, y: float) -> bool:
        reach = 2 * self.module
        return abs(self.x - x) < reach and abs(self.y - y) < reach

    def joined(self, x: float, y: float, module: float) -> None:
        """Takes in another sight of the same square."""
        self.rows += 1
        self.x += (x - self.x) / self.rows
        self.y += (y - self.y) / self.rows
        self.module += (module - self.module) / self.rows


def squares(bits: Bits) -> list[Square]:
    """Corner squares in a black and white picture, those that most rows saw first."""
    found: list[Square] = []
    for row in range(0, bits.height, _EVERY):
        for column, module in _crossings(bits.row(row)):
            middle = _down(bits, column, row, module)
            if middle is None:
                continue
            near = next((one for one in found if one.is_near(column, middle)), None)
            if near is None:
                found.append(Square(column, middle, module))
            else:
                near.joined(column, middle, module)
    return sorted(found, key=lambda one: -one.rows / one.module)


def _crossings(line: bytes) -> Iterator[tuple[float, float]]:
    """Middle and module of every 1 : 1 : 3 : 1 : 1 in a line."""
    runs = [(dark, len(list(part))) for dark, part in groupby(line)]
    start = 0
    for number, (dark, length) in enumerate(runs):
        if dark and number + 5 <= len(runs):
            lengths = [run[1] for run in runs[number : number + 5]]
            total = sum(lengths)
            if total >= 7 * _LEAST_MODULE and _fits(lengths, total / 7):
                middle = start + lengths[0] + lengths[1] + lengths[2] / 2 - 0.5
                yield middle, total / 7
        start += length


def _fits(lengths: Sequence[int], module: float) -> bool:
    slack = module * _SLACK + 0.5
    return all(
        abs(length - share * module) < slack * (2 if share == 3 else 1)
        for length, share in zip(lengths, _RATIO, strict=True)
    )


def _down(bits: Bits, column: float, row: int, module: float) -> float | None:
    """The middle of the square by the column through it; None where that does not fit."""
    reach = round(6 * module)
    top = max(0, row - reach)
    line = bits.column(round(column), top, min(bits.height, row + reach + 1))
    for middle, other in _crossings(line):
        at = top + middle
        if abs(at - row) < 1.8 * module and 0.6 < other / module < 1.7:
            return at
    return None
