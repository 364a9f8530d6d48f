"""`remove`: a packet leaves the record."""

from __future__ import annotations

import click

from seedbox.cli import completing
from seedbox.cli.codes import code_argument
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.lookup import crop_book
from seedbox.cli.output import changed
from seedbox.cli.session import Session


@seedbox_command("remove")
@code_argument(completing.codes)
@json_option
@click.pass_obj
def command(session: Session, code: str, as_json: bool) -> None:
    """Strike the packet CODE out, with its journal and tests: for entries made by mistake.

    A packet that is used up is better kept; `seedbox take CODE all` empties it.
    """
    from seedbox.tin.codes import shown
    from seedbox.tin.packets import remove_packet

    with session.tin() as tin:
        packet = tin.packet(code)
        name = ", ".join(filter(None, (crop_book(tin).name(packet.crop_id), packet.variety)))
        remove_packet(tin, code)
    changed(f"Removed {shown(packet.code)}: {name}.", as_json=as_json, code=packet.code)
