"""`test tray`: emergence counted in a tray, as weaker evidence of a packet."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

import click

from seedbox.cli import completing
from seedbox.cli.codes import whole_codes
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import changed, say, say_json
from seedbox.cli.params import DAY, WORDS, Whole
from seedbox.cli.session import Session
from seedbox.cli.tables import Column, room, table
from seedbox.cli.words import percent
from seedbox.errors import UsageError

if TYPE_CHECKING:
    from seedbox.tin.file import Tin
    from seedbox.tin.records import Packet, TrayCount

_COLUMNS = (
    Column("number", right=True), Column("packet"), Column("crop", least=8),
    Column("variety", least=8), Column("on"), Column("place", least=8),
    Column("came up", right=True), Column("of", right=True), Column("share", right=True),
    Column("note", least=8),
)  # fmt: skip


@seedbox_command("tray", short_help="Write down how much of a tray came up, or list trays.")
@click.argument("code", nargs=-1, metavar="[CODE]", shell_complete=completing.codes)
@click.option("--sown", type=Whole("number", 1), help="How many seeds were sown.")
@click.option("--emerged", type=Whole("number", 0), help="How many seedlings stand there.")
@click.option("--place", type=WORDS, default="", help="Where it stood, such as windowsill.")
@click.option("--on", type=DAY, help="The day of the count, if not today.")
@click.option("--note", type=WORDS, default="", help="Anything worth knowing.")
@click.option("--take", is_flag=True, help="Also take the seed sown from the packet.")
@click.option("--remove", type=Whole("number", 1), help="Strike out the tray with this number.")
@json_option
@click.pass_obj
def command(session: Session, /, code: tuple[str, ...], as_json: bool, **given: Any) -> None:
    """Write down that of --sown seeds of the packet CODE in a tray --emerged came up.

    A tray tells less than a test on paper: seed also fails for want of warmth or water. Seedbox
    learns from all trays of one place how much that is. Without numbers the trays are listed.

    \b
    seedbox test tray P4K7QMX2 --sown 24 --emerged 15 --place windowsill
    """
    codes = whole_codes(code)
    numbers = given["sown"] is not None or given["emerged"] is not None
    with session.tin() as tin:
        if given["remove"] is not None:
            _refuse_more(codes, numbers)
            _remove(tin, given["remove"], as_json)
        elif numbers:
            _record(session, tin, _one(codes), given, as_json)
        else:
            packet = tin.packet(_one(codes)) if codes else None
            _list(tin, packet, as_json)


def _refuse_more(codes: list[str], numbers: bool) -> None:
    if codes or numbers:
        raise UsageError("--remove takes the number of a tray and nothing else.")


def _one(codes: list[str]) -> str:
    if len(codes) != 1:
        raise UsageError(f"One packet is wanted, not {len(codes)}.")
    return codes[0]


def _record(session: Session, tin: Tin, code: str, given: dict[str, Any], as_json: bool) -> None:
    from seedbox.cli.germination_now import germination_now
    from seedbox.tin.codes import shown
    from seedbox.tin.trays import record_tray

    if given["sown"] is None or given["emerged"] is None:
        raise UsageError("Give both --sown and --emerged.")
    packet = tin.packet(code)
    day: date = given["on"] or session.today
    label = f"Tray of {shown(packet.code)}: {given['emerged']} of {given['sown']} came up"
    with tin.change(label):
        if given["take"]:
            _take(tin, packet, given["sown"], day, session.today)
        tray = record_tray(
            tin,
            packet,
            day,
            place=given["place"],
            sown=given["sown"],
            emerged=given["emerged"],
            note=given["note"],
            today=session.today,
        )
    forecast, words = germination_now(tin, session.today, packet.code)
    share = percent(tray.emerged / tray.sown)
    told = [f"{shown(packet.code)}: {tray.emerged} of {tray.sown} came up, {share}."]
    if words:
        told.append(f"Germination now about {words}.")
    changed(" ".join(told), as_json=as_json, code=packet.code, number=tray.id, germination=forecast)


def _take(tin: Tin, packet: Packet, seeds: int, day: date, today: date) -> None:
    from seedbox.season.testing.starting import grams_for
    from seedbox.tin.quantity import take
    from seedbox.tin.records import MovementKind, Unit

    in_grams = packet.unit is Unit.GRAMS
    much = grams_for(tin, packet, seeds) if in_grams else float(seeds)
    take(tin, packet, much, MovementKind.SOWN, today=today, on=day, unit=packet.unit)


def _remove(tin: Tin, number: int, as_json: bool) -> None:
    from seedbox.tin.trays import remove_tray

    remove_tray(tin, number)
    changed(f"Struck out the tray number {number}.", as_json=as_json, number=number)


def _list(tin: Tin, one: Packet | None, as_json: bool) -> None:
    from seedbox.cli.lookup import crop_book

    packets = {packet.id: packet for packet in tin.packets()}
    trays = tin.tray_counts(one.id if one else None)
    if as_json:
        say_json([_facts(tray, packets[tray.packet_id]) for tray in trays])
    elif not trays:
        say("No tray is on record. Do it with: seedbox test tray CODE --sown 24 --emerged 15")
    else:
        book = crop_book(tin)
        names = {tray.packet_id: book.name(packets[tray.packet_id].crop_id) for tray in trays}
        rows = [_row(tray, packets[tray.packet_id], names[tray.packet_id]) for tray in trays]
        say(*table(_COLUMNS, rows, room()))


def _facts(tray: TrayCount, packet: Packet) -> dict[str, Any]:
    return {
        "number": tray.id,
        "packet": packet.code,
        "on": tray.on,
        "place": tray.place,
        "sown": tray.sown,
        "emerged": tray.emerged,
        "note": tray.note,
    }


def _row(tray: TrayCount, packet: Packet, crop: str) -> tuple[str, ...]:
    from seedbox.tin.codes import shown

    return (
        str(tray.id),
        shown(packet.code),
        crop,
        packet.variety,
        tray.on.isoformat(),
        tray.place,
        str(tray.emerged),
        str(tray.sown),
        percent(tray.emerged / tray.sown),
        tray.note,
    )
