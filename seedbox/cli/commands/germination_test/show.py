"""`test show`: one test with its counts, as it stands or as it ended."""

from __future__ import annotations

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.germination_facts import facts, result_facts
from seedbox.cli.germination_options import test_argument
from seedbox.cli.germination_page import page
from seedbox.cli.output import say, say_json
from seedbox.cli.session import Session
from seedbox.tin.records import TestState


@seedbox_command("show", short_help="Show one test: counts, germination, decision.")
@test_argument
@json_option
@click.pass_obj
def command(session: Session, test: str, as_json: bool) -> None:
    """Show the test TEST: its counts, germination with its interval, what may still come, and
    whether it is decided; of a finished one also the forecast before and after.
    """
    from seedbox.season.testing.account import account
    from seedbox.season.testing.results import result

    with session.tin() as tin:
        found = account(tin, test, session.today)
        ended = found.test.state is TestState.FINISHED
        told = result(tin, test, session.today) if ended else None
    if as_json:
        say_json({**facts(found), **(result_facts(told) if told else {})})
    else:
        say(*page(found, told))
