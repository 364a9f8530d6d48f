"""A test as it stands on a day: sums, germination so far, what may still come, decided or not."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from seedbox.science.binomial import interval
from seedbox.science.germination_indices import Count
from seedbox.science.testing_worth import outcome_masses
from seedbox.science.time_course import TimeCourse, course_prior, time_course
from seedbox.season.testing.agreement import Spread, replicate_spread
from seedbox.season.testing.decision import TestDecision, decision
from seedbox.season.testing.schedule import (
    NextCount,
    count_days,
    days_words,
    next_count,
    started,
)
from seedbox.season.testing.tally import (
    Tally,
    counted_together,
    cumulative,
    day_counts,
    tallies,
    whole,
)
from seedbox.tin.preferences import Settings
from seedbox.tin.records import GerminationTest, TestCount, TestState

# More seeds than these take too long to follow seed by seed, and say enough without it.
_MOST_FOLLOWED = 400
_EXPECTED_WITHIN = 0.9


@dataclass(frozen=True, slots=True)
class Share:
    """A germination [fraction] with its interval."""

    estimate: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Progress:
    """All that a test shows on a day.

    `day` counts from the start; `looked_on` is the last count. `germination` is of the seeds laid,
    by the interval of the settings (`method`, `confidence`). `expected` is the final germination
    that is likely, nine times in ten within its interval; None where nothing can be said of it.
    `more_at_most` seedlings more are likely. `curve` is day and seedlings up to it. `next_count`
    is None when all counts were made or the test does not run.
    """

    test: GerminationTest
    on: date
    day: int
    looked_on: date | None
    total: Tally
    replicates: tuple[Tally, ...]
    germination: Share
    method: str
    confidence: float
    expected: Share | None
    more_at_most: int
    decision: TestDecision
    spread: Spread | None
    next_count: NextCount | None
    curve: tuple[tuple[float, int], ...]
    counts: tuple[Count, ...]
    remarks: tuple[str, ...]


def progress(
    test: GerminationTest,
    counts: Sequence[TestCount],
    settings: Settings,
    on: date,
    masses: Sequence[float] | None = None,
) -> Progress:
    """A test as it stands on a day, from its counts up to then.

    `masses` is what was believed of the packet before the test, on the probit lattice (see
    `Forecaster.masses`); without it every outcome is taken as equally likely beforehand.
    """
    counts = [count for count in counts if count.on <= on]
    ended = test.state is TestState.FINISHED and test.on <= on
    total, by_day = whole(test, counts, ended=ended), day_counts(test, counts)
    course = _course(test, total, by_day, masses)
    more = _more_at_most(test, total, by_day, course)
    share = interval(total.normal, test.seeds, settings.test_confidence, settings.test_interval)
    together = tallies(test, counted_together(test, counts))
    running = test.state is TestState.RUNNING
    due = next_count(test, counts, on) if running else None
    return Progress(
        test=test,
        on=on,
        day=(on - started(test)).days,
        looked_on=max((count.on for count in counts), default=None),
        total=total,
        replicates=tallies(test, counts),
        germination=Share(total.normal / test.seeds, share.low, share.high),
        method=settings.test_interval,
        confidence=settings.test_confidence,
        expected=_expected(total, more, course),
        more_at_most=more,
        decision=decision(settings, test.seeds, total.normal, more, running=running),
        spread=replicate_spread(together, complete=more == 0),
        next_count=due,
        curve=cumulative(by_day),
        counts=by_day,
        remarks=tuple(_remarks(test, counts, due, on)),
    )


def _course(
    test: GerminationTest,
    total: Tally,
    by_day: Sequence[Count],
    masses: Sequence[float] | None,
) -> TimeCourse | None:
    """The time course of a test that is followed by days; None when there is nothing to follow."""
    if test.seeds > _MOST_FOLLOWED or _ended_without_days(test, by_day):
        return None
    first, final = count_days(test)
    prior = course_prior(first if first < final else None, final)
    looked = by_day[-1].day if by_day else 0.0
    outcomes = outcome_masses(masses, test.seeds) if masses else (1.0,) * (test.seeds + 1)
    # What was found dead, hard or abnormal does not come any more.
    possible = total.normal + total.unclassed
    final_prior = [p if k <= possible else 0.0 for k, p in enumerate(outcomes)]
    return time_course(prior, test.seeds, by_day, looked, final_prior)


def _ended_without_days(test: GerminationTest, by_day: Sequence[Count]) -> bool:
    return not by_day and test.state is not TestState.RUNNING


def _more_at_most(
    test: GerminationTest, total: Tally, by_day: Sequence[Count], course: TimeCourse | None
) -> int:
    """Seedlings that may still come, not passed in 99 tests of 100; at most the seeds left."""
    _, final = count_days(test)
    ended = by_day[-1].day >= final if by_day else test.state is not TestState.RUNNING
    if ended:
        return 0
    likely = course.more_at_most() if course else total.unclassed
    return min(likely, total.unclassed)


def _expected(total: Tally, more: int, course: TimeCourse | None) -> Share | None:
    if more == 0 and total.seeds:
        final = total.normal / total.seeds
        return Share(final, final, final)
    if course is None:
        return None
    most = (total.normal + total.unclassed) / total.seeds
    low, high = course.interval(_EXPECTED_WITHIN)
    return Share(min(course.expected_germination, most), min(low, most), min(high, most))


def _remarks(
    test: GerminationTest, counts: Sequence[TestCount], due: NextCount | None, on: date
) -> list[str]:
    """What a person should know besides the figures."""
    if test.state is not TestState.RUNNING:
        return _ended_remarks(test)
    said = []
    if due is None:
        all_found = sum(count.seeds for count in counts) >= test.seeds
        why = "Every seed is accounted for" if all_found else "The last count was made"
        said.append(f"{why}: finish the test.")
    elif due.late:
        said.append(f"The {due.kind} is {days_words(due.late)} late; count what is there now.")
    silent = _never_counted(test, counts)
    if silent:
        which = ", ".join(map(str, silent))
        word = "Replicate" if len(silent) == 1 else "Replicates"
        said.append(f"{word} {which} not counted yet: 0 is a count too.")
    return said


def _ended_remarks(test: GerminationTest) -> list[str]:
    if test.stopped_early:
        seeds = "1 seed" if test.unclassed == 1 else f"{test.unclassed} seeds"
        return [f"Stopped before the last count; {seeds} might still have come."]
    return ["Dropped: it tells nothing of its packet."] if test.state is TestState.DROPPED else []


def _never_counted(test: GerminationTest, counts: Sequence[TestCount]) -> list[int]:
    """Replicates without a count while others have one."""
    counted = {count.replicate for count in counts}
    if not counted or test.replicates == 1:
        return []
    return [number for number in range(1, test.replicates + 1) if number not in counted]
