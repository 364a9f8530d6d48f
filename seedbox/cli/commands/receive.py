"""`receive`: more seed of the same lot comes into a packet."""

from __future__ import annotations

from datetime import date

import click

from seedbox.cli import completing
from seedbox.cli.codes import code_and_last
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import changed
from seedbox.cli.params import DAY, WORDS
from seedbox.cli.session import Session
from seedbox.cli.words import amount


@seedbox_command("receive")
@click.argument(
    "what",
    nargs=-1,
    required=True,
    metavar="CODE AMOUNT",
    callback=code_and_last,
    shell_complete=completing.codes,
)
@click.option("--on", type=DAY, help="The day it came, if not today.")
@click.option("--note", type=WORDS, default="", help="Where it came from.")
@json_option
@click.pass_obj
def command(
    session: Session, *, what: tuple[str, str], on: date | None, note: str, as_json: bool
) -> None:
    """Put more seed into the packet CODE: a number of seeds, or grams such as 2.5g.

    Only for seed of the same lot and age. Other seed is a packet of its own.
    """
    from seedbox.cli.amounts import read_amount
    from seedbox.tin.codes import shown
    from seedbox.tin.quantity import receive

    code, text = what
    number, unit = read_amount(text)
    with session.tin() as tin:
        packet = tin.packet(code)
        receive(tin, packet, number, today=session.today, on=on, note=note, unit=unit)
        after = tin.dossier(code)
    changed(
        f"{amount(number, after.packet.unit)} put into {shown(after.packet.code)}; "
        f"it holds {amount(after.left, after.packet.unit)} now.",
        as_json=as_json,
        code=after.packet.code,
        left=after.left,
        unit=after.packet.unit,
    )
