"""`test remove`: a test that was entered by mistake."""

from __future__ import annotations

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.germination_options import test_argument
from seedbox.cli.output import changed
from seedbox.cli.session import Session


@seedbox_command("remove", short_help="Strike out a test that was entered by mistake.")
@test_argument
@json_option
@click.pass_obj
def command(session: Session, test: str, as_json: bool) -> None:
    """Strike out the test TEST with its counts. The seed that it used stays taken."""
    from seedbox.tin.codes import parse, shown
    from seedbox.tin.tests import remove_test

    with session.tin() as tin:
        remove_test(tin, test)
    code = parse(test)
    changed(f"Removed the test {shown(code)}.", as_json=as_json, test=code)
