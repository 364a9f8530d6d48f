"""What a finished test tells of its lot, also when it was stopped before all seeds had come."""

from __future__ import annotations

from dataclasses import dataclass

from seedbox.season.testing.schedule import count_days, started
from seedbox.tin.records import GerminationTest


@dataclass(frozen=True, slots=True)
class Weighed:
    """`alive` (germinated and hard) of `seeds`, as the forecast counts a test."""

    seeds: int
    alive: int


def weighed(test: GerminationTest) -> Weighed:
    """The figures of a test for the forecast.

    A test stopped early is counted as if only those seeds had been laid that would have come by
    then if alive: `seeds x share come by that day` of the usual time course, and never fewer than
    were classed. Without this, seed that was merely late would count as dead.
    """
    alive = min(test.germinated + test.hard, test.seeds)
    if not test.stopped_early:
        return Weighed(test.seeds, alive)
    classed = test.seeds - test.unclassed
    ripe = round(test.seeds * _come_by_the_end(test))
    return Weighed(min(max(ripe, classed, 1), test.seeds), alive)


def _come_by_the_end(test: GerminationTest) -> float:
    """Share of the seeds that come at all which have usually come by the day of the finish."""
    from seedbox.science.time_course import course_prior, time_course  # rarely needed

    first, final = count_days(test)
    prior = course_prior(first if first < final else None, final)
    return time_course(prior, 1, (), 0.0).come_by((test.on - started(test)).days)
