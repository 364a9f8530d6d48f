"""`test record`: a test that was made without Seedbox, written down when it is finished."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

import click

from seedbox.cli import completing
from seedbox.cli.codes import code_argument
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import changed
from seedbox.cli.params import DAY, WORDS, Number, Whole
from seedbox.cli.session import Session
from seedbox.cli.words import count, percent
from seedbox.errors import UsageError
from seedbox.tin.records import Unit

if TYPE_CHECKING:
    from seedbox.tin.file import Tin
    from seedbox.tin.records import GerminationTest, Packet

_NUMBER = Whole("number", 0)


@seedbox_command("record", short_help="Write down a test that was made without Seedbox.")
@code_argument(completing.codes)
@click.option("--seeds", type=Whole("number", 1), required=True, help="How many were laid.")
@click.option("--germinated", type=_NUMBER, required=True, help="How many came up normal.")
@click.option("--hard", type=_NUMBER, default=0, help="How many stayed hard.")
@click.option("--abnormal", type=_NUMBER, help="How many seedlings would make no plant.")
@click.option("--fresh", type=_NUMBER, help="How many were still firm and asleep.")
@click.option("--dead", type=_NUMBER, help="How many were soft, mouldy or empty.")
@click.option("--on", type=DAY, help="The day of the count, if not today.")
@click.option("--note", type=WORDS, default="", help="How it was done.")
@click.option("--by", type=WORDS, default="", help="Whose test it was, if not your own.")
@click.option("--keep", is_flag=True, help="Do not take the tested seed from the packet.")
@click.option("--grams", type=Number("grams", 0), help="What they weighed, for packets in grams.")
@json_option
@click.pass_obj
def command(session: Session, /, code: str, as_json: bool, **given: Any) -> None:
    """Write down a finished test of the packet CODE. Its forecast rests on it from now on.

    The seed that was laid is taken from the packet, unless --keep says that this was done. A test
    --by somebody else counts with less trust, and takes no seed from your packet.
    """
    from seedbox.cli.germination_now import germination_now
    from seedbox.tin.codes import shown
    from seedbox.tin.tests import record_test

    day: date = given["on"] or session.today
    with session.tin() as tin:
        packet = tin.packet(code)
        earlier = came_later(tin, packet, day)
        takes = not (given["keep"] or earlier or given["by"])
        _refuse_unweighed(packet, takes, given["grams"])
        test = record_test(
            tin,
            packet,
            day,
            given["seeds"],
            given["germinated"],
            given["hard"],
            given["note"],
            today=session.today,
            take_from_packet=takes,
            grams_taken=given["grams"],
            abnormal=given["abnormal"],
            fresh=given["fresh"],
            dead=given["dead"],
            reported_by=given["by"],
        )
        forecast, share = germination_now(tin, session.today, packet.code)
    changed(
        _recorded(shown(packet.code), test, share, earlier),
        as_json=as_json,
        code=packet.code,
        test=test.code,
        germination=forecast,
    )


def _refuse_unweighed(packet: Packet, takes: bool, grams: float | None) -> None:
    if packet.unit is Unit.GRAMS and grams is None and takes:
        raise UsageError(
            "This packet is kept in grams, so the seeds have no known weight.",
            hint="Say what they weighed with --grams, or use --keep.",
        )


def came_later(tin: Tin, packet: Packet, day: date) -> bool:
    """Whether the test is older than the tin's count of the packet: its seed was never in it."""
    journal = tin.movements(packet.id)
    return bool(journal) and day < journal[0].on


def _recorded(code: str, test: GerminationTest, share: str, earlier: bool) -> str:
    came_up = f"{test.germinated} of {test.seeds} germinated"
    told = [f"{code}: {came_up}, {percent(test.germinated / test.seeds)}."]
    if test.hard:
        told.append(f"{count(test.hard, 'hard seed')} apart, alive.")
    if share:
        told.append(f"Germination now about {share}.")
    if test.reported_by:
        told.append(f"Reported by {test.reported_by}: it counts with less trust than your own.")
    elif earlier:
        told.append("No seed was taken off: the packet came into the tin after that day.")
    return " ".join(told)
