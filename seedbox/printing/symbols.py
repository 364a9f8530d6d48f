"""Codes as black modules, ready to draw: QR for phones, Code 128 for mud."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import groupby

import segno
from barcode.codex import Code128

from seedbox.errors import BadDataError

QR_MODULES = 21
"""Side of a version 1 symbol (ISO/IEC 18004:2015, 5.3.1.1)."""
QR_QUIET = 4
"""Modules of quiet zone on all four sides (ISO/IEC 18004:2015, 6.3.8 and 9.1)."""
QR_CHARACTERS = 10
"""What version 1 level H holds in alphanumeric mode (ISO/IEC 18004:2015, table 7)."""
CODE128_QUIET = 10
"""Widths X of quiet zone left and right (ISO/IEC 15417:2007, 4.4)."""
CODE128_MOST_MODULES = 123
"""Start, eight characters of set B, check: 10 x 11 modules; the stop character has 13
(ISO/IEC 15417:2007, 4.2). Runs of four digits or more go to set C and are never longer."""

_ALPHANUMERIC = frozenset("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:")
# A fixed mask instead of the one with the least penalty (ISO/IEC 18004:2015, 7.8.3): the standard
# is not followed to the letter here. It reads the same in simulated photos and takes a fifth of
# the time; a reader is told the mask by the format information.
_MASK = 2


@dataclass(frozen=True)
class Symbol:
    """Black modules as runs (x, y, length) in module units, `y` up; quiet zone not counted."""

    width: int
    height: int
    runs: tuple[tuple[int, int, int], ...]

    @cached_property
    def path(self) -> str:
        """The runs as PDF rectangles in module units; Code 128 bars are one unit high."""
        return " ".join(f"{x} {y} {length} 1 re" for x, y, length in self.runs)


@lru_cache(maxsize=4096)
def qr(code: str) -> Symbol:
    """QR version 1, level H, of a code of up to 10 characters; raises BadDataError."""
    check_content(code)
    made = segno.make(code, version=1, error="h", micro=False, boost_error=False, mask=_MASK)
    matrix = made.matrix
    runs = tuple(
        (start, len(matrix) - 1 - row, length)
        for row, line in enumerate(matrix)
        for start, length in _dark_runs(line)
    )
    return Symbol(QR_MODULES, QR_MODULES, runs)


@lru_cache(maxsize=4096)
def code128(code: str) -> Symbol:
    """The bars of a code in Code 128, one unit high; raises BadDataError."""
    check_content(code)
    pattern = Code128(code).build()[0]
    bars = tuple((start, 0, length) for start, length in _dark_runs(pattern.encode()))
    return Symbol(len(pattern), 1, bars)


def check_content(code: str) -> None:
    """A code must fit the smallest symbol at its highest level."""
    if not code or len(code) > QR_CHARACTERS or not _ALPHANUMERIC.issuperset(code):
        raise BadDataError(
            f"“{code[:20]}” cannot be printed as a code: "
            f"1 to {QR_CHARACTERS} capitals and digits are needed."
        )


def _dark_runs(line: bytes | bytearray) -> list[tuple[int, int]]:
    """(start, length) of every unbroken run of dark modules: 1, or "1"."""
    runs, at = [], 0
    for value, group in groupby(line):
        length = sum(1 for _ in group)
        if value & 1:
            runs.append((at, length))
        at += length
    return runs
