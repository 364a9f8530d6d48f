"""A fault in a person's data as a value: where it is, and a sentence that says what to do."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Problem:
    """One fault. `row` counts as the person's spreadsheet does (the header is row 1); 0 is none."""

    sentence: str
    row: int = 0
    field: str = ""
    where: str = ""

    def __str__(self) -> str:
        place = ", ".join(
            part for part in (self.where, f"row {self.row}" if self.row else "", self.field) if part
        )
        return f"{place}: {self.sentence}" if place else self.sentence
