"""`test`: germination tests that were counted."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

import click

from seedbox.cli import completing
from seedbox.cli.codes import one_code
from seedbox.cli.command import group, json_option
from seedbox.cli.lookup import crop_book
from seedbox.cli.output import changed, say, say_json
from seedbox.cli.params import DAY, WORDS, Number, Whole
from seedbox.cli.session import Session
from seedbox.cli.tables import Column, room, table
from seedbox.cli.words import percent
from seedbox.errors import UsageError
from seedbox.tin.records import GerminationTest, Packet, Unit

if TYPE_CHECKING:
    from seedbox.season.crops import CropBook
    from seedbox.tin.file import Tin

_COLUMNS = (
    Column("test"),
    Column("packet"),
    Column("crop", least=8),
    Column("variety", least=8),
    Column("on"),
    Column("seeds", right=True),
    Column("germinated", right=True),
    Column("hard", right=True),
    Column("share", right=True),
)


@group("test")
def command() -> None:
    """Germination tests: what was laid on damp paper, and what came up."""


@command.command("record")
@click.argument(
    "code",
    nargs=-1,
    required=True,
    metavar="CODE",
    callback=one_code,
    shell_complete=completing.codes,
)
@click.option("--seeds", type=Whole("number", 1), required=True, help="How many were laid.")
@click.option("--germinated", type=Whole("number", 0), required=True, help="How many came up.")
@click.option("--hard", type=Whole("number", 0), default=0, help="How many stayed hard.")
@click.option("--on", type=DAY, help="The day of the count, if not today.")
@click.option("--note", type=WORDS, default="", help="How it was done.")
@click.option("--keep", is_flag=True, help="Do not take the tested seed from the packet.")
@click.option("--grams", type=Number("grams", 0), help="What they weighed, for packets in grams.")
@json_option
@click.pass_obj
def record(
    session: Session,
    *,
    code: str,
    seeds: int,
    germinated: int,
    hard: int,
    on: date | None,
    note: str,
    keep: bool,
    grams: float | None,
    as_json: bool,
) -> None:
    """Write down a finished test of the packet CODE. Its forecast rests on it from now on.

    The seed that was laid is taken from the packet, unless --keep says that this was done.
    """
    from seedbox.tin.codes import shown
    from seedbox.tin.tests import record_test

    day = on or session.today
    with session.tin() as tin:
        packet = tin.packet(code)
        earlier = _came_later(tin, packet, day)
        if packet.unit is Unit.GRAMS and grams is None and not (keep or earlier):
            raise UsageError(
                "This packet is kept in grams, so the seeds have no known weight.",
                hint="Say what they weighed with --grams, or use --keep.",
            )
        test = record_test(
            tin,
            packet,
            day,
            seeds,
            germinated,
            hard,
            note,
            today=session.today,
            take_from_packet=not (keep or earlier),
            grams_taken=grams,
        )
        forecast, share = _now(session, tin, packet.code)
    changed(
        _recorded(shown(packet.code), test, share, earlier),
        as_json=as_json,
        code=packet.code,
        test=test.code,
        germination=forecast,
    )


def _came_later(tin: Tin, packet: Packet, day: date) -> bool:
    """Whether the test is older than the tin's count of the packet: its seed was never in it."""
    journal = tin.movements(packet.id)
    return bool(journal) and day < journal[0].on


def _recorded(code: str, test: GerminationTest, share: str, earlier: bool) -> str:
    came_up = f"{test.germinated} of {test.seeds} germinated"
    told = [f"{code}: {came_up}, {percent(test.germinated / test.seeds)}."]
    if share:
        told.append(f"Germination now about {share}.")
    if earlier:
        told.append("No seed was taken off: the packet came into the tin after that day.")
    return " ".join(told)


def _now(session: Session, tin: Tin, code: str) -> tuple[dict[str, float | None] | None, str]:
    """The germination that is expected after the test, for programs and in words."""
    from seedbox.cli.words import germination
    from seedbox.season.listing import Listing

    listing = Listing(tin, session.today)
    forecast = listing.forecast(listing.line(code)).forecast
    if forecast is None or forecast.mean is None:
        return None, ""
    mean, low, high = forecast.mean, forecast.low, forecast.high
    return {"mean": mean, "low": low, "high": high}, germination(mean, low, high)


@command.command("remove")
@click.argument("test", nargs=-1, required=True, metavar="TEST", callback=one_code)
@json_option
@click.pass_obj
def remove(session: Session, test: str, as_json: bool) -> None:
    """Strike out the test with the code TEST. The seed that it used stays taken."""
    from seedbox.tin.codes import parse, shown
    from seedbox.tin.tests import remove_test

    with session.tin() as tin:
        remove_test(tin, test)
    code = parse(test)
    changed(f"Removed the test {shown(code)}.", as_json=as_json, test=code)


@command.command("list", short_help="List the tests of all packets, or of one.")
@click.argument("code", nargs=-1, metavar="[CODE]", shell_complete=completing.codes)
@json_option
@click.pass_obj
def list_tests(session: Session, code: tuple[str, ...], as_json: bool) -> None:
    """List the tests, all of them or those of the packet CODE, oldest first."""
    with session.tin() as tin:
        book = crop_book(tin)
        packets = {packet.id: packet for packet in tin.packets()}
        one = tin.packet(" ".join(code)).id if code else None
        tests = sorted(tin.tests(one), key=lambda test: (test.on, test.id))
    if as_json:
        say_json([_facts(test, packets[test.packet_id]) for test in tests])
    elif not tests:
        say("No test was written down yet. Do it with: seedbox test record CODE …")
    else:
        rows = [_row(test, packets[test.packet_id], book) for test in tests]
        say(*table(_COLUMNS, rows, room()))


def _facts(test: GerminationTest, packet: Packet) -> dict[str, Any]:
    return {
        "code": test.code,
        "packet": packet.code,
        "on": test.on,
        "seeds": test.seeds,
        "germinated": test.germinated,
        "hard": test.hard,
        "note": test.note,
    }


def _row(test: GerminationTest, packet: Packet, book: CropBook) -> tuple[str, ...]:
    from seedbox.tin.codes import shown

    return (
        shown(test.code),
        shown(packet.code),
        book.name(packet.crop_id),
        packet.variety,
        test.on.isoformat(),
        str(test.seeds),
        str(test.germinated),
        str(test.hard) if test.hard else "",
        percent(test.germinated / test.seeds),
    )
