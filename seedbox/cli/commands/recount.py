"""`recount`: what is really in a packet, whatever the journal says."""

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
from seedbox.tin.records import Unit


@seedbox_command("recount")
@click.argument(
    "what",
    nargs=-1,
    required=True,
    metavar="CODE AMOUNT",
    callback=code_and_last,
    shell_complete=completing.codes,
)
@click.option("--grams", is_flag=True, help="The amount is in grams; 2.5g says the same.")
@click.option("--on", type=DAY, help="The day it was counted, if not today.")
@click.option("--note", type=WORDS, default="", help="Why it differs, if you know.")
@json_option
@click.pass_obj
def command(
    session: Session,
    *,
    what: tuple[str, str],
    grams: bool,
    on: date | None,
    note: str,
    as_json: bool,
) -> None:
    """Say how much is really in the packet CODE, as seeds or as grams such as 2.5g."""
    from seedbox.cli.amounts import read_amount
    from seedbox.tin.codes import shown
    from seedbox.tin.quantity import recount

    code, text = what
    number, unit = read_amount(text)
    with session.tin() as tin:
        before = tin.dossier(code)
        recount(
            tin,
            before.packet,
            number,
            today=session.today,
            on=on,
            note=note,
            unit=Unit.GRAMS if grams else unit,
        )
        after = tin.dossier(code)
    was = amount(before.left, before.packet.unit)
    changed(
        f"{shown(after.packet.code)} now holds {amount(after.left, after.packet.unit)} "
        f"(before: {was}).",
        as_json=as_json,
        code=after.packet.code,
        left=after.left,
        unit=after.packet.unit,
    )
