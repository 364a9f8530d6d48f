"""`history`: what was changed, and when."""

from __future__ import annotations

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import say, say_json
from seedbox.cli.params import Whole
from seedbox.cli.session import Session
from seedbox.cli.tables import Column, room, table
from seedbox.tin.records import Change

_COLUMNS = (Column("when"), Column("what", least=20), Column("state"))
_STATES = {"done": "", "undone": "undone", "dropped": "undone, then overtaken"}


@seedbox_command("history")
@click.option(
    "--limit",
    type=Whole("number", 1, 100_000),
    default=20,
    show_default=True,
    help="How many changes to show.",
)
@json_option
@click.pass_obj
def command(session: Session, limit: int, as_json: bool) -> None:
    """Show the latest changes to the tin, newest first."""
    with session.tin() as tin:
        changes = tin.history(limit + 1)
    if as_json:
        say_json(changes[:limit])
        return
    if not changes:
        say("Nothing was changed in this tin yet.")
        return
    say(*table(_COLUMNS, [_row(change) for change in changes[:limit]], room()))
    if len(changes) > limit:
        say(f"There are more. See them with: seedbox history --limit {limit * 5}")


def _row(change: Change) -> tuple[str, str, str]:
    return f"{change.made_at:%Y-%m-%d %H:%M}", change.label, _STATES.get(change.state, change.state)
