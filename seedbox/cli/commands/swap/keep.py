"""`swap keep`: a person's word that a packet is not for swapping."""

from __future__ import annotations

import click

from seedbox.cli import completing
from seedbox.cli.codes import code_argument
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import changed
from seedbox.cli.session import Session


@seedbox_command("keep", short_help="Keep a packet back from every swap.")
@code_argument(completing.codes)
@json_option
@click.pass_obj
def command(session: Session, /, *, code: str, as_json: bool) -> None:
    """Keep the packet CODE back, however much of it is spare.

    Take that back with: seedbox swap offer CODE --forget
    """
    from seedbox.tin.codes import shown
    from seedbox.tin.list_records import SwapWord
    from seedbox.tin.swap_choices import set_swap_choice

    with session.tin() as tin:
        packet = tin.packet(code)
        set_swap_choice(tin, packet, SwapWord.KEEP)
    named = f"{shown(packet.code)} {packet.variety}".strip()
    changed(f"{named} is kept back.", as_json=as_json, code=packet.code)
