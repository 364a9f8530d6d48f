"""The year of a garden on a page for the shed door: a row a crop, a bar for each stretch."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path
from typing import Final

from seedbox.printing.paper import Paper, text_width

# Greys that part from one another on any printer; the letter in the bar says what it is.
_GREYS: Final = {"I": 0.80, "C": 0.92, "O": 0.55, "P": 0.15, "H": 1.0}
_PALE_EDGE, _EDGE = 0.55, 0.0
_MARGIN, _NAME_MM, _HEAD_MM, _FOOT_MM = 10.0, 38.0, 24.0, 8.0
_LANE_MM, _BAR_MM, _ROW_GAP_MM = 2.5, 2.2, 1.2
_LEAST_BAR_MM = 1.2
_TITLE_MM = 150.0
_LEAST_DAYS = 4
"""More than half a week."""
_MONTHS: Final = ("Jan", "Feb", "Mar", "Apr", "May", "Jun",
                  "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")  # fmt: skip


@dataclass(frozen=True, slots=True)
class YearBar:
    """A stretch of days: its `letter` (I, C, O, P, H), first and last day; `pale`: second best."""

    letter: str
    first: date
    last: date
    pale: bool = False


@dataclass(frozen=True, slots=True)
class YearRow:
    """One crop of the page."""

    crop: str
    bars: tuple[YearBar, ...]


@dataclass(frozen=True, slots=True)
class YearSheet:
    """All that is printed: `legend` is a letter and its meaning, `frosts` days marked by a line."""

    title: str
    year: int
    note: str
    legend: tuple[tuple[str, str], ...]
    rows: tuple[YearRow, ...]
    frosts: tuple[tuple[date, str], ...] = ()


def print_year(sheet: YearSheet, path: Path, *, page: str = "a4") -> int:
    """Writes the page or pages as a PDF; gives how many there are.

    Crops keep their order. A row is as high as its bars need: what overlaps stands in lanes. The
    printer's correction is not applied: nothing is cut out, folded or scanned here, and a bar is
    read against the months that are printed with it, which move and stretch as it does.
    """
    paper = Paper(sheet.title, page, sideways=True)
    scale = _Scale(sheet.year, _MARGIN + _NAME_MM, paper.width - _MARGIN)
    for number, rows in enumerate(_pages(sheet.rows, paper.height - _HEAD_MM - _FOOT_MM), 1):
        if number > 1:
            paper.next_page()
        _head(paper, sheet, scale)
        bottom = _rows(paper, rows, scale)
        _frosts(paper, sheet, scale, bottom)
        _foot(paper, sheet)
    paper.save(path)
    return paper.pages


class _Scale:
    """Days of the year along the page [mm]."""

    def __init__(self, year: int, left: float, right: float) -> None:
        self.first, self.last = date(year, 1, 1), date(year, 12, 31)
        self.left, self.right = left, right

    def x(self, day: date) -> float:
        """Where a day begins; days outside the year lie on its edge."""
        days = (self.last - self.first).days + 1
        part = (day - self.first).days / days
        return self.left + (self.right - self.left) * min(max(part, 0.0), 1.0)

    def holds(self, bar: YearBar) -> bool:
        """Whether a bar is of this year: not where only the rest of a week reaches into it."""
        within = (min(bar.last, self.last) - max(bar.first, self.first)).days + 1
        return within >= min(_LEAST_DAYS, (bar.last - bar.first).days + 1)


def lanes(bars: Sequence[YearBar]) -> list[list[YearBar]]:
    """Bars put into as few lanes as keep them apart, in the order in which they come."""
    found: list[list[YearBar]] = []
    for bar in bars:
        free = next(
            (lane for lane in found if all(_apart(bar, other) for other in lane)),
            None,
        )
        if free is None:
            found.append([bar])
        else:
            free.append(bar)
    return found


def _apart(one: YearBar, other: YearBar) -> bool:
    return one.first > other.last or one.last < other.first


def _height(row: YearRow) -> float:
    return max(len(lanes(row.bars)), 1) * _LANE_MM + _ROW_GAP_MM


def _pages(rows: Sequence[YearRow], room: float) -> Iterator[list[YearRow]]:
    page: list[YearRow] = []
    used = 0.0
    for row in rows:
        if page and used + _height(row) > room:
            yield page
            page, used = [], 0.0
        page.append(row)
        used += _height(row)
    yield page


def _head(paper: Paper, sheet: YearSheet, scale: _Scale) -> None:
    paper.fitted(_MARGIN, 13.0, sheet.title, 15.0, _TITLE_MM, weight="semibold")
    room = paper.width - 2 * _MARGIN - _TITLE_MM - 5.0
    width = min(text_width(sheet.note, 8.0), room)
    paper.fitted(paper.width - _MARGIN - width, 13.0, sheet.note, 8.0, room)
    bottom = paper.height - _FOOT_MM
    for month, name in enumerate(_MONTHS, 1):
        start = scale.x(date(sheet.year, month, 1))
        paper.line(start, _HEAD_MM - 6.0, start, bottom, grey=0.75, pt=0.3)
        paper.text(start + 1.0, _HEAD_MM - 2.5, name, 9.0, weight="semibold")
    paper.line(scale.right, _HEAD_MM - 6.0, scale.right, bottom, grey=0.75, pt=0.3)
    paper.line(_MARGIN, _HEAD_MM - 0.8, scale.right, _HEAD_MM - 0.8, pt=0.8)


def _rows(paper: Paper, rows: Sequence[YearRow], scale: _Scale) -> float:
    top = _HEAD_MM
    for row in rows:
        height = _height(row)
        paper.fitted(_MARGIN, top + 3.2, row.crop, 9.0, _NAME_MM - 2.0, weight="semibold")
        for number, lane in enumerate(lanes(row.bars)):
            for bar in lane:
                if scale.holds(bar):
                    _bar(paper, bar, scale, top + _ROW_GAP_MM / 2 + number * _LANE_MM)
        top += height
        paper.line(_MARGIN, top, scale.right, top, grey=0.8, pt=0.3)
    return top


def _bar(paper: Paper, bar: YearBar, scale: _Scale, top: float) -> None:
    left, right = scale.x(bar.first), scale.x(bar.last + timedelta(days=1))
    width = max(right - left, _LEAST_BAR_MM)
    left = min(left, scale.right - width)
    grey, edge = _GREYS.get(bar.letter, 0.9), _PALE_EDGE if bar.pale else _EDGE
    paper.bar(left, top, width, _BAR_MM, grey=1.0 if bar.pale else grey, edge=edge)
    letter = bar.letter.lower() if bar.pale else bar.letter
    white = not bar.pale and grey < 0.5
    if width > text_width(letter, 6.0) + 0.4:
        paper.text(left + 0.5, top + 1.75, letter, 5.8, weight="semibold", grey=float(white))


def _frosts(paper: Paper, sheet: YearSheet, scale: _Scale, bottom: float) -> None:
    for day, name in sheet.frosts:
        at = scale.x(day)
        paper.line(at, _HEAD_MM - 0.8, at, bottom, pt=0.9)
        width = text_width(name, 7.0)
        x = min(max(at - width / 2, scale.left), scale.right - width)
        paper.text(x, _HEAD_MM - 7.2, name, 7.0)


def _foot(paper: Paper, sheet: YearSheet) -> None:
    x, y = _MARGIN, paper.height - 3.5
    for letter, meaning in sheet.legend:
        paper.bar(x, y - 2.4, 4.0, _BAR_MM, grey=_GREYS.get(letter, 0.9))
        white = _GREYS.get(letter, 0.9) < 0.5
        paper.text(x + 1.3, y - 0.6, letter, 5.8, weight="semibold", grey=float(white))
        x += 5.0 + paper.text(x + 5.0, y - 0.3, meaning, 8.0) + 5.0
    paper.text(x, y - 0.3, "small letters: later than the best weeks", 8.0)
