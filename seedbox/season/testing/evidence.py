"""What a finished test tells of its lot, also when it was stopped before all seeds had come."""

from __future__ import annotations

from seedbox.science.constants import REPORTED_ICC, TEST_ICC
from seedbox.science.likelihood import LotTest, seeds_of_own_test
from seedbox.tin.records import GerminationTest


def lot_test(test: GerminationTest, dose: float) -> LotTest:
    """A finished test at its ageing dose, with less trust when it is only reported."""
    return LotTest(dose, *weighed(test), _scatter(test))


def counted_as(test: GerminationTest) -> int:
    """Seeds of a test of one's own, run to its end, that would tell as much as this one."""
    seeds, _ = weighed(test)
    return max(round(seeds_of_own_test(seeds, _scatter(test))), 1)


def _scatter(test: GerminationTest) -> float:
    return REPORTED_ICC if test.reported_by else TEST_ICC


def weighed(test: GerminationTest) -> tuple[int, int]:
    """Seeds of a test, and those of them alive (germinated and hard), as the forecast counts it.

    A test stopped early is counted as if only those seeds had been laid that would have come by
    then if alive: `seeds x share come by that day` of the usual time course, and never fewer than
    were classed. Without this, seed that was merely late would count as dead.
    """
    alive = min(test.germinated + test.hard, test.seeds)
    if not test.stopped_early:
        return test.seeds, alive
    classed = test.seeds - test.unclassed
    ripe = round(test.seeds * _come_by_the_end(test))
    return min(max(ripe, classed, 1), test.seeds), alive


def _come_by_the_end(test: GerminationTest) -> float:
    """Share of the seeds that come at all which have usually come by the day of the finish."""
    # Imported here: a listing rests on finished tests, and few of them were stopped early.
    from seedbox.science.time_course import course_prior, time_course
    from seedbox.season.testing.schedule import count_days, started

    first, final = count_days(test)
    prior = course_prior(first if first < final else None, final)
    return time_course(prior, 1, (), 0.0).come_by((test.on - started(test)).days)
