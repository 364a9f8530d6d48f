"""`swap give`: portions of a packet go to somebody."""

from __future__ import annotations

from pathlib import Path

import click

from seedbox.cli import completing
from seedbox.cli.codes import code_argument
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.params import WORDS, Whole
from seedbox.cli.session import Session


@seedbox_command("give", short_help="Give portions of a packet to somebody.")
@code_argument(completing.codes)
@click.option("--portions", type=Whole("portions", 1, 1000), default=1, help="How many; 1.")
@click.option("--to", type=WORDS, default="", help="To whom.")
@click.option(
    "--seeds", type=Whole("seeds", 1, 1_000_000), help="Seeds in a portion, if not as reckoned."
)
@click.option("--labels", type=click.Path(path_type=Path), help="Write sharing labels here.")
@json_option
@click.pass_obj
def command(
    session: Session,
    /,
    *,
    code: str,
    portions: int,
    to: str,
    seeds: int | None,
    labels: Path | None,
    as_json: bool,
) -> None:
    """Book that portions of the packet CODE were given away. The seed leaves the packet.

    A portion is as in `seedbox swap spare`, unless --seeds says otherwise. Seed that you should
    keep is given all the same, and that is said.

    \b
    seedbox swap give P4K7QMX2 --portions 2 --to Iestyn --labels portions.pdf
    """
    from seedbox.cli.portion_labels import refuse_place
    from seedbox.cli.swap_booking import report
    from seedbox.season.sowing.desk import Desk
    from seedbox.season.swapping.booking import Give, book
    from seedbox.season.swapping.minding import minding
    from seedbox.season.swapping.spare import portion_seeds, spare

    refuse_place(labels)
    with session.tin() as tin:
        packet = tin.packet(code)
        desk = Desk(tin, session.today)
        gift = Give(packet.code, portions, seeds or portion_seeds(desk, packet.code), to)
        minded = minding(spare(desk, tin), (gift,))
        booked = book(tin, (gift,), (), today=session.today)
        report(session, tin, booked, labels=labels, as_json=as_json, minded=minded)
