"""`test finish`: the result of a test, and what it does to the forecast and the advice."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.germination_options import test_argument
from seedbox.cli.output import changed, say
from seedbox.cli.params import DAY
from seedbox.cli.session import Session

if TYPE_CHECKING:
    from seedbox.season.testing.results import TestResult


@seedbox_command("finish", short_help="Finish a test and say what it means.")
@test_argument
@click.option("--on", type=DAY, help="The day on which it ended, if not today.")
@json_option
@click.pass_obj
def command(session: Session, test: str, on: date | None, as_json: bool) -> None:
    """Finish the running test TEST: its result, and the forecast before and after.

    From the last count day on, seed that nobody classed counts as dead. A test that is stopped
    earlier leaves it open. `seedbox undo` lets it run on; `seedbox test reopen` does so later.
    """
    from seedbox.season.testing.results import finish

    with session.tin() as tin:
        result = finish(tin, test, today=session.today, on=on)
        _report(session, tin, result, as_json)


def _report(session: Session, tin: Any, result: TestResult, as_json: bool) -> None:
    from seedbox.cli.germination_facts import facts, result_facts
    from seedbox.cli.germination_page import result_lines
    from seedbox.season.testing.account import account
    from seedbox.tin.codes import shown

    found = account(tin, result.test.code, session.today)
    sentence = f"Test {shown(result.test.code)} of {found.name} is finished."
    if as_json:
        changed(sentence, as_json=True, **facts(found), **result_facts(result))
    else:
        say(sentence, "", *result_lines(result), "", "Undo with: seedbox undo")
