"""How a QR symbol lies in a picture, told from what is the same in every symbol of ours."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from math import cos, pi, sin
from typing import TYPE_CHECKING, Any

from PIL import ImageChops, ImageFilter

if TYPE_CHECKING:
    from seedbox.scanning.squares import Square

SIDE = 21
"""Modules of a version 1 symbol (ISO/IEC 18004:2015, 5.3.1.1 from memory)."""
_CORNERS = ((0, 0), (SIDE - 7, 0), (0, SIDE - 7))
_SQUARE = (
    "#######", "#.....#", "#.###.#", "#.###.#", "#.###.#", "#.....#", "#######",
)  # fmt: skip
_FORMAT = "001110011100111"
"""Level H, mask 2, as all our labels (ISO/IEC 18004:2015, 7.9.1 from memory), bit 14 first."""
_TURNS = 72
_SCALES = (0.92, 1.0, 1.08)
_KEPT = 4
_AROUND = 12
_PAPER = 12
"""Grey levels by which ink must be darker than what lies about it."""
Known = tuple[int, int, bool]


@dataclass(frozen=True, slots=True)
class Bits:
    """A picture in black and white: 1 is dark, row by row."""

    width: int
    height: int
    data: bytes

    def row(self, number: int) -> bytes:
        return self.data[number * self.width : (number + 1) * self.width]

    def column(self, number: int, top: int, end: int) -> bytes:
        first = top * self.width + min(max(number, 0), self.width - 1)
        return self.data[first : end * self.width : self.width]


@dataclass(frozen=True, slots=True)
class Pose:
    """Where a symbol lies: its middle [pixels], and the steps of a module along and down it."""

    x: float
    y: float
    along_x: float
    along_y: float
    down_x: float
    down_y: float

    def place(self, along: float, down: float) -> tuple[float, float]:
        """Pixels of a point so many modules from the middle."""
        return (
            self.x + along * self.along_x + down * self.down_x,
            self.y + along * self.along_y + down * self.down_y,
        )


def binarised(image: Any) -> Bits:
    """Dark is what is darker than its surroundings, so that shade does not matter."""
    radius = max(_AROUND, max(image.size) // 40)
    about = image.filter(ImageFilter.BoxBlur(radius))
    darker = ImageChops.subtract(about, image)
    dark = darker.point(lambda value: int(value > _PAPER)).tobytes()
    return Bits(image.width, image.height, dark)


@lru_cache(maxsize=1)
def known_modules() -> tuple[Known, ...]:
    """Column, row and darkness of every module that is the same in all our symbols."""
    known = {(column, row): dark for column, row, dark in (*_timing(), *_format(), *_squares())}
    return tuple((column, row, dark) for (column, row), dark in known.items())


def _squares() -> Iterator[Known]:
    """The corner squares with the light line around them (6.3.3, 6.3.4)."""
    for left, top in _CORNERS:
        for row in range(-1, 8):
            for column in range(-1, 8):
                inside = 0 <= row < 7 and 0 <= column < 7
                at = left + column, top + row
                if 0 <= at[0] < SIDE and 0 <= at[1] < SIDE:
                    yield *at, inside and _SQUARE[row][column] == "#"


def _timing() -> Iterator[Known]:
    """Dark and light by turns between the squares (6.3.5)."""
    for at in range(8, SIDE - 8):
        yield at, 6, at % 2 == 0
        yield 6, at, at % 2 == 0


def _format() -> Iterator[Known]:
    """Both copies of the format information and the dark module (7.9.1, figure 25)."""
    beside = [(8, row) for row in (0, 1, 2, 3, 4, 5, 7, 8)]
    first = [*beside, *((column, 8) for column in (7, 5, 4, 3, 2, 1, 0))]
    second = [(column, 8) for column in range(SIDE - 1, SIDE - 9, -1)]
    second += [(8, row) for row in range(SIDE - 7, SIDE)]
    for places in (first, second):
        for (column, row), bit in zip(places, reversed(_FORMAT), strict=True):
            yield column, row, bit == "1"
    yield 8, SIDE - 8, True


@lru_cache(maxsize=1)
def _fitted() -> tuple[tuple[float, float, int], ...]:
    """Known modules from the middle of the symbol: 1 is dark."""
    middle = (SIDE - 1) / 2
    return tuple(
        (column - middle, row - middle, int(dark)) for column, row, dark in known_modules()
    )


def fit(bits: Bits, pose: Pose, every: int = 1) -> int:
    """How many known modules are as they must be; asks one in `every` of them."""
    width, height, data = bits.width, bits.height, bits.data
    x, y, ax, ay, dx, dy = pose.x, pose.y, pose.along_x, pose.along_y, pose.down_x, pose.down_y
    right = 0
    for along, down, dark in _fitted()[::every]:
        column = int(x + along * ax + down * dx + 0.5)
        row = int(y + along * ay + down * dy + 0.5)
        if 0 <= column < width and 0 <= row < height and data[row * width + column] == dark:
            right += 1
    return right


def best_poses(bits: Bits, square: Square) -> list[Pose]:
    """Poses in which the square is one of the three corners, the likeliest first."""
    poses = list(_poses(square))
    fits = sorted(range(len(poses)), key=lambda number: -fit(bits, poses[number], 3))
    return [poses[number] for number in fits[:_KEPT]]


def _poses(square: Square) -> Iterator[Pose]:
    middle = (SIDE - 1) / 2
    for turn in range(_TURNS):
        for scale in _SCALES:
            angle, module = 2 * pi * turn / _TURNS, square.module * scale
            # A line through a turned square is longer than its side.
            module *= max(abs(cos(angle)), abs(sin(angle)))
            across, along = module * cos(angle), module * sin(angle)
            for left, top in _CORNERS:
                from_x, from_y = left + 3 - middle, top + 3 - middle
                x = square.x - from_x * across + from_y * along
                y = square.y - from_x * along - from_y * across
                yield Pose(x, y, across, along, -along, across)


def refined(bits: Bits, pose: Pose) -> Pose:
    """The pose moved, turned, stretched and slanted to the best fit near by."""
    best, fits = pose, fit(bits, pose)
    module = (abs(pose.along_x) + abs(pose.along_y)) / 1.2
    for step in (0.8, 0.4, 0.2):
        better = True
        while better:
            better = False
            for tried in _near(best, step * module):
                found = fit(bits, tried)
                if found > fits:
                    best, fits, better = tried, found, True
    return best


def _near(pose: Pose, step: float) -> Sequence[Pose]:
    """The pose with one of its six measures changed; ends of the symbol move by one step."""
    lean = step / (SIDE / 2)
    changes = (
        ("x", step), ("y", step), ("along_x", lean), ("along_y", lean), ("down_x", lean),
        ("down_y", lean),
    )  # fmt: skip
    return [
        replace(pose, **{name: getattr(pose, name) + sign * by})
        for name, by in changes
        for sign in (1, -1)
    ]
