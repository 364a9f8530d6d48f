"""A sheet of labels drawn to its proportions: what is used, what will be printed, what is free."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from seedbox.tui.cells import fit
from seedbox.tui.text_lines import Line

if TYPE_CHECKING:
    from seedbox.printing.sheets import Sheet

USED, PRINTED, FREE = "░", "█", "·"
LEGEND = f"{USED} used   {PRINTED} will be printed   {FREE} free   > < the first"
_MARGIN = 5
"""Columns on the left for the number of a row's first label, and a space."""


@dataclass(frozen=True, slots=True)
class Grid:
    """How many characters a label has across and down."""

    columns: int
    rows: int


def grid_for(sheet: Sheet, room: tuple[int, int]) -> Grid:
    """The largest grid on which the whole page fits `room` columns and rows; a row of labels has a
    line at least, so a page of many rows may be longer.
    """
    free = (room[0] - _MARGIN - sheet.columns + 1) / sheet.columns
    rows = max(1, room[1] // sheet.rows)
    wanted = 2 * rows * sheet.label_width_mm / sheet.label_height_mm
    if wanted > free:  # flatter than it is, rather than wider than the screen
        rows = max(1, round(free * sheet.label_height_mm / sheet.label_width_mm / 2))
    return Grid(max(3, min(int(free), round(wanted))), rows)


def drawn_sheet(sheet: Sheet, grid: Grid, start: int, labels: int) -> list[Line]:
    """The first page, when so many labels are printed from `start` on."""
    lines: list[Line] = []
    for row in range(sheet.rows):
        first = row * sheet.columns + 1
        for line in range(grid.rows):
            number = fit(str(first) if line == 0 else "", _MARGIN - 1, right=True)
            pieces: Line = [(f"{number} ", "$quiet")]
            for position in range(first, first + sheet.columns):
                pieces += [_cell(position, grid, start, labels), (" ", "")]
            lines.append(pieces[:-1])
    return lines


def _cell(position: int, grid: Grid, start: int, labels: int) -> tuple[str, str]:
    if position == start:
        return f">{PRINTED * (grid.columns - 2)}<" if labels else _empty(grid), "bold $primary"
    if position < start:
        return USED * grid.columns, "$quiet"
    if position < start + labels:
        return PRINTED * grid.columns, "$primary"
    return FREE * grid.columns, ""


def _empty(grid: Grid) -> str:
    return f">{FREE * (grid.columns - 2)}<"


def position_at(sheet: Sheet, grid: Grid, column: int, line: int) -> int:
    """The label that is drawn at this character; 0 beside them.

    `column` and `line` count from the drawing's upper left, as `drawn_sheet` gives it.
    """
    across, within = divmod(column - _MARGIN, grid.columns + 1)
    row = line // grid.rows
    on_it = 0 <= across < sheet.columns and within < grid.columns and 0 <= row < sheet.rows
    return row * sheet.columns + across + 1 if on_it else 0


def position_words(sheet: Sheet, start: int, labels: int) -> str:
    """Where printing begins and ends, in words, with every further page."""
    row, column = divmod(start - 1, sheet.columns)
    where = f"Label {start} of {sheet.count}: row {row + 1}, column {column + 1}."
    if not labels:
        return f"{where} Nothing waits to be printed."
    pages, last = divmod(start + labels - 2, sheet.count)
    what = "1 label goes" if labels == 1 else f"{labels} labels go"
    if not pages:
        ends = "onto it" if labels == 1 else f"onto {start} to {last + 1}"
        return f"{where} {what} {ends}."
    on_last = "label 1" if last == 0 else f"labels 1 to {last + 1}"
    return f"{where} {what} onto {pages + 1} pages, on the last of them {on_last}."
