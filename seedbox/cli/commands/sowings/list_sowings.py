"""`sowings list`: trays and rows, how far each has come, what is next and how late."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from seedbox.cli import completing
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import say, say_json
from seedbox.cli.params import WORDS
from seedbox.cli.session import Session
from seedbox.cli.sowing_page import as_jobs, facts
from seedbox.cli.tables import Column, cells, room, table
from seedbox.cli.words import count, day_of_month

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from seedbox.season.jobs import Job
    from seedbox.season.sowing.in_progress import Growing

_COLUMNS = (
    Column("sowing"),
    Column("crop", least=8),
    Column("variety", least=8),
    Column("sown"),
    Column("now"),
    Column("plants", right=True),
    Column("place", least=8),
    Column("next", least=16),
)
_TOLD_ELSEWHERE = 3  # the day of sowing: `sowings CODE` tells it where there is no room


@seedbox_command("list", short_help="List the sowings, how far they are, what is next.")
@click.option("--crop", type=WORDS, shell_complete=completing.crops, help="Only of this crop.")
@click.option("--all", "everything", is_flag=True, help="Also those that failed or are over.")
@json_option
@click.pass_obj
def command(session: Session, crop: str | None, everything: bool, as_json: bool) -> None:
    """List the sowings in progress, those with late jobs first, with what is next for each."""
    from seedbox.cli.lookup import crop_book
    from seedbox.season.sowing.desk import Desk
    from seedbox.season.sowing.sowing_jobs import jobs_of_one

    with session.tin() as tin:
        desk = Desk(tin, session.today)
        wanted = crop_book(tin).crop_id(crop) if crop else ""
        found = [
            (one, as_jobs(jobs_of_one(desk, one), session.today))
            for one in desk.sowings
            if wanted in ("", one.packet.crop_id)
        ]
        places = {place.id: place.name for place in desk.garden.places}
    shown = [each for each in found if everything or each[0].open or each[1]]
    shown.sort(key=lambda each: _order(each[0], each[1]))
    if as_json:
        say_json([facts(growing, jobs, places) for growing, jobs in shown])
    elif not shown:
        say(_none(len(found)))
    else:
        rows = [_row(growing, jobs, session.today) for growing, jobs in shown]
        say(*_table(rows))
        over = len(found) - len(shown)
        if over:
            say("", f"{count(over, 'sowing')} over: seedbox sowings list --all")


def _table(rows: Sequence[tuple[str, ...]]) -> list[str]:
    """The table; in a narrow terminal without the day of sowing."""
    width, wide = room(), table(_COLUMNS, rows)
    if width is None or max(map(cells, wide)) <= width:
        return wide
    kept = [at for at in range(len(_COLUMNS)) if at != _TOLD_ELSEWHERE]
    narrow = [tuple(row[at] for at in kept) for row in rows]
    return table([_COLUMNS[at] for at in kept], narrow, width)


def _order(growing: Growing, jobs: Sequence[Job]) -> tuple[int, str, str]:
    late = max((job.days_late for job in jobs), default=0)
    due = min((job.due.isoformat() for job in jobs), default="9")
    return (-late, due, growing.sowing.code)


def _none(over: int) -> str:
    told = "Nothing is sown at the moment. What can be: seedbox now"
    return f"{told}\n{count(over, 'sowing')} over: seedbox sowings list --all" if over else told


def _row(growing: Growing, jobs: Sequence[Job], today: date) -> tuple[str, ...]:
    return (
        growing.code,
        growing.crop,
        growing.packet.variety,
        growing.sowing.on.isoformat(),
        growing.stage.value,
        str(growing.plants),
        growing.stands_in.name if growing.open else "",
        _next(jobs, today),
    )


def _next(jobs: Sequence[Job], today: date) -> str:
    if not jobs:
        return ""
    job = max(jobs, key=lambda one: one.days_late)
    if job.days_late:
        return f"{job.kind}, {count(job.days_late, 'day')} late"
    job = jobs[0]
    return f"{job.kind} {'today' if job.due == today else day_of_month(job.due)}"
