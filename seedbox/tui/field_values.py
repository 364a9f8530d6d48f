"""What was typed into a form, read as numbers and days; a fault is kept with its field."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from pathlib import Path
from typing import TypeVar, cast

from seedbox.tin.exchange.amounts import Amount, percent, quantity
from seedbox.tin.exchange.dates import Reader, is_ambiguous
from seedbox.tin.exchange.outcome import CellFaultError, Read
from seedbox.tin.records import Unit
from seedbox.tui.form import FormProblemsError

T = TypeVar("T")


class FieldReader:
    """Reads fields one by one and collects all faults, so that they are shown together."""

    def __init__(self, values: Mapping[str, str], today: date) -> None:
        self._values = values
        self._today = today
        self.problems: dict[str, str] = {}

    def text(self, name: str) -> str:
        return self._values.get(name, "").strip()

    def year(self, name: str) -> int | None:
        """A harvest, packing or purchase year; the coming year is allowed."""
        return self._read(name, Reader(self._today).year)

    def day(self, name: str) -> date | None:
        """A day on which something was done."""
        return self._read(name, self._past_day)

    def last_day(self, name: str) -> date | None:
        """The end of what was named: the day, the month or the year."""
        return self._read(name, self._unambiguous(lambda text: Reader(self._today).period(text)[1]))

    def share(self, name: str) -> float | None:
        """A percentage as a fraction of 1."""
        return self._read(name, percent)

    def amount(self, name: str, unit: Unit | None = None) -> Amount:
        """Seeds or grams; an empty field is an unknown amount."""
        found = self._read(name, lambda text: quantity(text, unit))
        return found or Amount(None, unit)

    def count(self, name: str, *, needed: bool = False) -> int:
        """A whole number; an empty field is 0 unless it is needed."""
        if needed and not self.text(name):
            self.fault(name, "A number is needed here.")
        return self._read(name, _whole) or 0

    def number(self, name: str) -> float | None:
        return self._read(name, _number)

    def path(self, name: str = "file") -> Path:
        """A file to write; `~` is the home folder."""
        text = self.text(name)
        if not text:
            self.fault(name, "Name a file, such as labels.pdf.")
        try:
            return Path(text).expanduser()
        except RuntimeError:
            self.fault(name, "That home folder is not known: write the whole path.")
            return Path(text)

    def fault(self, name: str, sentence: str) -> None:
        self.problems.setdefault(name, sentence)

    def finish(self) -> None:
        """Raise all faults found so far, if there are any."""
        if self.problems:
            raise FormProblemsError(self.problems)

    def _read(self, name: str, parse: Callable[[str], T | Read]) -> T | None:
        text = self.text(name)
        if not text:
            return None
        try:
            found = parse(text)
        except CellFaultError as fault:
            self.fault(name, str(fault))
            return None
        return cast("T", found.value) if isinstance(found, Read) else found

    def _past_day(self, text: str) -> date:
        relative = {"today": 0, "yesterday": 1}.get(text.casefold())
        if relative is not None:
            return date.fromordinal(self._today.toordinal() - relative)
        return self._unambiguous(Reader(self._today).past_day)(text)

    def _unambiguous(self, parse: Callable[[str], date]) -> Callable[[str], date]:
        def read(text: str) -> date:
            if is_ambiguous(text):
                raise CellFaultError("Day and month could change places: write it as 2025-05-31.")
            return parse(text)

        return read


def _whole(text: str) -> int:
    if not (text.isascii() and text.isdigit()) or len(text) > 9:
        raise CellFaultError("A whole number such as 20 was expected.")
    return int(text)


def _number(text: str) -> float:
    plain = text.replace(",", ".").replace("\u2212", "-").removesuffix("%").removesuffix("°C")
    try:
        return float(plain.strip())
    except ValueError:
        raise CellFaultError("A number such as 18 or 4.5 was expected.") from None
