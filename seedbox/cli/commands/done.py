"""`done`: a job of a sowing is done, and what really happened moves the later ones."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from seedbox.cli import completing
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.garden_lookup import place_name
from seedbox.cli.params import DAY, WORDS, Number, Whole
from seedbox.cli.session import Session
from seedbox.cli.sowing_commands import job_words, named, refuse_test, say_done
from seedbox.cli.words import count, percent
from seedbox.tin.garden_records import EventKind

if TYPE_CHECKING:
    from seedbox.season.forecast import Forecast
    from seedbox.season.sowing.done import Done
    from seedbox.tin.file import Tin


@seedbox_command("done")
@click.argument(
    "job",
    nargs=-1,
    required=True,
    metavar="JOB",
    callback=job_words,
    shell_complete=completing.jobs,
)
@click.option("--count", "number", type=Whole("number", 0),
              help="How many came up; for other jobs, plants there are now.")  # fmt: skip
@click.option("--on", type=DAY, help="The day it was done, if not today.")
@click.option("--place", type=WORDS, shell_complete=completing.places,
              help="Where the plants stand from then on.")  # fmt: skip
@click.option("--pot-depth", "pot_depth_cm", type=Number("cm", 0.5, 200),
              help="How deep the new pots are, cm.")  # fmt: skip
@click.option("--note", type=WORDS, default="", help="Anything worth knowing.")
@json_option
@click.pass_obj
def command(session: Session, /, job: str, number: int | None, as_json: bool, **given: Any) -> None:
    """Say that a JOB is done: a sowing's code and a word, as `seedbox today` shows it.

    What really happened moves the later jobs. What came up teaches the packet and the place.

    \b
    seedbox done S4K7QMX2-count --count 31
    seedbox done S4K7QMX2-plant-out --place "bean row" --on yesterday
    """
    from seedbox.season.sowing.done import done as write_down

    refuse_test(job, "done")
    with session.tin() as tin:
        known = _forecast(tin, session, job) if number is not None else None
        found = write_down(
            tin,
            job,
            today=session.today,
            on=given["on"],
            count=number,
            place=place_name(tin, given["place"]) if given["place"] else "",
            pot_depth_cm=given["pot_depth_cm"],
            note=given["note"],
        )
        say_done(tin, found, _sentence(tin, session, found, known), session, as_json)


def _forecast(tin: Tin, session: Session, job: str) -> Forecast | None:
    """What was known of the packet before."""
    from seedbox.season.listing import Listing
    from seedbox.season.sowing.job_names import parse_job

    sowing = tin.sowing(parse_job(job)[0])
    packet = next(one for one in tin.packets() if one.id == sowing.packet_id)
    listing = Listing(tin, session.today)
    return listing.forecast(listing.line(packet.code)).forecast


def _sentence(tin: Tin, session: Session, done: Done, known: Forecast | None) -> str:
    event, sowing = done.event, done.sowing
    if event.kind is EventKind.EMERGED:
        told = f"{event.count} of {count(sowing.seeds, 'seed')} came up"
        return f"{named(tin, done)}: {told}.{_learnt(tin, session, done, known)}"
    plants = f", {count(event.count, 'plant')}" if event.count is not None else ""
    return f"{named(tin, done)}: {event.kind.value}{plants}."


def _learnt(tin: Tin, session: Session, done: Done, known: Forecast | None) -> str:
    """What the count says of the packet."""
    now = _forecast(tin, session, f"{done.sowing.code}-count")
    if known is None or now is None or known.mean is None or now.mean is None:
        return ""
    return f" The packet: {percent(known.mean)} germination before, {percent(now.mean)} now."
