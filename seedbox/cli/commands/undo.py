"""`undo`: take the latest change back."""

from __future__ import annotations

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import say, say_json
from seedbox.cli.session import Session


@seedbox_command("undo")
@json_option
@click.pass_obj
def command(session: Session, as_json: bool) -> None:
    """Take the latest change back, also a whole import.

    Undo again to go further back. What was undone can be done again with `seedbox redo`.
    """
    from seedbox.tin.history import undo

    with session.tin() as tin:
        label = undo(tin)
    if as_json:
        say_json({"undone": label})
    else:
        say(f"Undone: {label}.", "Do it again with: seedbox redo")
