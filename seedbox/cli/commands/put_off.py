"""`put-off`: a job of a sowing waits until another day."""

from __future__ import annotations

from datetime import date

import click

from seedbox.cli import completing
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.params import DAY, WORDS
from seedbox.cli.session import Session
from seedbox.cli.sowing_commands import job_words, named, refuse_test, say_done
from seedbox.cli.words import day


@seedbox_command("put-off")
@click.argument(
    "job",
    nargs=-1,
    required=True,
    metavar="JOB",
    callback=job_words,
    shell_complete=completing.jobs,
)
@click.option("--until", type=DAY, help="The day on which it comes up again; else a week later.")
@click.option("--note", type=WORDS, default="", help="Why it waits.")
@json_option
@click.pass_obj
def command(session: Session, /, job: str, until: date | None, note: str, as_json: bool) -> None:
    """Put a JOB off to another day. What it costs to wait stays with it.

    \b
    seedbox put-off S4K7QMX2-plant-out --until "20 May 2027"
    """
    from seedbox.season.sowing.done import put_off

    refuse_test(job, "put off")
    with session.tin() as tin:
        done = put_off(tin, job, today=session.today, until=until, note=note)
        later = done.event.until
        assert later is not None
        sentence = f"{named(tin, done)}: {done.event.job} put off to {day(later)}."
        say_done(tin, done, sentence, session, as_json)
