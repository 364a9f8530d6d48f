"""The counts of a test added up: by replicate, in all, and day by day."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import accumulate

from seedbox.science.germination_indices import Count
from seedbox.season.testing.schedule import started
from seedbox.tin.records import GerminationTest, TestCount


@dataclass(frozen=True, slots=True)
class Tally:
    """Seeds by what became of them, of the `seeds` laid; `replicate` 0 is the whole test."""

    replicate: int
    seeds: int
    normal: int = 0
    abnormal: int = 0
    hard: int = 0
    fresh: int = 0
    dead: int = 0

    @property
    def unclassed(self) -> int:
        """Seeds that still lie there, or of which nobody told."""
        return self.seeds - self.normal - self.abnormal - self.hard - self.fresh - self.dead


def tallies(test: GerminationTest, counts: Sequence[TestCount]) -> tuple[Tally, ...]:
    """One tally a replicate. A test written down without counts has none."""
    if not counts:
        return ()
    return tuple(
        _tally(number, test.laid(number), (c for c in counts if c.replicate == number))
        for number in range(1, test.replicates + 1)
    )


def counted_together(test: GerminationTest, counts: Sequence[TestCount]) -> list[TestCount]:
    """Counts up to the last day on which every replicate was counted; none without such a day."""
    days = [
        {count.on for count in counts if count.replicate == number}
        for number in range(1, test.replicates + 1)
    ]
    shared = set.intersection(*days)
    return [count for count in counts if count.on <= max(shared)] if shared else []


def whole(test: GerminationTest, counts: Sequence[TestCount], *, ended: bool = False) -> Tally:
    """The tally of all replicates. `ended`, or without counts: the figures of the finish, which
    also say what became of the seeds that were never counted."""
    if ended or not counts:
        figures = (test.abnormal or 0, test.hard, test.fresh or 0, test.dead or 0)
        return Tally(0, test.seeds, test.germinated, *figures)
    return _tally(0, test.seeds, counts)


def _tally(number: int, seeds: int, counts: Iterable[TestCount]) -> Tally:
    chosen = list(counts)
    return Tally(
        number,
        seeds,
        sum(count.normal for count in chosen),
        sum(count.abnormal for count in chosen),
        sum(count.hard for count in chosen),
        sum(count.fresh for count in chosen),
        sum(count.dead for count in chosen),
    )


def day_counts(test: GerminationTest, counts: Sequence[TestCount]) -> tuple[Count, ...]:
    """Normal seedlings of all replicates by day after the start, looks without any included."""
    begun, by_day = started(test), dict[int, int]()
    for count in counts:
        day = (count.on - begun).days
        by_day[day] = by_day.get(day, 0) + count.normal
    return tuple(Count(float(day), new) for day, new in sorted(by_day.items()) if day > 0)


def cumulative(counts: Sequence[Count]) -> tuple[tuple[float, int], ...]:
    """Day and normal seedlings up to it, from the start on."""
    totals = accumulate(count.new for count in counts)
    return ((0.0, 0), *((count.day, total) for count, total in zip(counts, totals, strict=True)))
