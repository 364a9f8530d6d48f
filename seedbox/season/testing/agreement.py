"""Whether the replicates of a test, or two tests of one packet, differ by more than chance."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from seedbox.almanac import replicate_tolerance, two_test_tolerance
from seedbox.science.errors import OutOfRangeError
from seedbox.science.replicates import (
    Agreement,
    Replicate,
    average_percent,
    replicates_agree,
    table_applies,
    two_tests_agree,
)
from seedbox.season.testing.tally import Tally

# The exact test counts every way to deal the seeds: beyond this it would keep a person waiting.
_MOST_SEEDS, _MOST_SEEDS_OF_TWO = 200, 400
_OFFICIAL_SEEDS = 400


@dataclass(frozen=True, slots=True)
class Spread:
    """Whether counts agree, and a sentence that says by which rule."""

    agree: bool
    sentence: str


def replicate_spread(replicates: Sequence[Tally], *, complete: bool) -> Spread | None:
    """Whether replicates agree: by the table for replicates of 100, else exactly.

    `complete` is False while seedlings may still come. None for one replicate, for counts
    of nothing, or for more seeds than the exact test can deal with.
    """
    counted = [Replicate(each.seeds, each.normal) for each in replicates]
    if len(counted) < 2 or not any(each.germinated for each in counted):
        return None
    tolerance = replicate_tolerance(average_percent(counted), len(counted))
    limit = tolerance.points if tolerance else None
    if not table_applies(counted, limit):
        most = _MOST_SEEDS_OF_TWO if len(counted) == 2 else _MOST_SEEDS
        if sum(each.seeds for each in counted) > most:
            return None
    found = _agreement(tuple(counted), limit)
    if found is None:
        return None
    return Spread(found.agree, f"{_by_rule(found, counted)} {_what_to_do(found, complete)}")


@lru_cache(maxsize=256)
def _agreement(counted: tuple[Replicate, ...], limit: int | None) -> Agreement | None:
    """Kept, since a screen asks again and again; None for more replicates than can be judged."""
    try:
        return replicates_agree(counted, limit)
    except OutOfRangeError:
        return None


def _by_rule(found: Agreement, counted: Sequence[Replicate]) -> str:
    if found.limit_points is not None:
        return (
            f"The replicates range over {found.range_points:.0f} points around"
            f" {found.average_percent:.0f} %; 7 CFR 201.55 allows {found.limit_points:.0f}."
        )
    came = ", ".join(f"{each.germinated} of {each.seeds}" for each in counted)
    return (
        f"Replicates: {came}. Chance alone makes them as unlike as this in"
        f" {_share(found.probability or 0.0)} tests."
    )


def _what_to_do(found: Agreement, complete: bool) -> str:
    if found.agree:
        return "They agree."
    if complete:
        return "Repeat the test: one of them fared otherwise."
    return "See whether one lies drier, wetter or colder; if it stays so, repeat the test."


def two_tests(earlier: Replicate, now: Replicate, when: str) -> Spread:
    """Whether a test agrees with an earlier one of the same packet, told in a sentence."""
    both = f"{now.germinated} of {now.seeds} now, {earlier.germinated} of {earlier.seeds} {when}."
    tolerance = two_test_tolerance(average_percent([earlier, now]))
    official = earlier.seeds == now.seeds == _OFFICIAL_SEEDS
    if official and tolerance is not None:
        found = two_tests_agree(earlier, now, tolerance.points)
        return Spread(
            found.agree,
            f"{both} They differ by {found.range_points:.0f} points; {tolerance.points} are allowed"
            f" between tests of {_OFFICIAL_SEEDS} seeds. {_aged(found.agree)}",
        )
    exact = _agreement((earlier, now), None)
    if exact is None:
        return Spread(True, f"{both} They are too large for an exact comparison.")
    return Spread(
        exact.agree,
        f"{both} The official tolerance is for tests of {_OFFICIAL_SEEDS} seeds, so this is counted"
        f" out: chance alone makes two tests of one lot as unlike in"
        f" {_share(exact.probability or 0.0)}. {_aged(exact.agree)}",
    )


def _aged(agree: bool) -> str:
    if agree:
        return "They agree."
    return "They differ: the seed has aged, or one of the tests went otherwise."


def _share(probability: float) -> str:
    """`3 of 100`, `fewer than 1 of 1,000`."""
    if probability < 0.001:
        return "fewer than 1 of 1,000"
    if probability < 0.01:
        return f"{1000 * probability:.0f} of 1,000"
    return f"{100 * probability:.0f} of 100"
