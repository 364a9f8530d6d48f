"""Tells a scanner from a person: a code, or a shop's number, typed in an even, fast rhythm."""

from __future__ import annotations

from dataclasses import dataclass, field

CODE_LENGTH = 8
NUMBER_LENGTH = 13
LEADING_LETTERS = frozenset("PSTpst")
DIGITS = frozenset("0123456789")
SEPARATORS = frozenset(" -")


@dataclass(slots=True)
class Burst:
    """Characters that came within `gap` seconds of each other."""

    gap: float
    _typed: list[str] = field(default_factory=list)
    _last: float = 0.0

    def add(self, char: str, at: float) -> None:
        """Note a typed character; a pause before it starts afresh."""
        if not self.goes_on(at):
            self._typed.clear()
        self._typed.append(char)
        self._last = at

    def clear(self) -> None:
        self._typed.clear()

    def goes_on(self, at: float) -> bool:
        """Whether a key at this time belongs to what was typed before."""
        return bool(self._typed) and at - self._last <= self.gap

    def __len__(self) -> int:
        return len(self._typed)

    def takes(self, char: str, at: float) -> bool:
        """Whether `char` may begin a code or a shop's number, or carry on the one being read."""
        if not self.goes_on(at) or self.parts_before(char):
            return char in LEADING_LETTERS or char in DIGITS
        count = len(self._significant())
        if self._typed[0] in DIGITS:
            return char in DIGITS and count < NUMBER_LENGTH
        return count < CODE_LENGTH and ((char.isascii() and char.isalnum()) or char in SEPARATORS)

    def parts_before(self, char: str) -> bool:
        """Whether digits were a person's, as for a tab, since here a code begins right after."""
        return bool(self._typed) and self._typed[0] in DIGITS and char in LEADING_LETTERS

    def text(self, at: float) -> str:
        """What a scanner has sent when Enter comes at `at`; empty when fingers did the typing."""
        return self.tail() if self.goes_on(at) else ""

    def tail(self) -> str:
        """All digits, when only digits were typed; else the shortest end that may be a code."""
        typed = "".join(self._typed)
        return typed if typed and set(typed) <= DIGITS else self._code()

    def _code(self) -> str:
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
