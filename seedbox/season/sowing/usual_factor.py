"""What share of living seed comes up before anything was learnt of a place: by how one sows."""

from __future__ import annotations

from functools import lru_cache
from typing import Final

from seedbox import almanac
from seedbox.science.emergence_factor import EmergenceFactor, prior_factor
from seedbox.season.sowing.spans import Method

# The mean over the kinds whose emergence in the field was measured against the laboratory
# (Bralewski & Holubowicz 2008: 82, 81, 45 and 45 %), and a spread that spans them. For other
# kinds our judgement.
FIELD_MEAN: Final = 0.63
FIELD_SD: Final = 0.20
# A range over years is taken to reach two sd to either side.
_SD_PER_RANGE: Final = 0.25
_WEAKEST, _STRONGEST = 2.0, 30.0


@lru_cache(maxsize=512)
def usual_factor(crop_id: str, method: Method) -> EmergenceFactor:
    """Belief in a place's factor: in the open ground lower and wider than in trays."""
    if method is not Method.OUTDOORS:
        return prior_factor()
    mean, sd = _field(crop_id)
    strength = mean * (1.0 - mean) / sd**2 - 1.0
    return prior_factor(mean, min(max(strength, _WEAKEST), _STRONGEST))


def _field(crop_id: str) -> tuple[float, float]:
    measured = almanac.field_emergence(crop_id)
    if measured is None:
        return FIELD_MEAN, FIELD_SD
    middle = 0.5 * (measured.low + measured.high)
    mean = middle if measured.mean is None else measured.mean
    return mean, _SD_PER_RANGE * (measured.high - measured.low)
