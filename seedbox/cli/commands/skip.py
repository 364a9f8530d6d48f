"""`skip`: a job of a sowing is left out for good."""

from __future__ import annotations

import click

from seedbox.cli import completing
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.params import WORDS
from seedbox.cli.session import Session
from seedbox.cli.sowing_commands import job_words, named, refuse_test, say_done


@seedbox_command("skip")
@click.argument(
    "job",
    nargs=-1,
    required=True,
    metavar="JOB",
    callback=job_words,
    shell_complete=completing.jobs,
)
@click.option("--note", type=WORDS, default="", help="Why it is left out.")
@json_option
@click.pass_obj
def command(session: Session, /, job: str, note: str, as_json: bool) -> None:
    """Leave a JOB out for good; the later ones of the sowing stay.

    \b
    seedbox skip S4K7QMX2-thin
    """
    from seedbox.season.sowing.done import skip

    refuse_test(job, "skipped")
    with session.tin() as tin:
        done = skip(tin, job, today=session.today, note=note)
        say_done(tin, done, f"{named(tin, done)}: {done.event.job} left out.", session, as_json)
