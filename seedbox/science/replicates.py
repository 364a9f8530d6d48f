"""Whether replicates, or two tests of one lot, differ by more than chance.

Official tables speak of replicates of 100 seeds and tests of 400. For the small tests of a
kitchen table the same question has an exact answer, given how many germinated in all.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import comb, lcm

from seedbox.science.errors import OutOfRangeError, require
from seedbox.science.testing_constants import TABLE_SEEDS, UNLIKE_BELOW

_MOST_SEEDS = 1000
_MOST_REPLICATES = 16


@dataclass(frozen=True, slots=True)
class Replicate:
    """`germinated` of `seeds` [seeds]."""

    seeds: int
    germinated: int


@dataclass(frozen=True, slots=True)
class Agreement:
    """Whether replicates agree, and by which rule.

    `average_percent` over all seeds and `range_points`, largest less smallest [percentage points].
    `limit_points` is the table's, None where the table does not apply; then `probability` is the
    chance of replicates at least as unlike as these.
    """

    agree: bool
    average_percent: float
    range_points: float
    limit_points: float | None
    probability: float | None


def table_applies(replicates: Sequence[Replicate], limit_points: float | None) -> bool:
    """Whether the table of 7 CFR 201.55 may judge: 100 seeds each, and a figure for this average.

    >>> table_applies([Replicate(25, 20), Replicate(25, 22)], 12)
    False
    """
    return limit_points is not None and all(each.seeds == TABLE_SEEDS for each in replicates)


def replicates_agree(
    replicates: Sequence[Replicate], limit_points: float | None = None
) -> Agreement:
    """Whether the spread of replicates may be put down to chance; if not, the test is repeated.

    By the table when it applies: ``range <= limit``. Else by the exact test: they are unlike when
    their probability is below 1 in 40.

    Parameters: replicates, two or more; limit_points [percentage points], the figure of the
    official table for their average, or None.
    Returns: Agreement.
    Raises: OutOfRangeError for impossible counts, fewer than 2 or more than 16 replicates.

    >>> found = replicates_agree([Replicate(100, 80), Replicate(100, 86), Replicate(100, 91), \
Replicate(100, 89)], 14)
    >>> found.agree, found.average_percent, found.range_points
    (True, 86.5, 11.0)
    >>> replicates_agree([Replicate(10, 9), Replicate(10, 2)]).agree
    False

    Source: 7 CFR 201.55(a) for the table, stored in the almanac; ``probability_as_unlike``.
    """
    _check(replicates)
    shares = [100.0 * each.germinated / each.seeds for each in replicates]
    average = average_percent(replicates)
    spread = max(shares) - min(shares)
    if limit_points is not None and table_applies(replicates, limit_points):
        return Agreement(spread <= limit_points, average, spread, limit_points, None)
    probability = probability_as_unlike(replicates)
    return Agreement(probability >= UNLIKE_BELOW, average, spread, None, probability)


def average_percent(replicates: Sequence[Replicate]) -> float:
    """Germination over all seeds [%]; look up the table's figure with it."""
    return 100.0 * sum(r.germinated for r in replicates) / sum(r.seeds for r in replicates)


def two_tests_agree(first: Replicate, second: Replicate, limit_points: float | None) -> Agreement:
    """Whether two tests of one lot agree: by the two-test table for 400 seeds each, else exactly.

    Parameters, returns, raises: as ``replicates_agree``; limit_points from the two-test table.
    Range: samples of one lot. Tests made a season apart may differ because the seed aged.

    >>> two_tests_agree(Replicate(400, 352), Replicate(400, 372), 6).agree
    True

    Source: table recognised by the Federal Seed Act, 7 CFR 201.63, stored in the almanac.
    """
    if limit_points is None or (first.seeds, second.seeds) != (4 * TABLE_SEEDS,) * 2:
        return replicates_agree([first, second])
    spread = 100.0 * abs(first.germinated - second.germinated) / first.seeds
    average = average_percent([first, second])
    return Agreement(spread <= limit_points, average, spread, limit_points, None)


def probability_as_unlike(replicates: Sequence[Replicate]) -> float:
    """Chance that seeds of one lot, dealt at random, fall into replicates as unlike as these.

    ``P(sum k_i^2 / n_i >= observed | sum k_i)``, over all ways to deal the germinated seeds; the
    statistic orders the ways as chi-square does.

    Parameters: replicates, 2 to 16, with up to 1000 seeds together.
    Returns: probability [-].
    Raises: OutOfRangeError.

    >>> round(probability_as_unlike([Replicate(10, 9), Replicate(10, 2)]), 4)
    0.0055

    Source: Fisher's exact test with Pearson's statistic, Agresti 1992, Statistical Science
    7:131-153.
    """
    _check(replicates)
    scale = lcm(*(each.seeds for each in replicates))
    ways: dict[tuple[int, int], int] = {(0, 0): 1}
    came = sum(each.germinated for each in replicates)
    for each in replicates:
        ways = _dealt(ways, each.seeds, scale // each.seeds, came)
    observed = sum(each.germinated**2 * (scale // each.seeds) for each in replicates)
    ending = [(unlike, count) for (total, unlike), count in ways.items() if total == came]
    as_unlike = sum(count for unlike, count in ending if unlike >= observed)
    return as_unlike / sum(count for _, count in ending)


def _dealt(
    ways: dict[tuple[int, int], int], seeds: int, weight: int, came: int
) -> dict[tuple[int, int], int]:
    """Ways to deal, by (seeds germinated so far, statistic so far), with one replicate more."""
    found: dict[tuple[int, int], int] = {}
    choices = [(k, k * k * weight, comb(seeds, k)) for k in range(min(seeds, came) + 1)]
    for (total, unlike), count in ways.items():
        for k, square, ways_here in choices[: came - total + 1]:
            key = (total + k, unlike + square)
            found[key] = found.get(key, 0) + count * ways_here
    return found


def _check(replicates: Sequence[Replicate]) -> None:
    require("replicates", len(replicates), 2, _MOST_REPLICATES)
    for each in replicates:
        require("seeds of a replicate", each.seeds, 1, _MOST_SEEDS)
        require("germinated seeds", each.germinated, 0, each.seeds)
    total = sum(each.seeds for each in replicates)
    if total > _MOST_SEEDS:
        raise OutOfRangeError("seeds of all replicates", total, 2, _MOST_SEEDS)
