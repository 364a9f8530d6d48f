"""How much seed a swap portion is: enough to grow a worthwhile number of plants from it."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import Final

from seedbox import almanac
from seedbox.almanac import Fact, Mark
from seedbox.science.chances import Chances
from seedbox.science.sowing_rate import assurance_of_seeds, seeds_for_plants
from seedbox.season.testing.wanted import plants_wanted
from seedbox.tin.preferences import Settings
from seedbox.units import per_cent

# A portion is for one household: no more plants than this for eating, than that for seed. The
# most seeds for a plant, where seed is poor. Common practice, no source.
HOUSEHOLD_PLANTS: Final = 20
MOST_PLANTS: Final = 60
MOST_SEEDS_A_PLANT: Final = 4
MOST_SEEDS: Final = 300


@dataclass(frozen=True, slots=True)
class PortionPlants:
    """Plants that a portion is meant to give, and why; `source` and `mark` of the figure."""

    plants: int
    why: str
    source: str
    mark: Mark


@dataclass(frozen=True, slots=True)
class Portion:
    """A swap portion of one lot: `seeds` for `plants`. `why` says both in a sentence."""

    seeds: int
    plants: int
    why: str


def portion(crop_id: str, chances: Chances, assurance: float) -> Portion:
    """A portion of a lot of which a seed gives a plant at the next sowing with `chances`.

    Enough seeds for the plants with `assurance`, in a place like any; at most four seeds a plant
    and 300 seeds, which is said.
    """
    wanted = portion_plants(crop_id)
    plants = wanted.plants
    most = min(MOST_SEEDS_A_PLANT * plants, MOST_SEEDS)
    sure = assurance_of_seeds(chances, plants, most) >= assurance
    needed = seeds_for_plants(chances, plants, assurance) if sure else most
    seeds = min(_countable(needed), most)
    certain = f", {per_cent(assurance)} sure" if sure else ""
    why = f"{_seeds(seeds)} for {_plants(plants)}{certain}: {wanted.why}"
    if not sure:
        why += "; so much seed of this lot makes them likely, not sure"
    return Portion(seeds, plants, why)


def portion_plants(crop_id: str) -> PortionPlants:
    """Plants that make a portion worth having.

    As many as seed of the crop is usually saved from, so that it can be kept going, and no fewer
    than a household grows; at most 60.
    """
    home = min(plants_wanted(crop_id, Settings(), {}), HOUSEHOLD_PLANTS)
    fact = _least_to_save(crop_id)
    if fact is None or fact.low is None or fact.low < home:
        why = "what a household grows in a small bed"
        return PortionPlants(home, why, "common practice, no source", Mark.MEMORY)
    least = ceil(fact.low)
    if least > MOST_PLANTS:
        why = f"seed is saved from {least} plants or more, so take {ceil(least / MOST_PLANTS)}"
        return PortionPlants(MOST_PLANTS, f"{why} portions for that", fact.source, fact.mark)
    why = f"as many as its seed is saved from ({fact.value})"
    return PortionPlants(least, why, fact.source, fact.mark)


def least_plants(crop_id: str) -> int:
    """The fewest plants from which a variety of the crop is kept going, else a household's."""
    fact = _least_to_save(crop_id)
    if fact is not None and fact.low is not None:
        return ceil(fact.low)
    return portion_plants(crop_id).plants


def _least_to_save(crop_id: str) -> Fact | None:
    known = almanac.is_crop_id(crop_id)
    return almanac.seed_saving(crop_id).get("min_plants") if known else None


def _countable(seeds: int) -> int:
    """Rounded up to what is easily counted out by hand.

    >>> _countable(13), _countable(31), _countable(104)
    (13, 35, 110)
    """
    step = 1 if seeds <= 20 else 5 if seeds <= 100 else 10
    return ceil(seeds / step) * step


def _seeds(seeds: int) -> str:
    return f"{seeds} seed{'' if seeds == 1 else 's'}"


def _plants(plants: int) -> str:
    return f"{plants} plant{'' if plants == 1 else 's'}"
