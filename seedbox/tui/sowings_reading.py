"""The sowings of a tin with the jobs that each still has, the most pressing first."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from seedbox.season.jobs import Job
from seedbox.season.sowing.desk import Desk as Season
from seedbox.season.sowing.in_progress import Growing
from seedbox.season.sowing.sowing_jobs import SowingJob, as_job, growing_of, jobs_of_one
from seedbox.tin.file import Tin


@dataclass(frozen=True, slots=True)
class Standing:
    """One sowing and its open jobs, in order of date."""

    growing: Growing
    jobs: tuple[SowingJob, ...]
    today: date

    @property
    def next(self) -> SowingJob | None:
        return self.jobs[0] if self.jobs else None

    @property
    def next_told(self) -> Job | None:
        """The next job as lists of jobs tell it."""
        return as_job(self.jobs[0], self.today) if self.jobs else None

    @property
    def in_progress(self) -> bool:
        """Whether anything is still to be done: a failed sowing may have to be sown again."""
        return self.growing.open or bool(self.jobs)

    @property
    def days_late(self) -> int:
        return max((job.days_late(self.today) for job in self.jobs), default=0)


@dataclass(frozen=True, slots=True)
class SowingsReading:
    """All sowings of a tin on a day. `season` is what they were reckoned with."""

    season: Season
    standings: tuple[Standing, ...]

    @property
    def described(self) -> bool:
        """Whether frosts and latitude are known, without which no job can be reckoned."""
        return self.season.garden.climate is not None


def read_sowings(tin: Tin, today: date) -> SowingsReading:
    """Every sowing with its jobs: by the day of the next one, those without any last."""
    season = Season(tin, today)
    found = [Standing(one, jobs_of_one(season, one), today) for one in season.sowings]
    return SowingsReading(season, tuple(sorted(found, key=_order)))


def read_sowing(tin: Tin, code: str, today: date) -> tuple[Season, Standing]:
    """One sowing with its jobs.

    Raises NotFoundError when the tin has it no more.
    """
    season = Season(tin, today)
    growing = growing_of(season, tin.sowing(code).code)
    return season, Standing(growing, jobs_of_one(season, growing), today)


def _order(one: Standing) -> tuple[int, date, str]:
    job = one.next
    if job is not None:
        return (0, job.when.due, one.growing.sowing.code)
    return (1 if one.growing.open else 2, one.growing.sowing.on, one.growing.sowing.code)
