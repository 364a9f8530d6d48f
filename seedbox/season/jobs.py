"""What is due on a day, whatever it comes from: counts of germination tests, and more to join."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from seedbox.season.testing.due import DueCount, due_counts
from seedbox.season.testing.schedule import CountKind, count_days, days_words, started
from seedbox.tin.file import Tin


@dataclass(frozen=True, slots=True)
class Job:
    """One thing to do.

    `job` names it for good, `kind` says what sort it is, `code` stands on its label. `what` says
    what to do and `why` what it rests on. `days_late` is 0 for what is due today or still ahead.
    """

    job: str
    kind: str
    due: date
    days_late: int
    code: str
    crop: str
    variety: str
    what: str
    why: str


Source = Callable[[Tin, date, int], Iterable[Job]]
"""Jobs of a tin that are due by a day, or within so many days more."""


def jobs_due(
    tin: Tin, today: date, *, within_days: int = 0, sources: Iterable[Source] | None = None
) -> tuple[Job, ...]:
    """All that is due by today, or within so many days more: the latest first, then by day."""
    asked = SOURCES if sources is None else sources
    found = [job for source in asked for job in source(tin, today, within_days)]
    return tuple(sorted(found, key=_order))


def _order(job: Job) -> tuple[int, date, str]:
    return (-job.days_late, job.due, job.job)


def test_jobs(tin: Tin, today: date, within_days: int) -> Iterable[Job]:
    """Counts of running germination tests, and tests that only wait to be finished."""
    return [_of_test(due) for due in due_counts(tin, today, within_days=within_days)]


test_jobs.__test__ = False  # type: ignore[attr-defined]  # its name, not its nature

SOURCES: tuple[Source, ...] = (test_jobs,)
"""Where jobs come from. A new kind of job joins here, and every list of jobs shows it."""

_FINISH = "finish"
_WHAT = {
    CountKind.FIRST: (
        "Take out the normal seedlings and write down how many: 0 is a count too. Keep the rest"
        " damp."
    ),
    CountKind.BETWEEN: (
        "Take out the normal seedlings that are new, and what rots, and write down how many."
    ),
    CountKind.FINAL: (
        "Sort all that is left into normal, abnormal, hard, fresh and dead, write it down, and"
        " finish the test."
    ),
}


def _of_test(due: DueCount) -> Job:
    test, count = due.test, due.count
    final = count_days(test)[1]
    kind = _FINISH if count is None else count.kind.value
    return Job(
        job=f"{test.code}-{final if count is None else count.day}-{kind.replace(' ', '-')}",
        kind=kind,
        due=started(test) + timedelta(days=min(final, due.day)) if count is None else count.on,
        days_late=due.late,
        code=test.code,
        crop=due.crop,
        variety=due.packet.variety,
        what=_what(due),
        why=_why(due, final),
    )


def _what(due: DueCount) -> str:
    if due.count is None:
        return "All counts are made: finish the test."
    if due.decided:
        return f"The test is decided already, {due.decided}: you may finish it, or count on."
    return _WHAT[due.count.kind]


def _why(due: DueCount, final: int) -> str:
    """Laid when, how far it has come, of how many days."""
    laid = started(due.test)
    seeds = "1 seed" if due.test.seeds == 1 else f"{due.test.seeds} seeds"
    came = f"Today is day {due.day} of {final}" if due.day <= final else f"The last was day {final}"
    over = f", {days_words(due.day - final)} ago" if due.day > final else ""
    return f"{seeds} were laid on {laid.day} {laid:%B}. {came}{over}."
