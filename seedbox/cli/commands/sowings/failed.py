"""`sowings failed`: nothing will come of the sowing CODE: mice, slugs, damping off."""

from __future__ import annotations

from datetime import date

import click

from seedbox.cli import completing
from seedbox.cli.codes import code_argument
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.params import DAY, WORDS
from seedbox.cli.session import Session
from seedbox.cli.sowing_commands import named, say_done


@seedbox_command("failed", short_help="Say that nothing will come of a sowing.")
@code_argument(completing.sowings)
@click.option("--on", type=DAY, help="The day of it, if not today.")
@click.option("--note", type=WORDS, default="", help="What happened.")
@json_option
@click.pass_obj
def command(session: Session, /, code: str, on: date | None, note: str, as_json: bool) -> None:
    """Say that nothing will come of the sowing CODE: mice, slugs, damping off."""
    from seedbox.season.sowing.done import failed

    with session.tin() as tin:
        done = failed(tin, code, today=session.today, on=on, note=note)
        say_done(tin, done, f"{named(tin, done)} failed.", session, as_json)
