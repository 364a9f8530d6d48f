"""How many plants of a crop a garden wants from a sowing: by its plans, or until it has any."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from seedbox import almanac
from seedbox.almanac import Fact
from seedbox.season.searching import search_key
from seedbox.tin.garden_records import Plan
from seedbox.tin.preferences import Settings
from seedbox.tin.records import Packet

# One bed of a small plot for each crop, and no more plants than a household sows at once: common
# practice, no source.
BED_M2 = 2.0
FEWEST, MOST = 4, 60
UNKNOWN = 12


@dataclass(frozen=True, slots=True)
class Demand:
    """`plants` wanted from a sowing, of all packets together that serve the same `purpose`: a crop
    and the variety that a plan names, or none. `planned` says that a plan asks for them."""

    purpose: tuple[str, str]
    plants: int
    planned: bool


class Demands:
    """What a garden wants of each packet. A plan of its variety comes before one of its crop.

    Plans hold that name no year, `year` or the next; of two for one thing the one that names a
    year says it, and of those the earlier.
    """

    def __init__(
        self,
        plans: Iterable[Plan],
        settings: Settings,
        own: Mapping[str, Mapping[str, str]],
        year: int,
    ) -> None:
        self._settings, self._own = settings, own
        holding = [plan for plan in plans if plan.year in (None, year, year + 1)]
        # The last one stays: those without a year first, then the later year, then the earlier.
        holding.sort(key=lambda plan: -(plan.year or year + 2))
        self._plans = {(plan.crop_id, search_key(plan.variety)): plan for plan in holding}

    def of(self, packet: Packet) -> Demand:
        """What is wanted of a packet, and of the others that serve the same."""
        for variety in (search_key(packet.variety), ""):
            plan = self._plans.get((packet.crop_id, variety))
            if plan is not None:
                return Demand((packet.crop_id, variety), plan.plants, planned=True)
        own = self._own.get(packet.crop_id, {})
        plants = plants_wanted(packet.crop_id, self._settings, own)
        return Demand((packet.crop_id, ""), plants, planned=False)

    def basis(self) -> str:
        """Where the numbers come from."""
        plain = basis_words(self._settings)
        return f"by your plans; of what they do not name, {plain}" if self._plans else plain


def plants_wanted(crop_id: str, settings: Settings, own: Mapping[str, str]) -> int:
    """Plants of a crop that no plan names: the setting's, else what a small bed holds."""
    if settings.plants_wanted >= 1:
        return round(settings.plants_wanted)
    known = almanac.growing(crop_id, own)
    between, rows = _middle(known.get("plant_spacing_cm")), _middle(known.get("row_spacing_cm"))
    if between is None:
        return UNKNOWN
    area_m2 = between * (rows or between) / 10_000
    return min(max(round(BED_M2 / area_m2), FEWEST), MOST)


def basis_words(settings: Settings) -> str:
    """Where the number of plants comes from."""
    if settings.plants_wanted >= 1:
        return f"{settings.plants_wanted:g} of each crop, your setting plants_wanted"
    return (
        f"what stands in {BED_M2:g} square metres at the crop's spacing, {FEWEST} to {MOST}"
        " (the setting plants_wanted says otherwise)"
    )


def _middle(fact: Fact | None) -> float | None:
    if fact is None or fact.low is None or fact.high is None:
        return None
    return (fact.low + fact.high) / 2
