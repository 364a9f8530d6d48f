"""`calendar`: jobs, counts of tests and sowing windows for the calendar of a telephone."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import say, say_json
from seedbox.cli.params import Whole
from seedbox.cli.session import Session
from seedbox.cli.tables import wrapped
from seedbox.cli.words import count, joined
from seedbox.whole_file import write_whole


@seedbox_command("calendar")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--days", type=Whole("days", 1, 1500), default=365, help="How far ahead; 365 days.")
@click.option("--jobs-only", is_flag=True, help="Leave the sowing windows out.")
@json_option
@click.pass_obj
def command(session: Session, /, file: Path, days: int, jobs_only: bool, as_json: bool) -> None:
    """Write jobs, counts of tests and sowing windows to FILE, in the form of RFC 5545 (.ics).

    Every event has an identity that stays: importing the file again adds nothing, and what has
    moved since is moved. Windows are those of what is planned; without plans, of the whole tin.

    \b
    seedbox calendar garden.ics
    """
    from seedbox.cli.calendar_file import as_ical, refuse_calendar_target
    from seedbox.season.sowing.calendar_events import calendar_events

    refuse_calendar_target(file)
    with session.tin() as tin:
        found = calendar_events(tin, session.today, days=days)
        name = tin.settings().garden_name
    events = [one for one in found if not (jobs_only and one.category == "sowing window")]
    write_whole(file, as_ical(events, name, session.today))
    kinds = Counter(_kind(one.category) for one in events)
    if as_json:
        say_json({"path": str(file), "events": len(events), "kinds": dict(kinds)})
        return
    told = joined([count(number, kind) for kind, number in kinds.items()])
    say(*wrapped(f"Wrote {count(len(events), 'event')} to {file}{f': {told}' if told else ''}."))
    if not events:
        say("Sow something, or describe the garden: seedbox garden --help")


def _kind(category: str) -> str:
    known = {"germination test": "test count", "sowing window": "sowing window"}
    return known.get(category, "job")
