"""`resow`: sow again what failed, came up too thin, or is due for its next sowing."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from seedbox.cli import completing
from seedbox.cli.aims import aim_options
from seedbox.cli.codes import code_argument
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.params import DAY, WORDS, Whole
from seedbox.cli.session import Session
from seedbox.cli.sowing_report import check_labels


@seedbox_command("resow")
@code_argument(completing.sowings)
@click.option("--plants", type=Whole("number", 1, 100_000), help="Plants; else those missing.")
@aim_options
@click.option(
    "--packet",
    type=WORDS,
    shell_complete=completing.codes,
    help="Another packet, where the first is too old or empty.",
)
@click.option("--place", type=WORDS, shell_complete=completing.places, help="Another place.")
@click.option("--short", "take_short", is_flag=True, help="Sow even if too little is left.")
@click.option("--on", type=DAY, help="The day it was sown, if not today.")
@click.option("--note", type=WORDS, default="", help="Anything worth knowing.")
@click.option("--labels", type=click.Path(path_type=Path), help="Also write its label, as a PDF.")
@click.option("--copies", type=Whole("number", 1, 1000), default=1, help="Labels for the sowing.")
@click.option("--dry-run", is_flag=True, help="Only show how it would be sown; take no seed.")
@json_option
@click.pass_obj
def command(session: Session, /, code: str, as_json: bool, **given: Any) -> None:
    """Sow again what the sowing CODE was: for the plants that are missing, or as many as then.

    It is sown from the same packet in the same place, unless you say otherwise, and its job to
    sow again is done. Where nothing calls for it, it is said that this is one sowing more.

    \b
    seedbox resow S4K7QMX2 --packet P9AB3CD4
    """
    from seedbox.cli.commands.sow import sow_and_tell
    from seedbox.season.sowing.again import sowing_again
    from seedbox.season.sowing.desk import Desk
    from seedbox.season.sowing.sow import Wish
    from seedbox.season.sowing.sowing_jobs import growing_of

    check_labels(given["labels"])
    with session.tin() as tin:
        desk = Desk(tin, session.today)
        before = growing_of(desk, tin.sowing(code).code)
        again = sowing_again(desk, before)
        wish = Wish(plants=given["plants"] or again.plants, note=given["note"])
        packet = tin.packet(given["packet"]) if given["packet"] else before.packet
        place = given["place"] or before.sown_in.name
        told = {**given, "place": place, "mind": again.mind}
        sow_and_tell(session, tin, packet.code, wish, given=told, as_json=as_json)
