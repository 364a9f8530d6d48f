"""A list on paper whose every line carries its code, beside words and boxes to write in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from seedbox.printing.coded_paper import INDOOR_MODULE_MM, CodedPaper, code_side
from seedbox.printing.content import Printed, typed_code
from seedbox.printing.list_page import broken, cut
from seedbox.printing.measuring import Correction
from seedbox.printing.paper import text_width

_MARGIN, _GAP, _FOOT_MM = 12.0, 3.0, 12.0
_TITLE_Y, _NOTE_Y, _HEADING_Y, _TOP = 15.0, 20.0, 27.0, 29.0
_SIZE, _LEADING_MM, _SMALL, _SMALL_LEADING_MM = 9.0, 4.0, 7.5, 3.3
_TYPED_MM = 18.0
_ABOVE_MM = 9.0
_BOX_MM, _TICK_MM, _TICK_UP_TO_MM = 7.0, 5.0, 12.0
_MOST_LINES, _MOST_BENEATH = 6, 12


@dataclass(frozen=True, slots=True)
class CodedColumn:
    """A heading and a width [mm]. Numbers stand `right`; `blank` is a box to write in, a square to
    tick where the column is 12 mm wide or less.
    """

    heading: str
    width: float
    right: bool = False
    blank: bool = False


@dataclass(frozen=True, slots=True)
class CodedRow:
    """A code, a cell for each column that is not blank, and small lines beneath them.

    Without a code ('') it is words alone. `above` is a heading between the rows.
    """

    code: str
    cells: tuple[str, ...]
    beneath: tuple[str, ...] = ()
    above: str = ""


@dataclass(frozen=True, slots=True)
class CodedList:
    """All that is printed. `foot` stands at the foot of each page, `empty` where no row is."""

    title: str
    note: str
    columns: tuple[CodedColumn, ...]
    rows: tuple[CodedRow, ...]
    foot: str = ""
    empty: str = ""


def print_coded_list(
    listed: CodedList,
    path: Path,
    *,
    page: str = "a4",
    dpi: int = 300,
    proof: bool = True,
    corrected: Correction | None = None,
) -> Printed:
    """Writes the list as a PDF of portrait pages, header and page number on each, codes read back.

    The columns must fit the page: 105 mm of words and boxes on A4, a little more on Letter.
    `corrected` is what was measured of the printer.
    """
    paper = CodedPaper(listed.title, page, dpi=dpi, corrected=corrected)
    room = paper.height - _TOP - _FOOT_MM
    pages = list(_pages(listed, room, dpi, _width(paper)))
    for number, rows in enumerate(pages, 1):
        if number > 1:
            paper.next_page()
        _head(paper, listed)
        _foot(paper, listed, number, len(pages))
        y = _TOP
        for row in rows:
            _row(paper, listed.columns, row, y)
            y += _height(listed.columns, row, dpi, _width(paper))
            paper.line(_MARGIN, y, paper.width - _MARGIN, y, grey=0.8, pt=0.3)
    if not listed.rows:
        paper.fitted(_MARGIN, _TOP + 6.0, listed.empty, _SIZE, paper.width - 2 * _MARGIN)
    return paper.deliver(path, proof=proof)


def _width(paper: CodedPaper) -> float:
    """Room for the words of a row [mm], right of its code."""
    room: float = paper.width - _MARGIN - _words_x(paper.dpi)
    return room


def _words_x(dpi: int) -> float:
    return _MARGIN + code_side(INDOOR_MODULE_MM, dpi) + _TYPED_MM + _GAP


def _pages(listed: CodedList, room: float, dpi: int, width: float) -> Iterator[list[CodedRow]]:
    """The rows of each page; a page without any when there are none."""
    page: list[CodedRow] = []
    used = 0.0
    for row in listed.rows:
        height = _height(listed.columns, row, dpi, width)
        if page and used + height > room:
            yield page
            page, used = [], 0.0
        page.append(row)
        used += height
    yield page


def _height(columns: Sequence[CodedColumn], row: CodedRow, dpi: int, width: float) -> float:
    body = _body(_words_height(columns, row, width), row, dpi)
    return body + (_ABOVE_MM if row.above else 0.0)


def _words_height(columns: Sequence[CodedColumn], row: CodedRow, width: float) -> float:
    lines = max((len(lines) for lines in _cells(columns, row)), default=1)
    return lines * _LEADING_MM + len(_beneath(row, width)) * _SMALL_LEADING_MM + 2.0


def _body(words: float, row: CodedRow, dpi: int) -> float:
    """Height of a row without the heading above it."""
    return max(words, code_side(INDOOR_MODULE_MM, dpi) + 0.6 if row.code else 0.0)


def _cells(columns: Sequence[CodedColumn], row: CodedRow) -> list[list[str]]:
    """The lines of each column; a blank one has none."""
    cells = iter(row.cells)
    return [
        [] if one.blank else cut(broken(next(cells), one.width), _MOST_LINES) for one in columns
    ]


def _beneath(row: CodedRow, width: float) -> list[str]:
    lines = [line for text in row.beneath for line in broken(text, width, _SMALL)]
    return cut(lines, _MOST_BENEATH)


def _head(paper: CodedPaper, listed: CodedList) -> None:
    room = paper.width - 2 * _MARGIN
    paper.fitted(_MARGIN, _TITLE_Y, listed.title, 15.0, room, weight="semibold")
    paper.fitted(_MARGIN, _NOTE_Y, listed.note, 8.5, room)
    paper.text(_MARGIN, _HEADING_Y, "code", _SIZE, weight="semibold")
    x = _words_x(paper.dpi)
    for column in listed.columns:
        over = column.width - text_width(column.heading, _SIZE, "semibold")
        at = x + (over if column.right else 0.0)
        paper.text(at, _HEADING_Y, column.heading, _SIZE, weight="semibold")
        x += column.width + _GAP
    paper.line(_MARGIN, _TOP, paper.width - _MARGIN, _TOP, pt=0.8)


def _foot(paper: CodedPaper, listed: CodedList, number: int, pages: int) -> None:
    told = f"page {number} of {pages}"
    y, width = paper.height - 6.5, text_width(told, 8.0)
    paper.text(paper.width - _MARGIN - width, y, told, 8.0)
    paper.fitted(_MARGIN, y, listed.foot, 8.0, paper.width - 2 * _MARGIN - width - _GAP)


def _code(paper: CodedPaper, code: str, y: float) -> None:
    side = paper.code(code, _MARGIN, y + 0.3)
    paper.text(_MARGIN + side, y + 0.3 + side / 2 + 1.2, typed_code(code), 8.0, weight="semibold")


def _row(paper: CodedPaper, columns: Sequence[CodedColumn], row: CodedRow, y: float) -> None:
    if row.above:
        paper.text(_MARGIN, y + _ABOVE_MM - 2.5, row.above, _SIZE, weight="semibold")
        y += _ABOVE_MM
        paper.line(_MARGIN, y, paper.width - _MARGIN, y, pt=0.8)
    if row.code:
        _code(paper, row.code, y)
    words = _words_height(columns, row, _width(paper))
    body = _body(words, row, paper.dpi)
    _words(paper, columns, row, y + (body - words) / 2)
    _blanks(paper, columns, y, body)


def _words(paper: CodedPaper, columns: Sequence[CodedColumn], row: CodedRow, y: float) -> None:
    """The cells of a row side by side, and the small lines beneath the longest of them."""
    x, lowest = _words_x(paper.dpi), y
    for column, lines in zip(columns, _cells(columns, row), strict=True):
        for number, line in enumerate(lines):
            over = column.width - text_width(line, _SIZE) if column.right else 0.0
            paper.text(x + over, y + 4.2 + number * _LEADING_MM, line, _SIZE)
        lowest = max(lowest, y + len(lines) * _LEADING_MM)
        x += column.width + _GAP
    for number, line in enumerate(_beneath(row, _width(paper))):
        paper.text(_words_x(paper.dpi), lowest + 3.8 + number * _SMALL_LEADING_MM, line, _SMALL)


def _blanks(paper: CodedPaper, columns: Sequence[CodedColumn], y: float, height: float) -> None:
    """What is ticked or written in by hand, in the middle of a row."""
    x = _words_x(paper.dpi)
    for column in columns:
        ticked = column.width <= _TICK_UP_TO_MM
        wide, high = (_TICK_MM, _TICK_MM) if ticked else (column.width, _BOX_MM)
        if column.blank:
            paper.bar(x, y + (height - high) / 2, wide, high, grey=1.0)
        x += column.width + _GAP
