"""The forecast over the years as lines of text: band, mean, tests, today and the standard.

The mean is drawn in braille dots (2 across, 4 down in each cell), the band as a light shade.
Everything is told apart by its shape; the role beside each piece of text only adds colour.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise
from typing import NamedTuple

LABEL_WIDTH = 6
BAND, TEST, TODAY, STANDARD = "░", "o", "│", "-"
_DOTS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
LEGEND = "dots expected   ░ 90 % interval   o test   - - standard   │ today"


class Point(NamedTuple):
    """Expected germination and its interval on a day, as fractions of 1."""

    on: date
    mean: float
    low: float
    high: float


class Piece(NamedTuple):
    """Some text and what it stands for: axis, band, mean, test, today, standard or empty."""

    text: str
    role: str


@dataclass(frozen=True, slots=True)
class Picture:
    """What to draw. Tests are (day, germinated fraction)."""

    points: Sequence[Point]
    tests: Sequence[tuple[date, float]]
    today: date
    standard: float | None = None


def draw(picture: Picture, width: int, height: int) -> list[list[Piece]]:
    """Lines of pieces, `height` for the plot and two for the axis below it."""
    if len(picture.points) < 2:
        return []
    canvas = _Canvas(picture, max(8, width - LABEL_WIDTH), max(4, height))
    canvas.band()
    canvas.standard()
    canvas.today()
    canvas.mean()
    canvas.tests()
    return canvas.lines()


def row_of(fraction: float, height: int) -> int:
    """Cell down for a fraction of 1 in a plot `height` cells high: 1 at the top."""
    return min(height - 1, max(0, int((1 - fraction) * height)))


def dotted(shares: Sequence[float], height: int) -> dict[tuple[int, int], str]:
    """A line through `shares`, two to a cell across, as braille characters by cell (x, y)."""
    dots: dict[tuple[int, int], int] = {}
    levels = [row_of(share, height * 4) for share in shares]
    for half, level in enumerate(levels):
        before = levels[half - 1] if half else level
        for down in range(min(level, before + 1), max(level, before - 1) + 1):
            cell = (half // 2, down // 4)
            dots[cell] = dots.get(cell, 0) | _DOTS[down % 4][half % 2]
    return {cell: chr(0x2800 + pattern) for cell, pattern in dots.items()}


def with_scale(cells: Sequence[Sequence[Piece]]) -> list[list[Piece]]:
    """Rows of a plot with their percentages before them."""
    marks = (0.0, 0.25, 0.5, 0.75, 1.0)
    labels = {row_of(mark, len(cells)): f"{round(mark * 100)} %" for mark in marks}
    return [
        [Piece(f"{labels.get(y, ''):>5} ", "axis"), *_joined(row)] for y, row in enumerate(cells)
    ]


class _Canvas:
    def __init__(self, picture: Picture, width: int, height: int) -> None:
        self.picture, self.width, self.height = picture, width, height
        self.first = picture.points[0].on
        self.days = max(1, (picture.points[-1].on - self.first).days)
        self.cells = [[Piece(" ", "")] * width for _ in range(height)]

    def column(self, on: date) -> int | None:
        """Cell across for a day, or None outside the picture."""
        across = round((on - self.first).days / self.days * (self.width - 1))
        return across if 0 <= across < self.width else None

    def row(self, fraction: float) -> int:
        """Cell down for a germination fraction: 1 at the top."""
        return row_of(fraction, self.height)

    def at(self, across: float) -> Point:
        """The forecast at a place across [cells], straight between the points given."""
        points = self.picture.points
        day = across / max(1, self.width - 1) * self.days
        for left, right in pairwise(points):
            start, end = (left.on - self.first).days, (right.on - self.first).days
            if day <= end:
                share = (day - start) / max(1, end - start)
                return _between(left, right, share)
        return points[-1]

    def put(self, x: int, y: int, text: str, role: str) -> None:
        self.cells[y][x] = Piece(text, role)

    def band(self) -> None:
        for x in range(self.width):
            point = self.at(x)
            for y in range(self.row(point.high), self.row(point.low) + 1):
                self.put(x, y, BAND, "band")

    def standard(self) -> None:
        if self.picture.standard is None:
            return
        y = self.row(self.picture.standard)
        for x in range(0, self.width, 2):
            self.put(x, y, STANDARD, "standard")

    def today(self) -> None:
        x = self.column(self.picture.today)
        for y in range(self.height if x is not None else 0):
            self.put(x or 0, y, TODAY, "today")

    def mean(self) -> None:
        shares = [self.at(half / 2).mean for half in range(self.width * 2)]
        for (x, y), text in dotted(shares, self.height).items():
            self.put(x, y, text, "mean")

    def tests(self) -> None:
        for on, fraction in self.picture.tests:
            x = self.column(on)
            if x is not None:
                self.put(x, self.row(fraction), TEST, "test")

    def lines(self) -> list[list[Piece]]:
        plot = with_scale(self.cells)
        edge, years = self._years()
        margin = " " * LABEL_WIDTH
        return [*plot, [Piece(margin + edge, "axis")], [Piece(margin + years, "axis")]]

    def _years(self) -> tuple[str, str]:
        """The axis with a tick at each 1 January that has room, and the years below it."""
        edge, words = ["─"] * self.width, [" "] * self.width
        step = self._years_between_ticks()
        for year in range(self.first.year + 1, self.picture.points[-1].on.year + 1):
            x = self.column(date(year, 1, 1))
            if year % step or x is None:
                continue
            edge[x] = "┴"
            if x + 4 <= self.width:
                words[x : x + 4] = str(year)
        return "".join(edge), "".join(words).rstrip()

    def _years_between_ticks(self) -> int:
        cells_a_year = self.width / self.days * 365.25
        return next((step for step in (1, 2, 5, 10, 20) if step * cells_a_year >= 6), 50)


def _between(left: Point, right: Point, share: float) -> Point:
    def mix(a: float, b: float) -> float:
        return a + (b - a) * share

    return Point(
        left.on,
        mix(left.mean, right.mean),
        mix(left.low, right.low),
        mix(left.high, right.high),
    )


def _joined(row: Sequence[Piece]) -> list[Piece]:
    """Neighbouring pieces of one role as one piece."""
    joined: list[Piece] = []
    for piece in row:
        if joined and joined[-1].role == piece.role:
            joined[-1] = Piece(joined[-1].text + piece.text, piece.role)
        else:
            joined.append(piece)
    return joined
