"""Columns of a list: how wide each is drawn, and which appear only when there is room."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

GAP = 1


@dataclass(frozen=True, slots=True)
class Column:
    """One column. `width` is its least width, `grows` its share of spare room up to `most`.

    `from_width` is the screen width [cells] from which the column is shown at all.
    """

    key: str
    title: str
    width: int
    most: int = 0
    right: bool = False
    from_width: int = 0


@dataclass(frozen=True, slots=True)
class Placed:
    """A column with the place of its text in a row and the width it is drawn in."""

    column: Column
    index: int
    width: int


def lay_out(columns: Sequence[Column], total: int) -> tuple[Placed, ...]:
    """Which columns fit into `total` cells and how wide they are; spare room goes round in turn.

    >>> [p.width for p in lay_out([Column("a", "A", 3), Column("b", "B", 4, most=9)], 20)]
    [3, 9]
    """
    shown = [(i, c) for i, c in enumerate(columns) if total >= c.from_width]
    widths = {i: c.width for i, c in shown}
    spare = total - sum(widths.values()) - GAP * max(0, len(shown) - 1)
    growing = [(i, c) for i, c in shown if c.most > c.width]
    while spare > 0 and growing:
        for i, _ in growing[:spare]:
            widths[i] += 1
        spare -= len(growing[:spare])
        growing = [(i, c) for i, c in growing if widths[i] < c.most]
    return tuple(Placed(c, i, widths[i]) for i, c in shown)
