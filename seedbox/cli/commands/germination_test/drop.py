"""`test drop`: a test that came to nothing; it stays on record and tells nothing."""

from __future__ import annotations

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.germination_options import test_argument
from seedbox.cli.output import changed
from seedbox.cli.session import Session
from seedbox.cli.words import amount


@seedbox_command("drop", short_help="Give a test up: it no longer tells of its packet.")
@test_argument
@click.option("--return-seeds", is_flag=True, help="Put the seeds back: they were never wetted.")
@json_option
@click.pass_obj
def command(session: Session, test: str, return_seeds: bool, as_json: bool) -> None:
    """Give the test TEST up: it dried out, went mouldy or was mixed up.

    It stays on record and tells nothing of its packet. A test entered by mistake is struck out
    with `seedbox test remove`.
    """
    from seedbox.tin.codes import shown
    from seedbox.tin.testing import drop_test

    with session.tin() as tin:
        dropped = drop_test(tin, test, today=session.today, return_seeds=return_seeds)
        packet = next(each for each in tin.packets() if each.id == dropped.packet_id)
        left = tin.dossier(packet.code).left
    told = [f"Dropped the test {shown(dropped.code)}; the packet's forecast leaves it out."]
    if return_seeds:
        told.append(f"The seeds are back: {amount(left, packet.unit)} in {shown(packet.code)}.")
    changed(
        " ".join(told),
        as_json=as_json,
        code=dropped.code,
        packet=packet.code,
        left=left,
        unit=packet.unit,
    )
