"""What one would like to get: by hand, and from what is missing for the plans."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from math import ceil
from typing import Final

from seedbox.season.crops import CropBook
from seedbox.season.sowing.buying import BuyLine, buying
from seedbox.season.sowing.desk import Desk
from seedbox.season.swapping.portions import portion_plants
from seedbox.season.swapping.records import Wish
from seedbox.season.swapping.words import known_id
from seedbox.tin.file import Tin
from seedbox.tin.list_records import Want
from seedbox.tin.wants import add_want, change_want, want_key

# What is missing is wanted more than what is merely liked, and most where none is left at all.
MISSING_WORTH: Final = 4
NONE_LEFT_WORTH: Final = 5
# A hall is no shop: more portions of one thing nobody brings. Our judgement.
MOST_FROM_BUY: Final = 5


@dataclass(frozen=True, slots=True)
class Taken:
    """Wants taken from what is missing: added, changed, and left as they were."""

    added: tuple[Want, ...]
    changed: tuple[Want, ...]
    left: tuple[Want, ...]


def wishes(wants: Iterable[Want], book: CropBook) -> tuple[Wish, ...]:
    """Wants of a tin as a list tells them, the dearest first."""
    return tuple(
        Wish(book.name(one.crop_id), known_id(one.crop_id), one.variety, one.portions, one.worth)
        for one in dearest_first(wants, book)
    )


def dearest_first(wants: Iterable[Want], book: CropBook) -> list[Want]:
    """By worth, then by name."""
    return sorted(wants, key=lambda w: (-w.worth, book.name(w.crop_id).casefold(), w.variety))


def wants_from_buy(tin: Tin, today: date, desk: Desk | None = None) -> Taken:
    """Takes what `buy` says is missing into the list of wants, as one change.

    A want that stands there already keeps its worth, and is raised to the portions that are
    missing, never lowered.
    """
    return take_missing(tin, buying(desk or Desk(tin, today)))


def take_missing(tin: Tin, missing: Iterable[BuyLine]) -> Taken:
    """As ``wants_from_buy``, with what is missing told already: no lock is held to reckon it."""
    there = {want_key(want): want for want in tin.wants()}
    added: list[Want] = []
    changed: list[Want] = []
    left: list[Want] = []
    with tin.change("Take what is missing into the wants"):
        for wanted in map(missing_want, missing):
            before = there.get(want_key(wanted))
            if before is None:
                added.append(
                    add_want(
                        tin,
                        wanted.crop_id,
                        variety=wanted.variety,
                        portions=wanted.portions,
                        worth=wanted.worth,
                        note=wanted.note,
                    )
                )
            elif before.portions < wanted.portions:
                changed.append(change_want(tin, before.id, portions=wanted.portions))
            else:
                left.append(before)
    return Taken(tuple(added), tuple(changed), tuple(left))


def missing_want(line: BuyLine) -> Want:
    """What is missing for a plan, in portions: as many as give the plants, five at most."""
    missing = line.plants - line.sure
    plants = portion_plants(line.plan.crop_id).plants
    portions = min(max(ceil(missing / plants), 1), MOST_FROM_BUY)
    worth = MISSING_WORTH if line.sure else NONE_LEFT_WORTH
    note = f"{missing} plant{'' if missing == 1 else 's'} missing"
    return Want(0, line.plan.crop_id, line.variety, portions, worth, note)
