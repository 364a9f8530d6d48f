"""`swap offer`: a person's word that a packet is offered in spite of a caution."""

from __future__ import annotations

import click

from seedbox.cli import completing
from seedbox.cli.codes import code_argument
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import changed
from seedbox.cli.params import Whole
from seedbox.cli.session import Session
from seedbox.errors import UsageError


@seedbox_command("offer", short_help="Offer a packet in spite of a caution, or only so much.")
@code_argument(completing.codes)
@click.option("--portions", type=Whole("portions", 1, 1000), help="Offer at most so many.")
@click.option("--forget", is_flag=True, help="Forget what you said, also by keep.")
@json_option
@click.pass_obj
def command(
    session: Session, /, *, code: str, portions: int | None, forget: bool, as_json: bool
) -> None:
    """Offer the packet CODE though a caution holds it back, or at most so many portions of it.

    The caution still goes with the seed. --forget leaves the packet to the reckoning again.
    """
    from seedbox.tin.codes import shown
    from seedbox.tin.list_records import SwapWord
    from seedbox.tin.swap_choices import clear_swap_choice, set_swap_choice

    if forget and portions is not None:
        raise UsageError("--forget takes the word back; leave --portions out.")
    with session.tin() as tin:
        packet = tin.packet(code)
        if forget:
            clear_swap_choice(tin, packet)
        else:
            set_swap_choice(tin, packet, SwapWord.OFFER, portions=portions)
    named = f"{shown(packet.code)} {packet.variety}".strip()
    most = f", at most {portions} of its portions" if portions else ""
    said = f"{named} is left to the reckoning again." if forget else f"{named} is offered{most}."
    changed(said, as_json=as_json, code=packet.code, portions=portions)
