"""`sowings remove`: strikes out a sowing entered by mistake."""

from __future__ import annotations

import click

from seedbox.cli import completing
from seedbox.cli.codes import code_argument
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import changed
from seedbox.cli.session import Session
from seedbox.tin.codes import shown


@seedbox_command("remove", short_help="Strike out a sowing entered by mistake.")
@code_argument(completing.sowings)
@json_option
@click.pass_obj
def command(session: Session, code: str, as_json: bool) -> None:
    """Strike out the sowing CODE, entered by mistake, with all that was written down of it.

    The seed does not go back into the packet: undo the sowing instead, or recount the packet.
    """
    from seedbox.tin.sowings import remove_sowing

    with session.tin() as tin:
        found = tin.sowing(code)
        remove_sowing(tin, found.code)
    changed(f"Removed the sowing {shown(found.code)}.", as_json=as_json, code=found.code)
