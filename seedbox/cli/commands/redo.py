"""`redo`: do again what was undone."""

from __future__ import annotations

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import say, say_json
from seedbox.cli.session import Session


@seedbox_command("redo")
@json_option
@click.pass_obj
def command(session: Session, as_json: bool) -> None:
    """Do the latest undone change again.

    A new change ends this: what was undone before it cannot be done again.
    """
    from seedbox.tin.history import redo

    with session.tin() as tin:
        label = redo(tin)
    if as_json:
        say_json({"redone": label})
    else:
        say(f"Done again: {label}.", "Undo with: seedbox undo")
