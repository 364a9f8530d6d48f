"""`sowings count`: a later count of all seedlings so far."""

from __future__ import annotations

from typing import Any

import click

from seedbox.cli import completing
from seedbox.cli.codes import code_argument
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.params import DAY, WORDS, Whole
from seedbox.cli.session import Session
from seedbox.cli.sowing_commands import named, say_done


@seedbox_command("count", short_help="Count the seedlings of a sowing again.")
@code_argument(completing.sowings)
@click.option("--count", "number", type=Whole("number", 0), required=True,
              help="All seedlings that came up so far.")  # fmt: skip
@click.option("--on", type=DAY, help="The day it was counted, if not today.")
@click.option("--note", type=WORDS, default="", help="Anything worth knowing.")
@json_option
@click.pass_obj
def command(session: Session, /, code: str, number: int, as_json: bool, **given: Any) -> None:
    """Count the seedlings of the sowing CODE again: all of them, also those counted before.

    The later count takes the place of the earlier one, for the packet and for the place.
    """
    from seedbox.season.sowing.done import count_again

    with session.tin() as tin:
        done = count_again(
            tin, code, number, today=session.today, on=given["on"], note=given["note"]
        )
        sentence = f"{named(tin, done)}: {number} of {done.sowing.seeds} came up so far."
        say_done(tin, done, sentence, session, as_json)
