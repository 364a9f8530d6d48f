"""`move`: packets go into another store."""

from __future__ import annotations

from datetime import date

import click

from seedbox.cli import completing
from seedbox.cli.codes import many_codes
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.lookup import store_among
from seedbox.cli.output import changed, say, say_json
from seedbox.cli.params import DAY, WORDS, Number
from seedbox.cli.session import Session
from seedbox.cli.words import count
from seedbox.errors import UsageError


@seedbox_command("move")
@click.argument(
    "codes",
    nargs=-1,
    required=True,
    metavar="CODE...",
    callback=many_codes,
    shell_complete=completing.codes,
)
@click.option(
    "--to",
    "to",
    type=WORDS,
    required=True,
    shell_complete=completing.stores,
    help="The store they go into.",
)
@click.option("--on", type=DAY, help="The day they were moved, if not today.")
@click.option("--sealed", is_flag=True, default=None, help="They are sealed from then on.")
@click.option("--moisture", type=Number("per cent", 1, 30), help="Seed moisture when sealed, %.")
@json_option
@click.pass_obj
def command(
    session: Session,
    *,
    codes: list[str],
    to: str,
    on: date | None,
    sealed: bool | None,
    moisture: float | None,
    as_json: bool,
) -> None:
    """Move packets into another store. The past is kept: their age there still counts.

    \b
    seedbox move P4K7QMX2 P9AB3CD4 --to jar --sealed --moisture 6
    """
    from seedbox.tin.packets import move

    with session.tin() as tin:
        store = store_among(tin.stores(), to)
        if moisture is not None and not (sealed or store.sealed):
            raise UsageError("--moisture is for sealed seed: add --sealed, or leave it out.")
        packets = list({packet.id: packet for packet in map(tin.packet, codes)}.values())
        moved = move(
            tin, packets, store, today=session.today, on=on, sealed=sealed, moisture=moisture
        )
    facts = {"store": store.name, "codes": [packet.code for packet in packets], "moved": moved}
    if moved:
        changed(f"Moved {count(moved, 'packet')} to {store.name}.", as_json=as_json, **facts)
    elif as_json:
        say_json({"done": "Nothing was moved.", **facts})
    else:
        say(f"Nothing to move: {store.name} is where they lie already.")
