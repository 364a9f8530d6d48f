"""Reading the TOML files that a person may edit: every fault names file, table and field."""

from __future__ import annotations

import difflib
import tomllib
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from seedbox.errors import BadDataError, NotFoundError

_SHOWN_FAULTS = 8


def read_toml(path: Path) -> dict[str, Any]:
    """The file's tables; raises NotFoundError, or BadDataError naming file and line."""
    try:
        return tomllib.loads(path.read_bytes().decode("utf-8-sig"))
    except FileNotFoundError as e:
        raise NotFoundError(f"There is no file {path}.") from e
    except OSError as e:
        raise BadDataError(f"{path} cannot be read: {e.strerror}.") from e
    except UnicodeDecodeError as e:
        raise BadDataError(f"{path.name} is not UTF-8 text (byte {e.start + 1}).") from e
    except tomllib.TOMLDecodeError as e:
        raise BadDataError(f"{path.name} is not TOML: {e}.") from e


class Table:
    """One table of a TOML file. Faults are gathered; `finish` raises them all at once."""

    def __init__(self, file: str, name: str, data: object) -> None:
        self.file, self.name = file, name
        self.faults: list[str] = []
        self._data: Mapping[str, Any] = data if isinstance(data, dict) else {}
        self._read: set[str] = set()
        self._faulty: set[str] = set()
        if not isinstance(data, dict):
            self.faults.append(f"{file}, {name}: this should be a table of fields.")

    def has(self, field: str) -> bool:
        return field in self._data

    def fault(self, field: str, sentence: str) -> None:
        self._faulty.add(field)
        self.faults.append(f"{self.file}, [{self.name}], {field}: {sentence}")

    def raw(self, field: str) -> Any:
        self._read.add(field)
        return self._data.get(field)

    def number(self, field: str, least: float, most: float, default: float | None = None) -> float:
        """A number from `least` to `most`; without a default the field must be there."""
        value = self.raw(field)
        if value is None and default is not None:
            return default
        if value is None:
            self.fault(field, "is missing.")
        elif isinstance(value, bool) or not isinstance(value, int | float):
            self.fault(field, f"should be a number, not {value!r}.")
        elif not least <= value <= most:
            self.fault(field, f"{value:g} is out of range: {least:g} to {most:g}.")
        else:
            return float(value)
        return least

    def in_order(self, smaller: str, less: float, larger: str, more: float) -> None:
        """A fault where the smaller is larger, unless one of them is at fault already."""
        if less > more and not self._faulty & {smaller, larger}:
            self.fault(smaller, f"{less:g} is larger than {larger}, {more:g}.")

    def whole(self, field: str, least: int, most: int, default: int | None = None) -> int:
        """A whole number from `least` to `most`."""
        value = self.number(field, least, most, default)
        if value != int(value):
            self.fault(field, f"should be a whole number, not {value:g}.")
        return int(value)

    def text(self, field: str, choices: Sequence[str] = (), default: str | None = None) -> str:
        """A text, one of `choices` where they are given."""
        value = self.raw(field)
        if value is None and default is not None:
            return default
        if value is None:
            self.fault(field, "is missing.")
        elif not isinstance(value, str):
            self.fault(field, f"should be text in quotes, not {value!r}.")
        elif choices and value not in choices:
            self.fault(field, f"“{value}” is none of: {', '.join(choices)}.")
        else:
            return value
        return choices[0] if choices else ""

    def yes(self, field: str, default: bool) -> bool:
        """true or false."""
        value = self.raw(field)
        if value is None:
            return default
        if not isinstance(value, bool):
            self.fault(field, f"should be true or false, not {value!r}.")
        return bool(value)

    def texts(self, field: str, choices: Sequence[str]) -> tuple[str, ...]:
        """A list of one text or more, each of `choices`."""
        value = self.raw(field)
        if not isinstance(value, list) or not value:
            self.fault(field, f'should be a list such as ["{choices[0]}"].')
            return ()
        for entry in value:
            if entry not in choices:
                self.fault(field, f"{entry!r} is not known.{near_miss(str(entry), choices)}")
        return tuple(str(entry) for entry in value)

    def collected(self) -> list[str]:
        """Every fault found, unknown fields included."""
        for field in sorted(self._data.keys() - self._read):
            self.fault(field, f"is not a field of this table.{near_miss(field, self._read)}")
        return self.faults

    def finish(self) -> None:
        """Raises BadDataError with every fault."""
        if self.collected():
            raise BadDataError("\n".join(self.faults[:_SHOWN_FAULTS]))


def near_miss(word: str, known: Sequence[str] | set[str]) -> str:
    """A sentence offering the nearest known word, or nothing."""
    near = difflib.get_close_matches(word, sorted(known), n=1)
    return f" Did you mean “{near[0]}”?" if near else ""
