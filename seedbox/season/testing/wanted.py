"""How many plants of a crop a garden wants in a season, until it says so itself."""

from __future__ import annotations

from collections.abc import Mapping

from seedbox import almanac
from seedbox.almanac import Fact
from seedbox.tin.preferences import Settings

# One bed of a small plot for each crop, and no more plants than a household sows at once: common
# practice, no source.
BED_M2 = 2.0
FEWEST, MOST = 4, 60
UNKNOWN = 12


def plants_wanted(crop_id: str, settings: Settings, own: Mapping[str, str]) -> int:
    """Plants of a crop: the setting's, else as many as stand in a small bed at their spacing."""
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
