"""Jobs, counts of tests and sowing windows as events of a calendar, with identities that last.

The command writes them by RFC 5545; the identity of an event does not change when its day does, so
that reading a newer file in again moves it instead of adding one.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from seedbox.season.jobs import SOURCES, Job, jobs_due
from seedbox.season.sowing.climate import GardenClimate
from seedbox.season.sowing.desk import Desk
from seedbox.season.sowing.figures import SowingFigures
from seedbox.season.sowing.sowing_jobs import as_job, jobs_of
from seedbox.season.sowing.spans import SowingSpan, season_spans
from seedbox.tin.file import Tin
from seedbox.tin.text import clean_line

HORIZON_DAYS = 365
_HOST = "seedbox.invalid"  # RFC 2606: a name that nobody can own


@dataclass(frozen=True, slots=True)
class CalendarEvent:
    """An event of whole days, from `start` up to and with `end`. `uid` is the same for good.

    `category` is a job's kind, `germination test` or `sowing window`.
    """

    uid: str
    start: date
    end: date
    summary: str
    description: str
    category: str


def calendar_events(
    tin: Tin, today: date, *, days: int = HORIZON_DAYS, desk: Desk | None = None
) -> tuple[CalendarEvent, ...]:
    """Everything from late jobs to so many days ahead, in order of date.

    Windows are those of planned crops; where nothing is planned, of every crop in the tin.
    """
    desk = desk or Desk(tin, today)
    until = today + timedelta(days=days)
    jobs = [as_job(job, today) for job in jobs_of(desk) if job.when.due <= until]
    tests = jobs_due(tin, today, within_days=days, sources=SOURCES)
    events = [
        *(_of_job(job, job.kind) for job in jobs),
        *(_of_job(job, "germination test") for job in tests),
        *_windows(desk, _garden_mark(desk), until),
    ]
    return tuple(sorted(events, key=lambda event: (event.start, event.uid)))


def _of_job(job: Job, category: str) -> CalendarEvent:
    what = " ".join(part for part in (job.crop, job.variety) if part)
    return CalendarEvent(
        uid=f"{job.job}@{_HOST}",
        start=job.due,
        end=job.due,
        summary=clean_line(f"{job.kind}: {what}"),
        description=f"{job.what}\n{job.why}\n{job.job}".strip(),
        category=category,
    )


def _garden_mark(desk: Desk) -> str:
    """Tells this garden's windows from those of another in one calendar: its first packet."""
    codes = [line.packet.code for line in desk.listing.lines]
    return codes[0] if codes else "empty"


def _windows(desk: Desk, mark: str, until: date) -> Iterator[CalendarEvent]:
    climate = desk.garden.climate
    if climate is None or climate.frost_free:
        return
    planned = {need.plan.crop_id for need in desk.needs if not need.met}
    known = {line.packet.crop_id for line in desk.listing.lines if not line.is_empty}
    for crop_id in sorted(planned or known):
        figures = desk.facts.figures(crop_id)
        if figures is not None:
            yield from _of_crop(desk, figures, climate, mark, until)


def _of_crop(
    desk: Desk, figures: SowingFigures, climate: GardenClimate, mark: str, until: date
) -> Iterator[CalendarEvent]:
    name = desk.listing.book.name(figures.crop_id)
    for season in climate.seasons_around(desk.today):
        for span in season_spans(figures, climate, season):
            if span.closes >= desk.today and span.opens <= until:
                yield _window(name, figures.crop_id, span, mark)


def _window(name: str, crop_id: str, span: SowingSpan, mark: str) -> CalendarEvent:
    year = span.season.last_frost.year
    parts = (mark, crop_id, span.method.value, span.phase.value, str(year))
    identity = "-".join(part.replace(" ", "-").replace(":", "-") for part in parts)
    return CalendarEvent(
        uid=f"{identity}@{_HOST}",
        start=span.opens,
        end=span.closes,
        summary=clean_line(f"sow {name} {span.method.value}"),
        description=f"{span.phase.value}: sow {name} {span.method.value}.",
        category="sowing window",
    )
