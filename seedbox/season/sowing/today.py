"""The day's work: late, due and coming jobs of sowings and of germination tests together."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from seedbox.season.jobs import SOURCES, Job, jobs_due
from seedbox.season.sowing.sowing_jobs import sowing_jobs
from seedbox.tin.file import Tin

COMING_DAYS = 14


@dataclass(frozen=True, slots=True)
class Board:
    """Jobs of a day: late ones (the latest first), those due, and those that come, by day."""

    on: date
    late: tuple[Job, ...]
    due: tuple[Job, ...]
    coming: tuple[Job, ...]

    @property
    def all(self) -> tuple[Job, ...]:
        """All of them, in that order."""
        return (*self.late, *self.due, *self.coming)


def today_jobs(tin: Tin, today: date, *, within_days: int = 0) -> tuple[Job, ...]:
    """All that is to be done by a day, or within so many days more: the latest first."""
    return jobs_due(tin, today, within_days=within_days, sources=(*SOURCES, sowing_jobs))


def board(tin: Tin, today: date, *, coming_days: int = COMING_DAYS) -> Board:
    """The day's work in three parts."""
    found = today_jobs(tin, today, within_days=coming_days)
    return Board(
        today,
        tuple(job for job in found if job.days_late),
        tuple(job for job in found if not job.days_late and job.due <= today),
        tuple(job for job in found if job.due > today),
    )
