"""Tells a scanner from a person: a code typed faster than fingers go, ended by Enter."""

from __future__ import annotations

from dataclasses import dataclass, field

CODE_LENGTH = 8
LEADING_LETTERS = frozenset("PSTpst")
SEPARATORS = frozenset(" -")


@dataclass(slots=True)
class Burst:
    """Characters that came within `gap` seconds of each other."""

    gap: float
    _typed: list[str] = field(default_factory=list)
    _last: float = 0.0

    def add(self, char: str, at: float) -> None:
        """Note a typed character; a pause before it starts afresh."""
        if at - self._last > self.gap:
            self._typed.clear()
        self._typed.append(char)
        self._last = at

    def clear(self) -> None:
        self._typed.clear()

    @property
    def empty(self) -> bool:
        return not self._typed

    def opens(self, char: str) -> bool:
        """Whether `char` may begin a code, or carry on the one being read."""
        if self.empty:
            return char in LEADING_LETTERS
        return len(self._significant()) < CODE_LENGTH and (
            (char.isascii() and char.isalnum()) or char in SEPARATORS
        )

    def code(self, at: float) -> str:
        """What a scanner has sent when Enter comes at `at`; empty when fingers did the typing."""
        if at - self._last > self.gap:
            return ""
        return self.tail()

    def tail(self) -> str:
        """The shortest end of what was typed that has the length of a code and may be one."""
        count = 0
        for start in range(len(self._typed) - 1, -1, -1):
            if self._typed[start] not in SEPARATORS:
                count += 1
            if count == CODE_LENGTH:
                text = "".join(self._typed[start:])
                return text if text[0] in LEADING_LETTERS else ""
        return ""

    def _significant(self) -> list[str]:
        return [char for char in self._typed if char not in SEPARATORS]
