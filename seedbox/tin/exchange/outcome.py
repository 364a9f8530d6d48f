"""What came of reading one cell: a value, perhaps with a remark to keep, or a fault."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from seedbox.tin.exchange.neutral import unguarded

SPREADSHEET_ERRORS = frozenset(
    ("#REF!", "#N/A", "#NAME?", "#VALUE!", "#DIV/0!", "#NUM!", "#NULL!", "#SPILL!", "#CALC!")
)


class CellFaultError(ValueError):
    """A cell that cannot be what its column says; the message is the sentence for the person."""


@dataclass(frozen=True, slots=True)
class Read:
    """A value, and words of the cell that the value does not hold but the note should."""

    value: Any
    remark: str = ""


class CellReader(dict[str, Any]):
    """Reads the cells of one column; the same text is read once.

    Look a text up to get its value (None where the cell is empty or at fault); `faults` and
    `remarks` hold the sentences by text. To an `exact` reader `#REF!` is a text like any other.
    """

    def __init__(self, parse: Callable[[str], Any], *, exact: bool = False) -> None:
        super().__init__({"": None})
        self._parse = parse
        self._errors = frozenset[str]() if exact else SPREADSHEET_ERRORS
        self.faults: dict[str, str] = {}
        self.remarks: dict[str, str] = {}

    def __missing__(self, text: str) -> Any:
        self[text] = value = self._read(text)
        return value

    def _read(self, text: str) -> Any:
        if text in self._errors:
            self.faults[text] = f"The cell holds the spreadsheet's error {text}."
            return None
        try:
            found = self._parse(unguarded(text))
        except CellFaultError as fault:
            self.faults[text] = str(fault)
            return None
        if isinstance(found, Read):
            if found.remark:
                self.remarks[text] = found.remark
            return found.value
        return found
