"""Nodes of the lot's ageing rate: where ln theta is evaluated, and with what weight."""

from __future__ import annotations

from functools import lru_cache
from math import ceil, exp

from seedbox.science.prior import Prior

# 3.6 sd on both sides leave out 3 in 10,000 of a normal.
REACH_SD = 3.6
# The trapezium rule is exact to 1e-8 for a normal in steps of 0.8 sd. Against the fall of g,
# which spans narrowest / _STEEPEST in ln theta where it is steepest, steps of twice that were
# measured to keep probabilities within 0.002 of a dense grid.
_STEP_PER_SD = 0.8
_STEP_PER_FALL = 2.0
_STEEPEST = 2.4


def rate_step(ln_rate_sd: float, viability_sd: float) -> float:
    """Step of ln theta that resolves both its own spread and the fall of germination [-].

    >>> round(rate_step(0.5, 0.4), 3)
    0.333
    """
    return min(_STEP_PER_SD * ln_rate_sd, _STEP_PER_FALL * viability_sd / _STEEPEST)


@lru_cache(maxsize=256)
def prior_nodes(prior: Prior) -> tuple[tuple[float, float], ...]:
    """(theta, weight) over the log-normal prior; weights sum to 1.

    >>> round(sum(weight for _, weight in prior_nodes(Prior(1.0, 0.4, 0.0, 0.5))), 9)
    1.0
    """
    sd = prior.ln_rate_sd
    half = ceil(REACH_SD * sd / rate_step(sd, prior.viability_sd))
    steps = [REACH_SD * i / half for i in range(-half, half + 1)]
    weights = [exp(-0.5 * t * t) for t in steps]
    total = sum(weights)
    return tuple(
        (exp(prior.ln_rate + sd * t), weight / total)
        for t, weight in zip(steps, weights, strict=True)
    )
