"""A person's table as it was read: text cells with the row numbers of their spreadsheet."""

from __future__ import annotations

from dataclasses import dataclass, field

from seedbox.problems import Problem


@dataclass(frozen=True, slots=True)
class Grid:
    """Every row of a file, the first being row 1. `notes` say what was assumed in reading it.

    `problems` name cells that could not be read; their rows must not go into a tin.
    """

    rows: list[list[str]]
    problems: tuple[Problem, ...] = ()
    notes: tuple[str, ...] = ()
    sheet: str = ""
    encoding: str = ""


@dataclass(frozen=True, slots=True)
class Table:
    """A grid with its header found. `headers` are column letters where the file has no header."""

    headers: list[str]
    rows: list[list[str]]
    first_row_number: int
    problems: tuple[Problem, ...] = ()
    notes: tuple[str, ...] = field(default=())
    sheet: str = ""
    encoding: str = ""
    has_header: bool = True


def column_letter(index: int) -> str:
    """The name a spreadsheet gives a column.

    >>> column_letter(0), column_letter(25), column_letter(26)
    ('A', 'Z', 'AA')
    """
    letters = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters
