"""Digits typed on the page of a test: one after another at once they are one number."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

# As long as fingers take from one digit of a number to the next, and shorter than looking up.
IN_A_ROW_SECONDS = 1.0


class Cell(NamedTuple):
    """Where a count goes: a replicate, the first being 1, and one of the categories."""

    replicate: int
    category: str


@dataclass(slots=True)
class Entry:
    """The number typed last, where, when, and the entry of the history that it made (0: none)."""

    cell: Cell | None = None
    number: int = 0
    at: float = 0.0
    change: int = 0

    def continues(self, cell: Cell, at: float) -> bool:
        """Whether a digit that comes now belongs to the number before it."""
        return cell == self.cell and 0 <= at - self.at <= IN_A_ROW_SECONDS

    def next(self, digit: int, cell: Cell, at: float) -> int:
        """The number meant once this digit is typed: 1 and 2 are 12 when they come in a row."""
        return self.number * 10 + digit if self.continues(cell, at) else digit

    def note(self, cell: Cell, number: int, at: float, change: int) -> None:
        self.cell, self.number, self.at, self.change = cell, number, at, change

    def end(self) -> None:
        """The next digit begins a number of its own."""
        self.cell = None
