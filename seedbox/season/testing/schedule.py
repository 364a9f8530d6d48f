"""When a test is counted: the first count, then every two or three days, then the last."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from seedbox.season.testing.conditions import first_count
from seedbox.tin.records import GerminationTest, TestCount

# Rotting tests are counted about every 2 days (7 CFR 201.56); in long ones every 3 will do.
_SHORT_SPAN, _SHORT_STEP, LONGEST_GAP = 8, 2, 3
# A test of which nobody said how long it runs.
_USUAL_FINAL = 21


class CountKind(StrEnum):
    """Which count it is."""

    FIRST = "first count"
    BETWEEN = "count"
    FINAL = "last count"


@dataclass(frozen=True, slots=True)
class NextCount:
    """The count that is due next; `late` days after its day, 0 when it is today or still ahead.

    `day` counts from the start.
    """

    kind: CountKind
    day: int
    on: date
    late: int

    def words(self, today: date) -> str:
        """`last count today`, `first count on 3 March`, `count since 3 March, 2 days late`."""
        day = f"{self.on.day} {self.on:%B}"
        if self.late:
            return f"{self.kind} since {day}, {days_words(self.late)} late"
        ahead = (self.on - today).days
        near = {0: "today", 1: "tomorrow"}.get(ahead, f"on {day}")
        return f"{self.kind} {near}"


def started(test: GerminationTest) -> date:
    """The day on which a test was laid, as far as is known."""
    return test.started_on or test.on


def count_days(test: GerminationTest) -> tuple[int, int]:
    """First and last count day of a test, in days after its start."""
    final = test.final_count_day or max(_USUAL_FINAL, (test.first_count_day or 0) + 1)
    return min(first_count(test.first_count_day, final), final), final


def all_count_days(first: int, final: int) -> tuple[int, ...]:
    """Every day on which a test is counted that is never missed.

    >>> all_count_days(6, 14), all_count_days(7, 21)
    ((6, 8, 10, 12, 14), (7, 10, 13, 16, 19, 21))
    """
    days = [first]
    while days[-1] < final:
        days.append(_after(days[-1], first, final))
    return tuple(days)


def _after(day: int, first: int, final: int) -> int:
    """The count after that of a day; none falls on the day before the last one."""
    left = final - day
    if left <= LONGEST_GAP:
        return final
    step = _SHORT_STEP if final - first <= _SHORT_SPAN or left == LONGEST_GAP + 1 else LONGEST_GAP
    return day + step


def next_count(test: GerminationTest, counts: Sequence[TestCount], today: date) -> NextCount | None:
    """The count that is due next, missed ones first.

    None when the last one was made, or when no seed is left to be counted.
    """
    first, final = count_days(test)
    begun = started(test)
    looked = max((count.on for count in counts), default=begun)
    day = (looked - begun).days
    if counts and (day >= final or sum(count.seeds for count in counts) >= test.seeds):
        return None
    due = first if day < first else _after(day, first, final)
    kind = CountKind.FINAL if due == final else CountKind.BETWEEN
    if due == first and day < first and due != final:
        kind = CountKind.FIRST
    on = begun + timedelta(days=due)
    return NextCount(kind, due, on, max((today - on).days, 0))


def days_words(days: int) -> str:
    """`1 day`, `3 days`."""
    return "1 day" if days == 1 else f"{days} days"
