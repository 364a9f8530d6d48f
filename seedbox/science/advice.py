"""From probabilities to one of five pieces of advice, and how many seeds a test is worth."""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum
from math import ceil, sqrt

from seedbox.science import constants as c
from seedbox.science.errors import require_inside
from seedbox.science.likelihood import independent_seeds
from seedbox.science.probit import known_probit, normal_cdf, normal_density


class Advice(StrEnum):
    """What to do with a packet, in the words that are shown."""

    SOW = "sow"
    SOW_THICK = "sow thick"
    USE_UP = "use up"
    TEST = "test"
    SPENT = "spent"


def advise(p_standard: float, p_standard_next_year: float, p_floor: float, sure: float) -> Advice:
    """Advice from how probable it is that germination reaches the standard and the floor.

    ``sow`` when P(g >= standard) >= sure, but ``use up`` when that is lost within a year;
    ``sow thick`` when P(g >= floor) >= sure; ``spent`` when P(g >= floor) <= 0.10; else ``test``

    Parameters: probabilities [-]; sure [-], how sure the grower wants to be.
    Returns: Advice.

    >>> advise(0.9, 0.8, 0.99, 0.75).value
    'sow'
    >>> advise(0.9, 0.5, 0.99, 0.75).value
    'use up'
    >>> advise(0.3, 0.2, 0.5, 0.75).value
    'test'

    Source: Seedbox's own rule; the thresholds are settings or stand in ``constants``.
    """
    if p_standard >= sure:
        return Advice.SOW if p_standard_next_year >= sure else Advice.USE_UP
    if p_floor >= sure:
        return Advice.SOW_THICK
    return Advice.SPENT if p_floor <= c.SPENT_AT else Advice.TEST


def thick_factor(standard: float, assured_germination: float) -> float:
    """How many times the usual seed gives, with assurance, the plants of seed at the standard.

    ``standard / assured``, rounded up to tenths, at least 1.1

    Parameters: standard [fraction]; assured_germination [fraction], what the lot exceeds with
    the probability that the grower wants.
    Returns: factor [-].
    Raises: OutOfRangeError when nothing is assured.

    >>> thick_factor(0.8, 0.45)
    1.8

    Source: arithmetic.
    """
    require_inside("assured germination", assured_germination, 0.0, 1.0)
    return max(ceil(10.0 * standard / assured_germination - 1e-9) / 10.0, 1.1)


def seeds_worth_testing(
    viability: float, viability_sd: float, floor: float, sure: float, seeds_left: float | None
) -> int | None:
    """Seeds that a germination test should take to settle what to do with the packet.

    The smallest of 10, 20, 25, 50 that settles the advice nearly as often as 50 would (at most 5
    times in 100 less); never more than a quarter of the packet. Normal approximation: a test of
    n seeds measures the viability with variance ``g (1 - g) / (n_eff phi(z)^2)``.

    Parameters: viability, viability_sd [probits], mean and spread now; floor [fraction];
    sure [-]; seeds_left [seeds] or None when unknown.
    Returns: seeds, or None when a quarter of the packet is fewer than five.

    >>> seeds_worth_testing(-0.3, 0.9, 0.35, 0.75, 200)
    25
    >>> seeds_worth_testing(-0.3, 0.9, 0.35, 0.75, 40)
    10
    >>> seeds_worth_testing(-0.3, 0.9, 0.35, 0.75, 12) is None
    True

    Source: Seedbox's own rule over the standard result for a normal mean with normal error.
    """
    most = c.TEST_SIZES[-1] if seeds_left is None else int(seeds_left * c.TEST_SHARE)
    if most < c.FEWEST_TO_TEST:
        return None
    sizes = [size for size in c.TEST_SIZES if size <= most]
    if not sizes:
        return most
    undecided = _undecided_after(viability, viability_sd, floor, sure)
    near_best = undecided(c.TEST_SIZES[-1]) + c.UNDECIDED_MORE
    return next((size for size in sizes[:-1] if undecided(size) <= near_best), sizes[-1])


def _undecided_after(
    viability: float, viability_sd: float, floor: float, sure: float
) -> Callable[[int], float]:
    """Probability that the advice after a test is to test again, as a function of its seeds."""
    z = max(min(viability, 2.0), -2.0)
    alive = normal_cdf(z)
    error_of_one = alive * (1.0 - alive) / normal_density(z) ** 2
    below_floor = known_probit(floor) - viability
    spent, sown = known_probit(c.SPENT_AT), known_probit(sure)

    def undecided(seeds: int) -> float:
        error = error_of_one / independent_seeds(seeds)
        learnt = viability_sd**2 / (viability_sd**2 + error)
        sd_after, spread = viability_sd * sqrt(1.0 - learnt), viability_sd * sqrt(learnt)
        sown_above, spent_below = below_floor + sown * sd_after, below_floor + spent * sd_after
        return normal_cdf(sown_above / spread) - normal_cdf(spent_below / spread)

    return undecided
