"""`resow`: sow again what failed, came up too thin, or is due for its next sowing."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from seedbox.cli import completing
from seedbox.cli.aims import aim_options
from seedbox.cli.codes import code_argument
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.params import DAY, WORDS, Whole
from seedbox.cli.session import Session
from seedbox.cli.sowing_report import check_labels

if TYPE_CHECKING:
    from seedbox.season.sowing.desk import Desk
    from seedbox.season.sowing.in_progress import Growing


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
    sow again is done.

    \b
    seedbox resow S4K7QMX2 --packet P9AB3CD4
    """
    from seedbox.cli.commands.sow import sow_and_tell
    from seedbox.season.sowing.desk import Desk
    from seedbox.season.sowing.sow import Wish
    from seedbox.season.sowing.sowing_jobs import growing_of

    check_labels(given["labels"])
    with session.tin() as tin:
        desk = Desk(tin, session.today)
        before = growing_of(desk, tin.sowing(code).code)
        plants = given["plants"] or _plants(desk, before)
        wish = Wish(plants=plants, note=given["note"])
        packet = tin.packet(given["packet"]) if given["packet"] else before.packet
        place = given["place"] or before.sown_in.name
        sow_and_tell(
            session, tin, packet.code, wish, given={**given, "place": place}, as_json=as_json
        )


def _plants(desk: Desk, before: Growing) -> int:
    """Those that are missing where too few came up; for the next sowing as many as before."""
    from seedbox.season.sowing.job_dates import JobKind
    from seedbox.season.sowing.sowing_jobs import jobs_of_one

    short = any(job.when.kind is JobKind.RESOW for job in jobs_of_one(desk, before))
    return max(before.sown_for - before.plants, 1) if short else before.sown_for
