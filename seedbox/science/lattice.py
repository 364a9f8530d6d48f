"""The fixed lattice of probits on which likelihoods and forecasts are tabulated."""

from __future__ import annotations

from functools import lru_cache
from typing import Final

from seedbox.science.probit import normal_cdf

LOWEST: Final = -8.0  # a fraction of 6e-16: dead
PROBITS: Final = 16  # the lattice spans -8 to 8
PER_PROBIT: Final = 8
POINTS: Final = PROBITS * PER_PROBIT + 1


@lru_cache(maxsize=8)
def fractions(fineness: int) -> tuple[tuple[float, float], ...]:
    """(alive, dead) at each lattice point; step 1 / (8 x 2^fineness) probit."""
    per_probit = PER_PROBIT << fineness
    points = (LOWEST + i / per_probit for i in range(PROBITS * per_probit + 1))
    return tuple((normal_cdf(z), normal_cdf(-z)) for z in points)
