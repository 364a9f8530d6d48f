"""How a row is known again, so that the same file brought in twice adds nothing.

The key is a digest of what the row says (not of columns that mean nothing to a tin, nor of their
order) with its number among equal rows of the file. It is kept with the packet and goes with it:
when the import is undone, the file can be brought in again.
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator
from hashlib import blake2b

_BYTES = 10


def keys(rows: Iterable[tuple[str, ...]], taken: Container[str], *, again: bool) -> Iterator[str]:
    """A key per row, numbered among equal rows. With `again`, a taken number is passed by."""
    times: dict[str, int] = {}
    for row in rows:
        base = _digest("\x1f".join(row))
        count = times.get(base, 0) + 1
        while again and f"{base}.{count}" in taken:
            count += 1
        times[base] = count
        yield f"{base}.{count}"


def _digest(text: str) -> str:
    # A lone surrogate cannot be encoded strictly; here it only has to be told from others.
    return blake2b(text.casefold().encode("utf-8", "surrogatepass"), digest_size=_BYTES).hexdigest()
