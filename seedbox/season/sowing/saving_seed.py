"""Which plans give seed that comes true: mating, what else flowers near it, how many plants."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum

from seedbox import almanac
from seedbox.almanac import Fact
from seedbox.season.sowing.desk import Desk
from seedbox.season.sowing.garden import season_of
from seedbox.season.sowing.in_progress import Growing
from seedbox.tin.garden_records import Plan


class ComesTrue(StrEnum):
    """Whether seed of a plan will be like its parents, in the words that are shown."""

    YES = "comes true"
    WITH_CARE = "comes true with care"
    NO = "will be crossed"
    NOT_KNOWN = "not known"


@dataclass(frozen=True, slots=True)
class SavingAdvice:
    """What saving seed of a crop and variety means this season.

    `crosses_with` are other kinds and varieties of its species that are planned or growing.
    `enough_plants` is None where no number is known. `ripe` says how to see it is ripe, `year` the
    year in which that is.
    """

    crop_id: str
    crop: str
    variety: str
    verdict: ComesTrue
    why: str
    crosses_with: tuple[str, ...]
    isolation_m: float | None
    plants: int
    least_plants: int | None
    year: int
    ripe: str
    processing: str

    @property
    def enough_plants(self) -> bool | None:
        return None if self.least_plants is None else self.plants >= self.least_plants


@dataclass(frozen=True, slots=True)
class _Grown:
    """A kind in the garden this season."""

    crop_id: str
    variety: str
    plants: int


def saving_advice(desk: Desk) -> tuple[SavingAdvice, ...]:
    """Advice for everything planned or growing this season that the almanac knows, by crop."""
    climate = desk.garden.climate
    if climate is None:
        return ()
    year, start = season_of(climate, desk.today)
    plans = [plan for plan in desk.garden.plans if plan.year in (None, year)]
    growing = [one for one in desk.sowings if start < one.sowing.on and one.plants and one.open]
    kinds = _kinds(plans, growing)
    found = [_advice(desk, one, kinds, year) for one in kinds if almanac.is_crop_id(one.crop_id)]
    return tuple(sorted(found, key=lambda one: (one.crop.casefold(), one.variety.casefold())))


def _kinds(plans: Iterable[Plan], growing: Iterable[Growing]) -> list[_Grown]:
    """Each crop and variety once, with its plants: those that grow, else those planned."""
    plants: dict[tuple[str, str], int] = {}
    for one in growing:
        key = (one.packet.crop_id, one.packet.variety)
        plants[key] = plants.get(key, 0) + one.plants
    for plan in plans:
        named = any(crop == plan.crop_id for crop, _ in plants) and not plan.variety
        if not named and (plan.crop_id, plan.variety) not in plants:
            plants[plan.crop_id, plan.variety] = plan.plants
    return [_Grown(*key, count) for key, count in plants.items()]


def _advice(desk: Desk, one: _Grown, kinds: Iterable[_Grown], year: int) -> SavingAdvice:
    facts = almanac.seed_saving(one.crop_id)
    name = desk.listing.book.name
    rivals = tuple(
        f"{name(other.crop_id)} {other.variety}".strip()
        for other in kinds
        if other != one and _species(other.crop_id) == _species(one.crop_id)
    )
    isolation, least = _high(facts, "isolation_m"), _low(facts, "min_plants")
    verdict, why = _verdict(_text(facts, "mating"), rivals, isolation)
    biennial = _text(facts, "seed_life").startswith("biennial")
    return SavingAdvice(
        one.crop_id,
        name(one.crop_id),
        one.variety,
        verdict,
        why,
        rivals,
        isolation,
        one.plants,
        None if least is None else round(least),
        year + 1 if biennial else year,
        _text(facts, "ripeness"),
        _text(facts, "processing"),
    )


def _verdict(
    mating: str, rivals: tuple[str, ...], isolation_m: float | None
) -> tuple[ComesTrue, str]:
    """By how it is pollinated, and what else of its species stands in the garden."""
    apart = "" if isolation_m is None else f" (usually {isolation_m:g} m apart)"
    others = f"{', '.join(rivals)} of the same species" if rivals else ""
    if not mating:
        return ComesTrue.NOT_KNOWN, "nothing is known of how it is pollinated"
    if _selfs(mating):
        if rivals:
            return ComesTrue.WITH_CARE, f"it pollinates itself; keep it from {others}{apart}"
        return ComesTrue.YES, f"it pollinates itself{apart}"
    if rivals:
        return ComesTrue.NO, f"it crosses with {others}: let only one of them flower{apart}"
    return (
        ComesTrue.WITH_CARE,
        f"it crosses; nothing of its species is planned here, but look at the neighbours{apart}",
    )


def _selfs(mating: str) -> bool:
    """Whether nearly all seed is of the plant's own pollen."""
    mostly = mating.startswith(("self", "mainly self", "mostly self", "largely self"))
    return mostly and not any(word in mating for word in ("insect", "wind", "cross"))


def _species(crop_id: str) -> tuple[str, ...]:
    if not almanac.is_crop_id(crop_id):
        return (crop_id,)
    return tuple(almanac.crop(crop_id).botanical_name.split()[:2])


def _text(facts: Mapping[str, Fact], name: str) -> str:
    return facts[name].text if name in facts else ""


def _low(facts: Mapping[str, Fact], name: str) -> float | None:
    return facts[name].low if name in facts else None


def _high(facts: Mapping[str, Fact], name: str) -> float | None:
    return facts[name].high if name in facts else None
