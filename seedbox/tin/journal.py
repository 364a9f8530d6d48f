"""Arithmetic of the quantity journal: from movements to what is left."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from seedbox.tin.frozen import record
from seedbox.tin.records import Movement

# Grams are weighed, not computed: a millionth of a gram is below any seed and hides float noise.
_DECIMALS = 6


@record
class Shortfall:
    """On this day so much was there, and so much more was taken."""

    on: date
    there: float
    lacking: float


def after(known: bool, left: float | None, kind: str, amount: float | None) -> float | None:
    """What is left after one movement; `known` is False only before the first movement."""
    if kind == "recount" or (kind == "received" and not known):
        return amount
    if left is None or amount is None:
        return None
    return round(left + amount if kind == "received" else left - amount, _DECIMALS)


def left_after(journal: Iterable[Movement]) -> float | None:
    """What is left at the end of a journal in order; None when that is unknown."""
    known, left = False, None
    for movement in journal:
        left = after(known, left, movement.kind, movement.amount)
        known = True
    return left


def shortfall(journal: Iterable[Movement]) -> Shortfall | None:
    """The first time more was taken than was there; None when the journal adds up."""
    known, left = False, None
    for movement in journal:
        before, left = left, after(known, left, movement.kind, movement.amount)
        known = True
        if left is not None and left < 0:
            return Shortfall(movement.on, before or 0.0, -left)
    return None
