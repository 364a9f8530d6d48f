"""Doing a job from the list of the day: at once where a key is enough, else where it is asked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from seedbox.season.jobs import Job
from seedbox.season.sowing.done import done, put_off
from seedbox.season.sowing.job_dates import JobKind
from seedbox.season.sowing.job_names import parse_job
from seedbox.tin.file import Tin
from seedbox.tui.job_forms import BY_SOWING, done_plan, done_words, next_words
from seedbox.tui.sowings_reading import read_sowing
from seedbox.tui.units import unbroken

if TYPE_CHECKING:
    from seedbox.tui.app import SeedboxApp

FINISH = "finish"


def do(app: SeedboxApp, tin: Tin, job: Job) -> str:
    """Do a job; returns what was done, or nothing when a page or a form asks first."""
    if job.code.startswith("T"):
        return _do_test(app, tin, job)
    code, kind = parse_job(job.job)
    _, standing = read_sowing(tin, code, app.desk.today)
    if kind in BY_SOWING:
        from seedbox.tui.sow_form import ask_to_resow

        ask_to_resow(app, standing.growing)
        return ""
    if kind is JobKind.COUNT:
        app.ask(done_plan(app.desk, standing))
        return ""
    return done_words(standing, done(tin, job.job, today=app.desk.today), app.desk.today)


def _do_test(app: SeedboxApp, tin: Tin, job: Job) -> str:
    """A count needs figures, so its page opens; a test that is counted to the end is finished."""
    if job.kind != FINISH:
        app.jump(job.code)
        return ""
    from seedbox.season.testing.results import finish

    found = finish(tin, job.code, today=app.desk.today)
    return f"Finished. {unbroken(found.sentences[-1])} u lets it run on."


def put_off_a_week(app: SeedboxApp, tin: Tin, job: Job) -> str:
    """Put the job of a sowing off, as far as is usual."""
    found = put_off(tin, job.job, today=app.desk.today)
    until = found.event.until
    day = f" until {until.day} {until:%B}" if until else ""
    name = f"{job.crop} {job.variety}".strip()
    return f"{name}: {job.kind} put off{day}.{next_words(found, app.desk.today)} u takes it back."
