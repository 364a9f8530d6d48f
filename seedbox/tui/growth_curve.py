"""Seedlings of a test day by day, and the lines above and below which it is decided."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from seedbox.tui.curve import BAND, LABEL_WIDTH, TEST, TODAY, Piece, dotted, row_of, with_scale

GOOD, POOR = "good", "poor"
LIMIT = "-"


@dataclass(frozen=True, slots=True)
class Growth:
    """What to draw. `points` are day and seedlings up to it; the limits are seedlings as well.

    `expected` is the range [fractions] in which the last day will probably end, or None.
    """

    points: Sequence[tuple[float, int]]
    seeds: int
    last_day: int
    today: int | None
    count_days: Sequence[int]
    good_from: int | None = None
    poor_to: int | None = None
    expected: tuple[float, float] | None = None


def draw(growth: Growth, width: int, height: int) -> list[list[Piece]]:
    """Lines of pieces, `height` for the plot and two for the days below it."""
    canvas = _Canvas(growth, max(10, width - LABEL_WIDTH), max(4, height))
    canvas.expected()
    canvas.limit(growth.good_from, GOOD, "good from {} on ")
    canvas.limit(growth.poor_to, POOR, "poor at {} or fewer ")
    canvas.today()
    canvas.line()
    canvas.counts()
    return canvas.lines()


class _Canvas:
    def __init__(self, growth: Growth, width: int, height: int) -> None:
        self.growth, self.width, self.height = growth, width, height
        counted = max((day for day, _ in growth.points), default=0.0)
        self.days = max(1.0, growth.last_day, counted)
        self.cells = [[Piece(" ", "")] * width for _ in range(height)]

    def column(self, day: float) -> int:
        """Cell across for a day after the start."""
        return min(self.width - 1, round(day / self.days * (self.width - 1)))

    def put(self, x: int, y: int, text: str, role: str) -> None:
        self.cells[y][x] = Piece(text, role)

    def at(self, day: float) -> float:
        """Share of the seeds that had come by a day, straight between counts."""
        for (start, low), (end, high) in pairwise(self.growth.points):
            if start <= day <= end and end > start:
                return (low + (high - low) * (day - start) / (end - start)) / self.growth.seeds
        return self.growth.points[-1][1] / self.growth.seeds

    def expected(self) -> None:
        """A band that widens from the last count to the end."""
        if self.growth.expected is None:
            return
        day, came = self.growth.points[-1]
        first, share = self.column(day), came / self.growth.seeds
        low, high = self.growth.expected
        for x in range(first + 1, self.width):
            part = (x - first) / max(1, self.width - 1 - first)
            top = row_of(share + (high - share) * part, self.height)
            bottom = row_of(share + (low - share) * part, self.height)
            for y in range(top, bottom + 1):
                self.put(x, y, BAND, "band")

    def limit(self, seedlings: int | None, role: str, words: str) -> None:
        """A broken line with its meaning at the left end, where the curve is still low."""
        if seedlings is None:
            return
        y = row_of(seedlings / self.growth.seeds, self.height)
        for x in range(0, self.width, 2):
            self.put(x, y, LIMIT, role)
        for x, char in enumerate(words.format(seedlings)[: self.width]):
            self.put(x, y, char, role)

    def today(self) -> None:
        day = self.growth.today
        if day is None or not 0 <= day <= self.days:
            return
        x = self.column(day)
        for y in range(self.height):
            if self.cells[y][x].role not in (GOOD, POOR):
                self.put(x, y, TODAY, "today")

    def line(self) -> None:
        last = self.column(self.growth.points[-1][0])
        step = self.days / max(1, self.width - 1)
        shares = [self.at(half / 2 * step) for half in range(last * 2 + 1)]
        for (x, y), text in dotted(shares, self.height).items():
            self.put(x, y, text, "mean")

    def counts(self) -> None:
        for day, came in self.growth.points[1:]:
            self.put(self.column(day), row_of(came / self.growth.seeds, self.height), TEST, "test")

    def lines(self) -> list[list[Piece]]:
        edge, words = self._day_marks()
        margin = " " * LABEL_WIDTH
        return [
            *with_scale(self.cells),
            [Piece(margin + edge, "axis")],
            [Piece((margin + words).rstrip(), "axis")],
        ]

    def _day_marks(self) -> tuple[str, str]:
        """The axis with a tick at each count day, and their numbers where there is room."""
        edge, words = ["─"] * self.width, [" "] * self.width
        free = 0
        for day in (0, *self.growth.count_days):
            x = self.column(day)
            edge[x] = "┴"
            text = f"day {day}" if day == 0 else str(day)
            start = min(x, self.width - len(text))
            if start >= free:
                words[start : start + len(text)] = text
                free = start + len(text) + 1
        return "".join(edge), "".join(words)
