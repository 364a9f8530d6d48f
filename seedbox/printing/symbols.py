"""Codes as black modules, ready to draw: QR for phones, Code 128 for mud.

Numbers of clauses and tables of ISO standards are from memory; the figures themselves are checked
by an independent reader.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import segno
from barcode.codex import Code128

from seedbox.errors import BadDataError

QR_MODULES = 21
"""Side of a version 1 symbol (ISO/IEC 18004:2015, 5.3.1.1; clause from memory)."""
QR_QUIET = 4
"""Modules of quiet zone on all four sides (ISO/IEC 18004:2015, 6.3.8 and 9.1; clauses from
memory)."""
QR_CHARACTERS = 10
"""What version 1 level H holds in alphanumeric mode (ISO/IEC 18004:2015, table 7; number of the
table from memory)."""
CODE128_QUIET = 10
"""Widths X of quiet zone left and right (ISO/IEC 15417:2007, 4.4; clause from memory)."""
CODE128_MOST_MODULES = 123
"""Start, eight characters of set B, check: 10 x 11 modules; the stop character has 13
(ISO/IEC 15417:2007, 4.2; clause from memory). Runs of four digits or more go to set C and are
never longer."""

_ALPHANUMERIC = frozenset("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:")
# A fixed mask instead of the one with the least penalty (ISO/IEC 18004:2015, 7.8.3; clause from
# memory): the standard is not followed to the letter here. It reads the same in simulated photos
# and takes a fifth of the time; a reader is told the mask by the format information.
_MASK = 2


@dataclass(frozen=True, slots=True)
class Symbol:
    """Black modules as PDF rectangles in module units, `y` up, each an unbroken run of one row;
    the quiet zone is not counted. Code 128 bars are one unit high.
    """

    width: int
    height: int
    path: str


@lru_cache(maxsize=64)
def qr(code: str) -> Symbol:
    """QR version 1, level H, of a code of up to 10 characters; raises BadDataError."""
    check_content(code)
    made = segno.make(code, version=1, error="h", micro=False, boost_error=False, mask=_MASK)
    rows = [_rectangles(line, QR_MODULES - 1 - row) for row, line in enumerate(made.matrix)]
    return Symbol(QR_MODULES, QR_MODULES, " ".join(rows))


@lru_cache(maxsize=64)
def code128(code: str) -> Symbol:
    """The bars of a code in Code 128, one unit high; raises BadDataError."""
    check_content(code)
    pattern = Code128(code).build()[0]
    return Symbol(len(pattern), 1, _rectangles(bytes(map(int, pattern)), 0))


def check_content(code: str) -> None:
    """A code must fit the smallest symbol at its highest level."""
    if not code or len(code) > QR_CHARACTERS or not _ALPHANUMERIC.issuperset(code):
        raise BadDataError(
            f"“{code[:20]}” cannot be printed as a code: "
            f"1 to {QR_CHARACTERS} capitals and digits are needed."
        )


def _rectangles(line: bytes | bytearray, y: int) -> str:
    """The unbroken runs of dark modules (1) in one row."""
    parts, start = [], line.find(1)
    while start >= 0:
        end = line.find(0, start)
        end = end if end >= 0 else len(line)
        parts.append(f"{start} {y} {end - start} 1 re")
        start = line.find(1, end)
    return " ".join(parts)
