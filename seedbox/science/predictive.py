"""What the next sowing would show: latent viability widened by how samples of one lot scatter.

Both intervals were measured on the observed ageing data up to 70 % RH (50 rows, `python -m
tests.bench accuracy`): the 90 % interval of the lot's own germination covers 86 % of what was seen
(84 % when the first test is entered as 400 seeds), with the scatter of the next sample 96 %. A
person sees samples, so the wider one is shown.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from functools import lru_cache
from itertools import accumulate
from math import exp, lgamma, log
from operator import mul

from seedbox.science.constants import BETA_SIZE
from seedbox.science.errors import require
from seedbox.science.lattice import PER_PROBIT, POINTS, fractions
from seedbox.science.probit import known_probit, normal_cdf, normal_density, probit

# Shares are tabulated on the same probit scale, from 0.13 to 99.87 %; beyond is 0 or 1.
_LEVEL_REACH = 3.0
_LEVELS = 2 * int(_LEVEL_REACH) * PER_PROBIT + 1
# Where the integral starts: below it a lot of viability 50 % or more has no mass to speak of.
_START = -5.0


def mean_fraction(masses: Sequence[float]) -> float:
    """Mean germination over a distribution of viability on the probit lattice.

    ``E[g] = sum of mass(z) Phi(z)``

    Parameters: masses, one a lattice point, sum 1.
    Returns: fraction [-].

    >>> masses = [0.0] * POINTS
    >>> masses[POINTS // 2] = 1.0
    >>> mean_fraction(masses)
    0.5
    """
    return float(sum(map(mul, masses, _alive())))


def predictive_quantile(masses: Sequence[float], probability: float) -> float:
    """Share of a sowing that comes up, not exceeded with the given probability.

    ``Y | g ~ Beta(g s, (1 - g) s)``, ``s = 1 / icc - 1``, g by its distribution on the lattice

    Parameters: masses, one a lattice point, sum 1; probability [-].
    Returns: share [fraction].
    Range: probability 0.01 to 0.99.
    Raises: OutOfRangeError.

    >>> masses = [0.0] * POINTS
    >>> masses[POINTS // 2] = 1.0
    >>> round(predictive_quantile(masses, 0.05), 2)
    0.34

    Source: the same beta-binomial as for tests, see ``likelihood``.
    """
    require("probability", probability, 0.01, 0.99)
    return _quantile(*_occupied(masses), probability)


def _occupied(masses: Sequence[float]) -> tuple[int, Sequence[float]]:
    """The first lattice point with mass, and the masses from there to the last."""
    first = next(i for i, mass in enumerate(masses) if mass != 0.0)
    last = next(i for i in range(POINTS, 0, -1) if masses[i - 1] != 0.0)
    return first, masses[first:last]


def _quantile(first: int, occupied: Sequence[float], probability: float) -> float:
    """The two levels beside the quantile, by steps from a near one, and where it lies between."""
    table, last = _not_above_table(), first + len(occupied)
    below, above = -1, _LEVELS  # levels known to lie below and above the quantile
    p_below, p_above = 0.0, 1.0
    level, step = _near_level(first, occupied, probability), 1
    while above - below > 1:
        p = sum(map(mul, occupied, table[level][first:last]))
        if p <= probability:
            below, p_below = level, p
            level += step
        else:
            above, p_above = level, p
            level -= step
        step *= 2
        if not below < level < above:
            level = (below + above) // 2
    if below < 0:
        return 0.0
    if above == _LEVELS:
        return 1.0
    part = _part_between(p_below, probability, p_above)
    return normal_cdf(-_LEVEL_REACH + (below + part) / PER_PROBIT)


def _near_level(first: int, occupied: Sequence[float], probability: float) -> int:
    """A level near the quantile, to begin with: the lot's own quantile, somewhat further out."""
    at = first + bisect_left(list(accumulate(occupied)), probability)
    beyond = 1 if probability > 0.5 else -1
    return min(max(at - (POINTS - _LEVELS) // 2 + beyond, 0), _LEVELS - 1)


def _part_between(p_below: float, p: float, p_above: float) -> float:
    """How far p lies between two levels: probits run straighter than probabilities in the tails."""
    if p_below > 0.0 and p_above < 1.0:
        low = probit(p_below)
        return (known_probit(p) - low) / (probit(p_above) - low)
    return (p - p_below) / (p_above - p_below)


def predictive_interval(masses: Sequence[float], tail: float = 0.05) -> tuple[float, float]:
    """Both ends of the equal-tailed predictive interval [fraction, fraction].

    >>> masses = [0.0] * POINTS
    >>> masses[POINTS // 2] = 1.0
    >>> low, high = predictive_interval(masses)
    >>> round(low + high, 6)
    1.0
    """
    require("tail", tail, 0.01, 0.99)
    first, occupied = _occupied(masses)
    return _quantile(first, occupied, tail), _quantile(first, occupied, 1.0 - tail)


@lru_cache(maxsize=1)
def _alive() -> tuple[float, ...]:
    return tuple(alive for alive, _ in fractions(0))


@lru_cache(maxsize=1)
def _not_above_table() -> tuple[tuple[float, ...], ...]:
    """P(share <= level | viability), a row a level, a column a lattice point."""
    half = POINTS // 2
    upper = [_beta_cdf_at_levels(alive, dead) for alive, dead in fractions(0)[half:]]
    # Mirror: P(Y <= y | g) = 1 - P(Y < 1 - y | 1 - g).
    lower = [[1.0 - p for p in reversed(column)] for column in reversed(upper[1:])]
    return tuple(zip(*lower, *upper, strict=True))


def _beta_cdf_at_levels(alive: float, dead: float) -> list[float]:
    """Beta(alive s, dead s) at each level, by the trapezium rule on the probit scale."""
    a, b = alive * BETA_SIZE, dead * BETA_SIZE
    constant = lgamma(BETA_SIZE) - lgamma(a) - lgamma(b)
    a, b = a - 1.0, b - 1.0
    step = 1.0 / PER_PROBIT
    densities = [
        exp(a * ln_y + b * ln_not_y + constant) * slope for ln_y, ln_not_y, slope in _shares()
    ]
    total, cumulative = 0.0, [0.0]
    for left, middle, right, after in zip(
        densities, densities[1:], densities[2:], densities[3:], strict=False
    ):
        # Fourth order: trapezium with the slopes at both ends (Euler-Maclaurin).
        total += step * (0.5 * (middle + right) + (middle - left - after + right) / 24.0)
        cumulative.append(min(total, 1.0))
    return cumulative[-_LEVELS:]


@lru_cache(maxsize=1)
def _shares() -> tuple[tuple[float, float, float], ...]:
    count = round((_LEVEL_REACH - _START) * PER_PROBIT) + 3
    levels = [_START + (i - 1) / PER_PROBIT for i in range(count)]
    return tuple((log(normal_cdf(v)), log(normal_cdf(-v)), normal_density(v)) for v in levels)
