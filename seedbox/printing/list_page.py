"""A list on paper: columns with a heading, long cells wrapped, a square to tick at each line."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from seedbox.printing.paper import Paper, text_width

_MARGIN, _TOP, _SIZE, _LEADING_MM, _GAP = 12.0, 28.0, 9.0, 4.0, 3.0
_TICK_MM = 3.0
_MOST_LINES = 40
_BREAKS = re.compile("(?:\N{NO-BREAK SPACE}|\\S)+")


@dataclass(frozen=True, slots=True)
class ListColumn:
    """A heading and the column's width [mm]; numbers stand `right`."""

    heading: str
    width: float
    right: bool = False


@dataclass(frozen=True, slots=True)
class ListSheet:
    """All that is printed: title, a line under it, columns, rows of text."""

    title: str
    note: str
    columns: tuple[ListColumn, ...]
    rows: tuple[tuple[str, ...], ...]


def print_list(sheet: ListSheet, path: Path, *, page: str = "a4") -> int:
    """Writes the list as a PDF; gives how many pages there are.

    It is read, not cut out or scanned, so the printer's correction is not applied: a list that
    stands a few millimetres aside says the same. A list with codes is another, see `coded_list`.
    """
    paper = Paper(sheet.title, page)
    _head(paper, sheet)
    y = _TOP
    for row in sheet.rows:
        cells = [
            cut(broken(text, column.width), _MOST_LINES)
            for text, column in zip(row, sheet.columns, strict=True)
        ]
        height = max(len(lines) for lines in cells) * _LEADING_MM + 1.6
        if y + height > paper.height - _MARGIN:
            paper.next_page()
            _head(paper, sheet)
            y = _TOP
        _row(paper, sheet.columns, cells, y)
        y += height
        paper.line(_MARGIN, y, paper.width - _MARGIN, y, grey=0.8, pt=0.3)
    paper.save(path)
    return paper.pages


def broken(text: str, width: float, size: float = _SIZE) -> list[str]:
    """Text in lines of so many mm, broken between words, in a word only where it must be.

    A space that does not break (U+00A0) keeps a number with its unit.
    """
    lines: list[str] = []
    for word in _BREAKS.findall(text):
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(joined, size) <= width:
            lines[-1] = joined
            continue
        lines += _pieces(word, width, size)
    return lines or [""]


def cut(lines: list[str], most: int) -> list[str]:
    """No more lines than that, the last with an ellipsis: a row must not outgrow its page."""
    return lines if len(lines) <= most else [*lines[: most - 1], f"{lines[most - 1][:-1]}…"]


def _pieces(word: str, width: float, size: float) -> list[str]:
    """A word in pieces that fit; nearly always one."""
    pieces = [""]
    for char in word:
        if pieces[-1] and text_width(pieces[-1] + char, size) > width:
            pieces.append("")
        pieces[-1] += char
    return pieces


def _head(paper: Paper, sheet: ListSheet) -> None:
    paper.fitted(_MARGIN, 14.0, sheet.title, 15.0, paper.width - 2 * _MARGIN, weight="semibold")
    paper.fitted(_MARGIN, 19.0, sheet.note, 8.5, paper.width - 2 * _MARGIN)
    _texts(paper, sheet.columns, [[c.heading] for c in sheet.columns], _TOP - 5.0, "semibold")
    paper.line(_MARGIN, _TOP, paper.width - _MARGIN, _TOP, pt=0.8)


def _row(
    paper: Paper, columns: Sequence[ListColumn], cells: Sequence[Sequence[str]], y: float
) -> None:
    paper.bar(_MARGIN, y + 1.2, _TICK_MM, _TICK_MM, grey=1.0)
    _texts(paper, columns, cells, y, "regular")


def _texts(
    paper: Paper,
    columns: Sequence[ListColumn],
    cells: Sequence[Sequence[str]],
    y: float,
    weight: str,
) -> None:
    x = _MARGIN + _TICK_MM + _GAP
    for column, lines in zip(columns, cells, strict=True):
        for number, line in enumerate(lines):
            over = column.width - text_width(line, _SIZE, weight) if column.right else 0.0
            paper.text(x + over, y + 3.8 + number * _LEADING_MM, line, _SIZE, weight=weight)
        x += column.width + _GAP
