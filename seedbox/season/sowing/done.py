"""Doing jobs of sowings: done, put off, skipped; and telling that a sowing failed or is over."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from seedbox.errors import BadDataError
from seedbox.season.sowing.desk import Desk
from seedbox.season.sowing.in_progress import Growing
from seedbox.season.sowing.job_dates import JobKind
from seedbox.season.sowing.job_names import EVENT_OF, WORDS, parse_job
from seedbox.season.sowing.sowing_jobs import SowingJob, find_job, growing_of, jobs_of_one
from seedbox.tin import codes
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import EventKind, Sowing, SowingEvent
from seedbox.tin.sowing_events import record_event

_USUAL_DELAY_DAYS = 7
_ASKED_FOR = (JobKind.SOW_AGAIN, JobKind.RESOW)  # without the job they would mean nothing


@dataclass(frozen=True, slots=True)
class Done:
    """What was written down, and the jobs that the sowing has now, in order of date."""

    event: SowingEvent
    sowing: Sowing
    next_jobs: tuple[SowingJob, ...]


def done(
    tin: Tin,
    job: str,
    *,
    today: date,
    on: date | None = None,
    count: int | None = None,
    place: str = "",
    pot_depth_cm: float | None = None,
    note: str = "",
) -> Done:
    """Marks a job as done on a day; what really happened moves the sowing's later jobs.

    Emergence needs its `count`; for other jobs `count` is the plants that there are now. `place`
    is where the plants stand from then on. A job done early need not be due, and what was done
    without being asked for (potted on all the same) is written down too.
    """
    growing, kind = _to_do(Desk(tin, today), job)
    if kind is JobKind.COUNT and count is None:
        raise BadDataError("Say how many came up with --count; 0 is a count too.")
    event = record_event(
        tin,
        growing.sowing,
        EVENT_OF[kind],
        on or today,
        today=today,
        count=count,
        place=tin.place(place) if place else None,
        pot_depth_cm=pot_depth_cm,
        job=WORDS[kind],
        note=note,
    )
    return _told(tin, event, growing.sowing, today)


def _to_do(desk: Desk, text: str) -> tuple[Growing, JobKind]:
    """The sowing and kind of an open job, or of one that can be done though nobody asked for it."""
    code, kind = parse_job(text)
    growing = growing_of(desk, code)
    first = growing.last(EVENT_OF[kind]) is None or kind is JobKind.COUNT
    if growing.open and first and kind not in _ASKED_FOR:
        return growing, kind
    return find_job(desk, text).growing, kind


def put_off(tin: Tin, job: str, *, today: date, until: date | None = None, note: str = "") -> Done:
    """Puts a job off to a day; without one, by a week from today or from when it is due."""
    found = find_job(Desk(tin, today), job)
    later = until or max(today, found.when.due) + timedelta(days=_USUAL_DELAY_DAYS)
    event = record_event(
        tin,
        found.growing.sowing,
        EventKind.PUT_OFF,
        today,
        today=today,
        job=WORDS[found.when.kind],
        until=later,
        note=note,
    )
    return _told(tin, event, found.growing.sowing, today)


def skip(tin: Tin, job: str, *, today: date, note: str = "") -> Done:
    """Leaves a job out for good; the later ones stay."""
    found = find_job(Desk(tin, today), job)
    word = WORDS[found.when.kind]
    sowing = found.growing.sowing
    event = record_event(tin, sowing, EventKind.SKIPPED, today, today=today, job=word, note=note)
    return _told(tin, event, sowing, today)


def count_again(
    tin: Tin, code: str, count: int, *, today: date, on: date | None = None, note: str = ""
) -> Done:
    """A later count, of all seedlings so far: it takes the place of the earlier one."""
    return happened(tin, code, EventKind.EMERGED, today=today, on=on, count=count, note=note)


def failed(tin: Tin, code: str, *, today: date, on: date | None = None, note: str = "") -> Done:
    """Says that nothing will come of a sowing: slugs, mice, damping off. It offers to resow.

    It tells nothing of the packet: what came up is told by a count.
    """
    return happened(tin, code, EventKind.FAILED, today=today, on=on, note=note)


def ended(tin: Tin, code: str, *, today: date, on: date | None = None, note: str = "") -> Done:
    """Says that a sowing is over: harvested, cleared, given away."""
    return happened(tin, code, EventKind.ENDED, today=today, on=on, note=note)


def happened(
    tin: Tin,
    code: str,
    kind: EventKind,
    *,
    today: date,
    on: date | None = None,
    count: int | None = None,
    place: str = "",
    pot_depth_cm: float | None = None,
    note: str = "",
) -> Done:
    """Writes down whatever happened to a sowing, whether a job asked for it or not."""
    sowing = tin.sowing(code)
    event = record_event(
        tin,
        sowing,
        kind,
        on or today,
        today=today,
        count=count,
        place=tin.place(place) if place else None,
        pot_depth_cm=pot_depth_cm,
        note=note,
    )
    return _told(tin, event, sowing, today)


def _told(tin: Tin, event: SowingEvent, sowing: Sowing, today: date) -> Done:
    desk = Desk(tin, today)
    return Done(event, sowing, jobs_of_one(desk, growing_of(desk, codes.parse(sowing.code))))
