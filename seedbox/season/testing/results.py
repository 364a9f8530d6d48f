"""What a finished test says: shares, indices, earlier tests, and what it does to the forecast."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from seedbox.science.germination_indices import Count, GerminationIndices, germination_indices
from seedbox.science.replicates import Replicate
from seedbox.season.forecast import Forecast
from seedbox.season.listing import Listing
from seedbox.season.testing.agreement import Spread, two_tests
from seedbox.season.testing.current import progress_of
from seedbox.season.testing.evidence import counted_as, weighed
from seedbox.season.testing.progress import Progress
from seedbox.season.testing.schedule import LONGEST_GAP, count_days, started
from seedbox.tin.file import Tin
from seedbox.tin.records import GerminationTest
from seedbox.tin.testing import finish_test
from seedbox.units import per_cent, per_cent_range


@dataclass(frozen=True, slots=True)
class Comparison:
    """This test beside an earlier one of the same packet."""

    earlier: GerminationTest
    spread: Spread


@dataclass(frozen=True, slots=True)
class TestResult:
    """All that a test says when it is finished. `before` and `after` are for the same day.

    `indices` is None where the counts do not allow them; `sentences` say the whole in words.
    """

    __test__ = False  # not a test class, whatever its name starts with

    test: GerminationTest
    progress: Progress
    indices: GerminationIndices | None
    comparisons: tuple[Comparison, ...]
    before: Forecast
    after: Forecast
    sentences: tuple[str, ...]


def finish(tin: Tin, code: str, *, today: date, on: date | None = None) -> TestResult:
    """Finishes a running test and says what it means. One change; undo opens the test again."""
    finish_test(tin, code, today=today, on=on)
    return result(tin, code, today)


def result(tin: Tin, code: str, today: date) -> TestResult:
    """What a finished test says, as seen on a day."""
    listing = Listing(tin, today)
    found = progress_of(tin, code, today, listing)
    test = found.test
    line = next(each for each in listing.lines if each.packet.id == test.packet_id)
    others = [each for each in line.dossier.tests if each.id != test.id]
    without = replace(line, dossier=replace(line.dossier, tests=tuple(others)))
    before, after = listing.forecast(without).forecast, listing.forecast(line).forecast
    assert before is not None
    assert after is not None
    comparisons = tuple(_compared(each, test) for each in _earlier(others, test))
    indices = _indices(found)
    said = _sentences(found, indices, comparisons, before, after)
    return TestResult(test, found, indices, comparisons, before, after, said)


def _earlier(others: Sequence[GerminationTest], test: GerminationTest) -> list[GerminationTest]:
    """Tests finished before this one that ran to their end."""
    return [
        each
        for each in others
        if (each.on, each.id) < (test.on, test.id) and not each.stopped_early
    ]


def _compared(earlier: GerminationTest, test: GerminationTest) -> Comparison:
    seeds, _ = weighed(test)
    normal = min(test.germinated, seeds)
    whose = f"reported by {earlier.reported_by} " if earlier.reported_by else ""
    day = f"{whose}on {earlier.on.day} {earlier.on:%B %Y}"
    spread = two_tests(Replicate(earlier.seeds, earlier.germinated), Replicate(seeds, normal), day)
    return Comparison(earlier, spread)


def _indices(found: Progress) -> GerminationIndices | None:
    """Indices need seedlings and at least two looks."""
    if len(found.counts) < 2 or not found.total.normal:
        return None
    return germination_indices(found.counts, found.test.seeds)


def _sentences(
    found: Progress,
    indices: GerminationIndices | None,
    comparisons: Sequence[Comparison],
    before: Forecast,
    after: Forecast,
) -> tuple[str, ...]:
    said = [_share(found), *_reported(found.test), *_apart(found), *_not_looked_at(found)]
    said += [found.decision.sentence, *found.remarks]
    if found.spread:
        said.append(found.spread.sentence)
    said.append(_speed(indices, found.counts))
    said += [each.spread.sentence for each in comparisons]
    said.append(_effect(before, after))
    return tuple(said)


def _share(found: Progress) -> str:
    share = found.germination
    return (
        f"{found.total.normal} of {found.test.seeds} germinated, {per_cent(share.estimate)}"
        f" ({per_cent_range(share.low, share.high)}, {per_cent(found.confidence)} interval)."
    )


def _reported(test: GerminationTest) -> list[str]:
    """Another's test: whose, and what it counts for."""
    if not test.reported_by:
        return []
    number = counted_as(test)
    seeds = "1 seed" if number == 1 else f"{number} seeds"
    said = f"Reported by {test.reported_by}, so the forecast counts it as a test of {seeds}"
    return [f"{said} of your own."]


_ALIVE = {
    "hard": "hard seed: alive, wants nicking and a soak",
    "fresh": "fresh: firm, still asleep",
}


def _apart(found: Progress) -> list[str]:
    total = found.total
    named = {"abnormal": total.abnormal, "dead": total.dead, "hard": total.hard}
    named["fresh"] = total.fresh
    told = [f"{number} {_ALIVE.get(name, name)}" for name, number in named.items() if number]
    return [f"Apart: {'; '.join(told)}."] if told else []


def _not_looked_at(found: Progress) -> list[str]:
    """When the last look lies well before the last count day, the rest may not be dead at all."""
    looked, test = found.looked_on, found.test
    rest = any(each.unclassed for each in found.replicates)
    if looked is None or not rest or not found.total.dead or test.stopped_early:
        return []
    gap = count_days(test)[1] - (looked - started(test)).days
    if gap <= LONGEST_GAP:
        return []
    day = f"{looked.day} {looked:%B}"
    words = (
        f"Last counted on {day}; what came later would be among the dead. If nobody looked since,"
        " open it again and finish it as of that day."
    )
    return [words]


def _speed(indices: GerminationIndices | None, counts: Sequence[Count]) -> str:
    if indices is None or indices.mean_time is None or indices.t50_coolbear is None:
        return "Counted too few times to say how fast it came."
    mean = f"Seedlings were counted on day {indices.mean_time:.1f} in the mean"
    first_look = counts[0].day
    if indices.t50_coolbear < first_look:  # the formula knows no more than that
        return f"{mean}; half had come by the first count, day {first_look:.0f}."
    return f"{mean}, half had come by day {indices.t50_coolbear:.1f}."


def _effect(before: Forecast, after: Forecast) -> str:
    return f"Forecast before: {_outlook(before)}. With this test: {_outlook(after)}."


def _outlook(forecast: Forecast) -> str:
    if forecast.mean is None or forecast.low is None or forecast.high is None:
        return "none"
    advice = f", {forecast.advice.value}" if forecast.advice else ""
    return f"{per_cent(forecast.mean)} ({per_cent_range(forecast.low, forecast.high)}){advice}"
