"""From a belief in a lot to the figures, the advice and the day until which it is good."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import sqrt
from operator import mul

from seedbox.science.advice import Advice, advise, seeds_worth_testing, thick_factor
from seedbox.science.lattice import LOWEST, PER_PROBIT, POINTS
from seedbox.science.posterior import Belief
from seedbox.science.predictive import mean_fraction, predictive_interval
from seedbox.science.probit import known_probit, normal_cdf
from seedbox.tin.frozen import record

HORIZON_DAYS = 30 * 365
_YEAR_DAYS = 365
_CLOSE_ENOUGH = 0.001
_CLOSE_IN_PROBITS = 0.005
_POINTS = tuple(LOWEST + i / PER_PROBIT for i in range(POINTS))
_SQUARES = tuple(z * z for z in _POINTS)


@record
class Thresholds:
    """What is asked of a lot: the crop's standard, the lowest use, and how sure to be."""

    standard: float
    floor: float
    sure: float


@record
class Outlook:
    """Figures and advice on a day; `good_days` counts from that day."""

    mean: float
    low: float
    high: float
    p_standard: float
    p_floor: float
    advice: Advice
    thick_factor: float | None
    test_seeds: int | None
    good_days: int | None


def expected_range(masses: Sequence[float]) -> tuple[float, float, float]:
    """Mean, low and high [fractions] of a distribution of viability on the probit lattice.

    The few lots that live on can lift the mean of a dead-looking packet above its 95 % quantile;
    the range is then widened to hold the mean.
    """
    mean = mean_fraction(masses)
    low, high = predictive_interval(masses)
    return mean, min(low, mean), max(high, mean)


def outlook(
    belief: Belief,
    dose: float,
    rate: float,
    thresholds: Thresholds,
    seeds_left: Callable[[], float | None],
) -> Outlook:
    """Figures and advice at a dose [probits], ageing on at `rate` [probits per day]."""
    standard, floor = known_probit(thresholds.standard), known_probit(thresholds.floor)
    masses = belief.masses(dose)
    mean, low, high = expected_range(masses)
    p_standard = belief.probability_at_least(standard, dose)
    p_floor = belief.probability_at_least(floor, dose)
    next_year = 0.0
    if p_standard >= thresholds.sure:
        next_year = belief.probability_at_least(standard, dose + _YEAR_DAYS * rate)
    advice = advise(p_standard, next_year, p_floor, thresholds.sure)
    level = floor if advice is Advice.SOW_THICK else standard
    reached = p_floor if advice is Advice.SOW_THICK else p_standard
    good = None
    if reached >= thresholds.sure:

        def margin(days: float) -> float:
            return belief.probability_at_least(level, dose + days * rate) - thresholds.sure

        if advice is Advice.USE_UP:
            far, at_far = _YEAR_DAYS, next_year - thresholds.sure
        else:
            far, at_far = HORIZON_DAYS, margin(HORIZON_DAYS)
        good = int(_zero_of(margin, (0.0, reached - thresholds.sure), (far, at_far), within=1.0))
    to_test = None
    if advice is Advice.TEST:
        to_test = _to_test(masses, thresholds, seeds_left())
    return Outlook(
        mean=mean,
        low=low,
        high=high,
        p_standard=p_standard,
        p_floor=p_floor,
        advice=advice,
        thick_factor=_thick(belief, dose, thresholds, (p_floor, p_standard))
        if advice is Advice.SOW_THICK
        else None,
        test_seeds=to_test,
        good_days=good,
    )


def _zero_of(
    margin: Callable[[float], float],
    first: tuple[float, float],
    last_known: tuple[float, float],
    *,
    within: float,
) -> float:
    """Where a falling margin is gone, between two places and their margins (Illinois method)."""
    (near, at_near), (far, at_far) = first, last_known
    if at_far >= 0.0:
        return far
    last = 0
    while far - near > within:
        middle = near + (far - near) * at_near / (at_near - at_far)
        middle = min(max(middle, near + 0.5 * within), far - 0.5 * within)
        value = margin(middle)
        if abs(value) < _CLOSE_ENOUGH:
            return middle
        if value > 0.0:
            near, at_near = middle, value
            at_far *= 0.5 if last == 1 else 1.0
            last = 1
        else:
            far, at_far = middle, value
            at_near *= 0.5 if last == -1 else 1.0
            last = -1
    return near


def _thick(
    belief: Belief, dose: float, thresholds: Thresholds, reached: tuple[float, float]
) -> float:
    """Sow so many times thicker; rests on what the lot exceeds with the assurance asked for.

    `reached`: with what probability the lot reaches the floor and the standard.
    """

    def margin(viability: float) -> float:
        return belief.probability_at_least(viability, dose) - thresholds.sure

    floor = (known_probit(thresholds.floor), reached[0] - thresholds.sure)
    standard = (known_probit(thresholds.standard), reached[1] - thresholds.sure)
    assured = _zero_of(margin, floor, standard, within=_CLOSE_IN_PROBITS)
    return thick_factor(thresholds.standard, normal_cdf(assured))


def _to_test(masses: list[float], thresholds: Thresholds, seeds_left: float | None) -> int | None:
    mean = sum(map(mul, masses, _POINTS))
    variance = max(sum(map(mul, masses, _SQUARES)) - mean * mean, 1e-6)
    return seeds_worth_testing(mean, sqrt(variance), thresholds.floor, thresholds.sure, seeds_left)
