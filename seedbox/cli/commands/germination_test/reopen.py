"""`test reopen`: a finished test runs again, so that a count can be put right."""

from __future__ import annotations

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.germination_options import test_argument
from seedbox.cli.output import changed
from seedbox.cli.session import Session


@seedbox_command("reopen", short_help="Let a finished test run again, to put a count right.")
@test_argument
@json_option
@click.pass_obj
def command(session: Session, test: str, as_json: bool) -> None:
    """Let the finished test TEST run again, so that a count can be added or put right."""
    from seedbox.tin.codes import shown
    from seedbox.tin.testing import reopen_test

    with session.tin() as tin:
        code = reopen_test(tin, test).code
    changed(
        f"The test {shown(code)} runs again. Finish it with: seedbox test finish {code}",
        as_json=as_json,
        code=code,
    )
