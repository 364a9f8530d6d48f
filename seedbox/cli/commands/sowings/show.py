"""`sowings show`: one sowing with all that happened to it and all that is to be done."""

from __future__ import annotations

import click

from seedbox.cli import completing
from seedbox.cli.codes import code_argument
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import say, say_json
from seedbox.cli.session import Session
from seedbox.cli.sowing_page import as_jobs, facts, page
from seedbox.errors import NotFoundError
from seedbox.tin.codes import shown
from seedbox.tin.file import Tin


@seedbox_command("show", short_help="Show one sowing: its events and its jobs.")
@code_argument(completing.sowings)
@json_option
@click.pass_obj
def command(session: Session, code: str, as_json: bool) -> None:
    """Show the sowing CODE: how it was sown, what became of it, what is next."""
    with session.tin() as tin:
        show_sowing(session, tin, code, as_json)


def show_sowing(session: Session, tin: Tin, code: str, as_json: bool) -> None:
    """One sowing, in lines or as JSON."""
    from seedbox.season.sowing.desk import Desk
    from seedbox.season.sowing.sowing_jobs import jobs_of_one

    wanted, desk = tin.sowing(code).code, Desk(tin, session.today)
    growing = next((one for one in desk.sowings if one.sowing.code == wanted), None)
    if growing is None:
        raise NotFoundError(f"There is no sowing {shown(wanted)} in the tin.")
    jobs = as_jobs(jobs_of_one(desk, growing), session.today)
    places = {place.id: place.name for place in desk.garden.places}
    say_json(facts(growing, jobs, places)) if as_json else say(*page(growing, jobs, places))
