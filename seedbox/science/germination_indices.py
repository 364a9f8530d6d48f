"""How fast, how evenly and how far a germination test went: indices over its counts.

A seedling is taken to have come on the day on which it was counted, as the published formulas
do. After a missed day it is therefore dated too late; count days need be neither daily nor regular.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from math import log2, sqrt

from seedbox.science.errors import OutOfRangeError, require, require_inside


@dataclass(frozen=True, slots=True)
class Count:
    """One count: `day` [d] after the start, above 0; `new`, seedlings since the count before."""

    day: float
    new: int


@dataclass(frozen=True, slots=True)
class GerminationIndices:
    """Indices of one test. What the counts do not define is None, never zero.

    `germination` [fraction] of the seeds laid. Times in days: `mean_time`, its `variance` [d^2],
    `standard_error`, `variation` [-] (coefficient of variation); `t50_coolbear`, `t50_farooq`.
    `mean_rate` [per day]; `speed` [seedlings per day]. `synchrony` Z [0 to 1], `uncertainty` U
    [bit], `uniformity` [per d^2]; `timson` [% x days] summed up to the last count.
    """

    seeds: int
    germinated: int
    germination: float
    mean_time: float | None
    variance: float | None
    standard_error: float | None
    variation: float | None
    mean_rate: float | None
    t50_coolbear: float | None
    t50_farooq: float | None
    speed: float
    synchrony: float | None
    uncertainty: float | None
    uniformity: float | None
    timson: float


def germination_indices(counts: Sequence[Count], seeds: int) -> GerminationIndices:
    """All indices of one test.

    Parameters: counts in order of days; seeds laid [seeds], at least those that came.
    Returns: GerminationIndices.
    Raises: OutOfRangeError for days that do not rise, negative counts, more seedlings than seeds.

    >>> found = germination_indices([Count(3, 4), Count(4, 5), Count(7, 1)], 10)
    >>> found.mean_time, found.germination
    (3.9, 1.0)
    >>> germination_indices([Count(3, 0)], 10).mean_time is None
    True

    Source: each function below; Ranal & Santana 2006, Revista Brasileira de Botanica 29:1-11.
    """
    check_counts(counts, seeds)
    came = sum(count.new for count in counts)
    mean, variance = mean_germination_time(counts), germination_time_variance(counts)
    return GerminationIndices(
        seeds=seeds,
        germinated=came,
        germination=came / seeds,
        mean_time=mean,
        variance=variance,
        standard_error=None if variance is None else sqrt(variance / came),
        variation=None if variance is None or mean is None else sqrt(variance) / mean,
        mean_rate=None if mean is None else 1.0 / mean,
        t50_coolbear=t50_coolbear(counts),
        t50_farooq=t50_farooq(counts),
        speed=speed_of_germination(counts),
        synchrony=synchrony(counts),
        uncertainty=uncertainty(counts),
        uniformity=coefficient_of_uniformity(counts),
        timson=timson_sum(counts, seeds, counts[-1].day) if counts else 0.0,
    )


def mean_germination_time(counts: Sequence[Count]) -> float | None:
    """Mean day on which seedlings came [d]: ``sum n t / sum n``; None when none came.

    Source: Ellis & Roberts 1981, Seed Science and Technology 9:373-409.
    """
    came = _came(counts)
    return sum(count.new * count.day for count in counts) / came if came else None


def germination_time_variance(counts: Sequence[Count]) -> float | None:
    """Variance of that day [d^2]: ``sum n (t - mean)^2 / (sum n - 1)``; None below 2 seedlings.

    Source: Ranal & Santana 2006, as above.
    """
    came, mean = _came(counts), mean_germination_time(counts)
    if mean is None or came < 2:
        return None
    return sum(count.new * (count.day - mean) ** 2 for count in counts) / (came - 1)


def t50_coolbear(counts: Sequence[Count]) -> float | None:
    """Day by which half of the seedlings have come, the ``(N + 1) / 2``-th [d].

    ``t_i + ((N + 1) / 2 - n_i) (t_j - t_i) / (n_j - n_i)``, n cumulative, i and j the counts
    around the half; the start of the test stands for the count before the first.

    Source: Coolbear, Francis & Grierson 1984, Journal of Experimental Botany 35:1609-1617.
    """
    came = _came(counts)
    return _day_of_seedling((came + 1) / 2, counts) if came else None


def t50_farooq(counts: Sequence[Count]) -> float | None:
    """The same with ``N / 2`` in place of ``(N + 1) / 2`` [d].

    Source: Farooq, Basra, Ahmad & Hafeez 2005, Journal of Integrative Plant Biology 47:187-193.
    """
    came = _came(counts)
    return _day_of_seedling(came / 2, counts) if came else None


def speed_of_germination(counts: Sequence[Count]) -> float:
    """Seedlings per day, early ones weighing more: ``sum n / t`` [per day].

    Source: Maguire 1962, Crop Science 2:176-177.
    """
    return sum(count.new / count.day for count in counts)


def accumulated_speed(counts: Sequence[Count]) -> float:
    """The same over cumulative counts: ``sum of (n_1 + ... + n_i) / t_i`` [per day].

    Each count adds a term, so that it compares only tests counted on the same days.

    Source: Bradbeer 1988, Seed Dormancy and Germination.
    """
    totals = accumulate(count.new for count in counts)
    return sum(total / count.day for count, total in zip(counts, totals, strict=True))


def synchrony(counts: Sequence[Count]) -> float | None:
    """Chance that two seedlings came at the same count: ``sum C(n, 2) / C(N, 2)`` [-].

    None below 2 seedlings. 1 when all came together, 0 when no two did.

    Source: Primack 1980, Journal of Ecology 68:849-862, as in Ranal & Santana 2006.
    """
    came = _came(counts)
    if came < 2:
        return None
    return sum(count.new * (count.new - 1) for count in counts) / (came * (came - 1))


def uncertainty(counts: Sequence[Count]) -> float | None:
    """Spread of germination over the counts: ``-sum f log2 f``, f = n / N [bit].

    None when none came; 0 when all came at one count.

    Source: Labouriau & Valadares 1976, Anais da Academia Brasileira de Ciencias 48:263-284.
    """
    came = _came(counts)
    if not came:
        return None
    shares = [count.new / came for count in counts if count.new]
    return sum(-share * log2(share) for share in shares)


def coefficient_of_uniformity(counts: Sequence[Count]) -> float | None:
    """Evenness: ``sum n / sum n (t - mean)^2`` [per d^2]; None when all came at one count.

    Source: Heydecker 1972, in Seed Ecology; Bewley & Black 1994, Seeds.
    """
    variance, came = germination_time_variance(counts), _came(counts)
    return came / (variance * (came - 1)) if variance else None


def timson_sum(counts: Sequence[Count], seeds: int, until_day: float) -> float:
    """Cumulative germination summed over the days up to and with `until_day` [% x days].

    ``sum over counts of 100 n / seeds x (k - t + 1)``, which is the daily sum of cumulative per
    cents when a seedling stands from its count on

    Divided by the days k it is the mean of Khan & Ungar, by the final per cent that of Labouriau.

    Source: Timson 1965, Nature 207:216-217.
    """
    stood = sum(
        count.new * (until_day - count.day + 1) for count in counts if count.day <= until_day
    )
    return 100.0 * stood / seeds


def check_counts(counts: Sequence[Count], seeds: int) -> None:
    """Raise OutOfRangeError unless days rise from above 0 and no more came than was laid."""
    require("seeds laid", seeds, 1, float("inf"))
    for count in counts:
        require("seedlings counted", count.new, 0, seeds)
        require_inside("day of a count", count.day, 0.0, float("inf"), "days")
    for before, after in pairwise(counts):
        if after.day <= before.day:
            raise OutOfRangeError("day of a count", after.day, before.day, float("inf"), "days")
    require("seedlings counted in all", _came(counts), 0, seeds)


def _came(counts: Sequence[Count]) -> int:
    return sum(count.new for count in counts)


def _day_of_seedling(place: float, counts: Sequence[Count]) -> float:
    """Day at which the cumulative count reaches `place`, straight between counts [d]."""
    day, total = 0.0, 0
    for count in counts:
        if total + count.new >= place:
            return day + (place - total) * (count.day - day) / count.new
        day, total = count.day, total + count.new
    return day
