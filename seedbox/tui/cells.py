"""Text measured and cut in terminal cells, with a person's text kept as plain data."""

from __future__ import annotations

import unicodedata
from functools import lru_cache

from rich.cells import cell_len, chop_cells, set_cell_size

ELLIPSIS = "…"
_FIRST_STRONG_ISOLATE, _POP_ISOLATE = "\u2068", "\u2069"
_INVISIBLE = {"Cc", "Cf", "Cs", "Zl", "Zp"}
_JOINERS = {"\u200c", "\u200d"}


@lru_cache(maxsize=65536)
def plain(text: str) -> str:
    """One line of visible text: control characters and direction overrides become spaces or go.

    A name written right to left is isolated, so that it cannot pull its neighbours across columns.

    >>> plain("two\\nlines")
    'two lines'
    """
    if text.isascii():
        return text if text.isprintable() else "".join(map(_visible, text))
    seen = "".join(map(_visible, text))
    if any(unicodedata.bidirectional(char) in ("R", "AL", "AN") for char in seen):
        return f"{_FIRST_STRONG_ISOLATE}{seen}{_POP_ISOLATE}"
    return seen


def _visible(char: str) -> str:
    if char in _JOINERS:
        return char
    if char in "\t\r\n\x0b\x0c":
        return " "
    return "" if unicodedata.category(char) in _INVISIBLE else char


def width_of(text: str) -> int:
    """Cells that `text` takes once made plain."""
    return cell_len(plain(text))


@lru_cache(maxsize=65536)
def fit(text: str, width: int, *, right: bool = False) -> str:
    """`text` in exactly `width` cells: padded, or cut with an ellipsis.

    >>> fit("calabrese", 6), fit("12", 4, right=True)
    ('calab…', '  12')
    """
    if width <= 0:
        return ""
    seen = plain(text)
    missing = width - cell_len(seen)
    if missing < 0:
        return _cut(seen, width)
    return " " * missing + seen if right else seen + " " * missing


def _cut(seen: str, width: int) -> str:
    isolated = seen.startswith(_FIRST_STRONG_ISOLATE)
    inner = seen[1:-1] if isolated else seen
    kept = set_cell_size(inner, width - 1).rstrip() + ELLIPSIS
    padding = " " * (width - cell_len(kept))
    return f"{_FIRST_STRONG_ISOLATE}{kept}{_POP_ISOLATE}{padding}" if isolated else kept + padding


def path_end(text: str, width: int) -> str:
    """A path that is too long shows its end, by which it differs from others; all else as it is.

    >>> path_end("lists/of/autumn/maud.csv", 12), path_end("broad bean, dwarf", 12)
    ('…mn/maud.csv', 'broad bean, dwarf')
    """
    seen = plain(text)
    if "/" not in seen or cell_len(seen) <= width:
        return seen
    while seen and cell_len(seen) >= width:
        seen = seen[1:]
    return ELLIPSIS + seen


def wrapped(text: str, width: int) -> list[str]:
    """`text` in lines of at most `width` cells, broken between words where that is possible."""
    lines: list[str] = []
    line = ""
    for word in filter(None, plain(text).split(" ")):
        for piece in chop_cells(word, width) if cell_len(word) > width else [word]:
            longer = f"{line} {piece}" if line else piece
            if line and cell_len(longer) > width:
                lines.append(line)
                line = piece
            else:
                line = longer
    return [*lines, line] if line or not lines else lines
