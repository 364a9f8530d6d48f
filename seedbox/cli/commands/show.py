"""`show`: all that the tin knows of one packet."""

from __future__ import annotations

from typing import Any

import click

from seedbox.cli import completing
from seedbox.cli.codes import code_argument
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import say, say_json
from seedbox.cli.packet_page import PacketFacts, page
from seedbox.cli.session import Session
from seedbox.season.cautions import packet_cautions
from seedbox.season.listing import Listing
from seedbox.tin.codes import parse
from seedbox.tin.file import Tin
from seedbox.tin.records import Packet, TestState


@seedbox_command("show")
@code_argument(completing.packets_and_sowings)
@json_option
@click.pass_obj
def command(session: Session, code: str, as_json: bool) -> None:
    """Show the packet CODE: cautions, forecast with its reason, storage, tests and journal.

    A code may be written in any way: P4K7QMX2, p4k7-qmx2, P4K7 QMX2. The code of a germination
    test shows the packet that was tested, that of a sowing shows the sowing.
    """
    with session.tin() as tin:
        if parse(code)[0] == "S":
            from seedbox.cli.commands.sowings.show import show_sowing

            show_sowing(session, tin, code, as_json)
            return
        packet = _packet(tin, code)
        listing = Listing(tin, session.today)
        line = listing.forecast(listing.line(packet.code))
        parents = {each.packet.id: each for each in listing.lines}
        parent = parents.get(packet.parent_id) if packet.parent_id else None
        running = tin.tests(packet.id, state=TestState.RUNNING)
        journal, grown_from = tin.movements(packet.id), parent.code if parent else ""
        facts = PacketFacts(line, journal, grown_from, listing, running)
    if as_json:
        say_json(_json(facts))
    else:
        say(*page(facts))


def _packet(tin: Tin, text: str) -> Packet:
    """The packet that a code names, or whose test it names."""
    code = parse(text)
    if code[0] != "T":
        return tin.packet(code)
    tested = tin.test(code).packet_id
    return next(packet for packet in tin.packets() if packet.id == tested)


def _json(facts: PacketFacts) -> dict[str, Any]:
    from seedbox.cli.commands.list_packets import facts as listed

    packet, line, stores = facts.packet, facts.line, facts.listing.stores
    forecast = line.forecast
    return {
        **listed(line),
        "printed_germination": packet.printed_germination,
        "printed_on": packet.printed_on,
        "received_on": packet.received_on,
        "parent": facts.parent.replace(" ", "") or None,
        "ean": packet.ean or None,
        "note": packet.note,
        "forecast": forecast,
        "cautions": packet_cautions(packet, line.crop),
        "storage": [
            {
                "from": period.from_date,
                "store": stores[period.store_id].name,
                "sealed": period.sealed,
                "moisture_percent": period.moisture,
            }
            for period in line.dossier.storage
        ],
        "tests": [
            {
                "code": test.code,
                "on": test.on,
                "seeds": test.seeds,
                "germinated": test.germinated,
                "hard": test.hard,
                "note": test.note,
                "reported_by": test.reported_by or None,
            }
            for test in line.dossier.tests
        ],
        "running_tests": [test.code for test in facts.running],
        "trays": [
            {"on": tray.on, "place": tray.place, "sown": tray.sown, "emerged": tray.emerged}
            for tray in line.dossier.trays
        ],
        "journal": [
            {"on": entry.on, "kind": entry.kind, "amount": entry.amount, "note": entry.note}
            for entry in facts.journal
        ],
    }
