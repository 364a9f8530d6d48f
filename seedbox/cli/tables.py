"""Aligned columns by what a character takes on the screen, without colour or lines."""

from __future__ import annotations

import sys
import unicodedata
from collections.abc import Sequence
from typing import NamedTuple

_GAP = "  "
_ELLIPSIS = "…"
_JOINERS = {"\u200c", "\u200d"}  # letters of some scripts join by them


class Column(NamedTuple):
    """A heading; `right` aligns numbers; `least` is how narrow it may get (None: never cut)."""

    heading: str
    right: bool = False
    least: int | None = None


def room() -> int | None:
    """Cells in a line of the terminal; None when nobody looks, as on a pipe."""
    if not sys.stdout.isatty():
        return None
    from shutil import get_terminal_size

    return get_terminal_size().columns


def cells(text: str) -> int:
    """How many cells a line of text takes.

    >>> cells("tomato"), cells("番茄"), cells("e\\u0301")
    (6, 4, 1)
    """
    return len(text) if text.isascii() else sum(map(_cell, text))


def _cell(char: str) -> int:
    if unicodedata.category(char) in {"Mn", "Me", "Cf", "Cc"}:
        return 0
    return 2 if unicodedata.east_asian_width(char) in "WF" else 1


def cut(text: str, width: int) -> str:
    """The text, or as much of it as fits with an ellipsis.

    >>> cut("Old Bargeman", 8)
    'Old Bar…'
    """
    if cells(text) <= width:
        return text
    kept = ""
    for char in text:
        if cells(kept + char) > width - 1:
            break
        kept += char
    return kept.rstrip() + _ELLIPSIS


def pad(text: str, width: int, *, right: bool = False) -> str:
    """Spaces up to a width in cells."""
    space = " " * max(0, width - cells(text))
    return space + text if right else text + space


def table(
    columns: Sequence[Column], rows: Sequence[Sequence[str]], width: int | None = None
) -> list[str]:
    """Lines of a table: the heading, then a line a row. Columns empty in all rows are left out."""
    used = [at for at in range(len(columns)) if any(row[at] for row in rows)]
    shown = [columns[at] for at in used]
    body = [[one_line(row[at]) for at in used] for row in rows]
    widths = _fitted(shown, body, width)
    heading = [column.heading for column in shown]
    return [_line(shown, line, widths) for line in [heading, *body]]


def one_line(text: str) -> str:
    """A person's text is data: no line break, control or direction override reaches the screen.

    >>> one_line("two\\nlines"), one_line("a\\x1b[31mb")
    ('two lines', 'a[31mb')
    """
    return text if text.isprintable() else "".join(map(_visible, text))


def _visible(char: str) -> str:
    if char.isprintable() or char in _JOINERS:
        return char
    return " " if char.isspace() else ""


def _line(columns: Sequence[Column], texts: Sequence[str], widths: Sequence[int]) -> str:
    parts = (
        pad(cut(text, width), width, right=column.right)
        for column, text, width in zip(columns, texts, widths, strict=True)
    )
    return _GAP.join(parts).rstrip()


def _fitted(
    columns: Sequence[Column], body: Sequence[Sequence[str]], room: int | None
) -> list[int]:
    """Natural widths, the widest column that may shrink giving way until the line fits."""
    widths = [
        max([cells(column.heading), *(cells(line[at]) for line in body)])
        for at, column in enumerate(columns)
    ]
    if room is None:
        return widths
    while sum(widths) + len(_GAP) * (len(widths) - 1) > room:
        able = [
            at
            for at, column in enumerate(columns)
            if column.least is not None and widths[at] > column.least
        ]
        if not able:
            break
        widths[max(able, key=lambda at: widths[at])] -= 1
    return widths


def fields(pairs: Sequence[tuple[str, str]]) -> list[str]:
    """`name: value` lines with the values below each other; empty values are left out."""
    kept = [(name, value) for name, value in pairs if value]
    width = max((cells(name) for name, _ in kept), default=0) + 1
    return [f"{pad(name + ':', width)}  {one_line(value)}" for name, value in kept]


def wrapped(text: str, first: str = "", further: str = "") -> list[str]:
    """Text in lines that fit the terminal, broken between words; one line where nobody looks."""
    width = room()
    if width is None:
        return [first + one_line(text)]
    lines, line = [], first
    for word in _words(one_line(text)):
        if line.strip() and cells(f"{line} {word}") > max(width, 20):
            lines.append(line)
            line = further
        line += word if not line or line[-1] == " " else f" {word}"
    return [*lines, line]


def _words(text: str) -> list[str]:
    """Words of a text; a unit stays with its number.

    >>> _words("it is 20 °C, 60 to 98 % came")
    ['it', 'is', '20 °C,', '60', 'to', '98 %', 'came']
    """
    words: list[str] = []
    for word in text.split():
        if words and word[0] in "%°" and words[-1][-1].isdecimal():
            words[-1] += f" {word}"
        else:
            words.append(word)
    return words
