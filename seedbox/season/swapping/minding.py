"""What to know before seed is handed over: what it takes of seed kept back, and its cautions."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from seedbox.season.swapping.booking import Give
from seedbox.season.swapping.records import Offer
from seedbox.season.swapping.spare import Spare
from seedbox.season.swapping.words import named
from seedbox.tin.codes import shown


@dataclass(frozen=True, slots=True)
class Minding:
    """`remarks` say where a gift goes against the reckoning; `offers` are what is given, with the
    cautions that go with it.
    """

    remarks: tuple[str, ...] = ()
    offers: tuple[Offer, ...] = ()


def minding(found: Iterable[Spare], gives: Sequence[Give]) -> Minding:
    """What to mind of seed that is given, as it was before: `found` is what was spare then."""
    wanted: dict[str, int] = {}
    for give in gives:
        wanted[give.code] = wanted.get(give.code, 0) + give.portions * give.seeds_per_portion
    concerned = [one for one in found if one.code in wanted]
    return Minding(
        tuple(said for one in concerned for said in _remarks(one, wanted)),
        tuple(one.offer for one in concerned),
    )


def _remarks(one: Spare, wanted: Mapping[str, int]) -> list[str]:
    """Where it takes what is kept, all that is known of the packet; else why it was held back."""
    what = f"{shown(one.code)} {named(one.line.crop, one.line.packet.variety)}"
    if one.portion is None:
        return [f"{what}: {one.why}"]
    eaten = _eaten(one, wanted[one.code])
    if eaten:
        seeds = f"{eaten} seed{'' if eaten == 1 else 's'}"
        return [f"{what}: this takes {seeds} that would be kept back. {one.why}"]
    return [f"{what}: {one.held}"] if one.held else []


def _eaten(one: Spare, seeds: int) -> int:
    """Seeds of a gift that are not spare."""
    return max(seeds - ((one.seeds or 0) - (one.kept_back or 0)), 0)
