"""`sowings move`: a tray goes to another place."""

from __future__ import annotations

from datetime import date

import click

from seedbox.cli import completing
from seedbox.cli.codes import code_argument
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.garden_lookup import place_name
from seedbox.cli.params import DAY, WORDS
from seedbox.cli.session import Session
from seedbox.cli.sowing_commands import named, say_done


@seedbox_command("move")
@code_argument(completing.sowings)
@click.option("--place", type=WORDS, required=True, shell_complete=completing.places,
              help="Where it stands from now on.")  # fmt: skip
@click.option("--on", type=DAY, help="The day it was moved, if not today.")
@json_option
@click.pass_obj
def command(session: Session, /, code: str, place: str, on: date | None, as_json: bool) -> None:
    """Say that the sowing CODE stands in another place now."""
    from seedbox.season.sowing.done import happened
    from seedbox.tin.garden_records import EventKind

    with session.tin() as tin:
        where = place_name(tin, place)
        done = happened(tin, code, EventKind.MOVED, today=session.today, on=on, place=where)
        say_done(tin, done, f"{named(tin, done)} stands in {where} now.", session, as_json)
