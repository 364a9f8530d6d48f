"""`today`: what is due, the latest first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import TYPE_CHECKING

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import say, say_json
from seedbox.cli.params import Whole
from seedbox.cli.session import Session
from seedbox.cli.tables import wrapped
from seedbox.cli.words import count, day, day_of_month
from seedbox.tin.codes import shown

if TYPE_CHECKING:
    from seedbox.season.jobs import Job

_LOOK_AHEAD_DAYS = 400


@seedbox_command("today")
@click.option(
    "--ahead", type=Whole("days", 0, 400), default=0, help="Also what is due so many days ahead."
)
@json_option
@click.pass_obj
def command(session: Session, ahead: int, as_json: bool) -> None:
    """Say what is due today, what is late first: jobs of sowings, counts of germination tests.

    Mark jobs of sowings with `seedbox done`, `put-off` or `skip`. What to sow: `seedbox now`.
    """
    from seedbox.season.sowing.today import today_jobs

    with session.tin() as tin:
        jobs = today_jobs(tin, session.today, within_days=ahead)
        later = () if jobs else today_jobs(tin, session.today, within_days=_LOOK_AHEAD_DAYS)
    if as_json:
        say_json(jobs)
    elif jobs:
        say(*_page(jobs, session.today))
    else:
        say(*_nothing(later, session.today))


def _page(jobs: Sequence[Job], today: date) -> Iterator[str]:
    late = sum(job.days_late > 0 for job in jobs)
    told = f", {late} of them late" if late and len(jobs) > 1 else ""
    yield f"{day(today)}: {count(len(jobs), 'job')}{told}."
    for job in jobs:
        yield ""
        yield from wrapped(f"{_name(job)}: {_when(job, today)}.")
        yield from wrapped(f"{job.what} {job.why}", "  ", "  ")
        yield f"  {_command(job)}"


def _nothing(later: Sequence[Job], today: date) -> Iterator[str]:
    yield f"Nothing is due on {day(today)}."
    if later:
        first = min(later, key=lambda job: (job.due, job.job))
        yield f"Next: {_name(first)}, {_when(first, today)}."


def _name(job: Job) -> str:
    return f"{shown(job.code)} {', '.join(filter(None, (job.crop, job.variety)))}"


def _when(job: Job, today: date) -> str:
    if job.days_late:
        return f"{job.kind}, {count(job.days_late, 'day')} late (due {day_of_month(job.due)})"
    if job.due == today:
        return f"{job.kind} today"
    if job.kind == "harvest from":
        return f"{job.kind} {day_of_month(job.due)}"
    return f"{job.kind} {'on' if job.due > today else 'since'} {day_of_month(job.due)}"


def _command(job: Job) -> str:
    """What to type when it is done."""
    if job.code.startswith("S"):
        from seedbox.cli.sowing_page import to_type

        return to_type(job)
    if job.kind == "finish":
        return f"seedbox test finish {job.code}"
    return f"seedbox test count {job.code} --normal NUMBER"
