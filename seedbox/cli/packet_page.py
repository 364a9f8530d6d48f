"""The page of a packet in plain lines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from seedbox.cli.forecast_words import forecast_lines
from seedbox.cli.tables import Column, fields, one_line, room, table, wrapped
from seedbox.cli.words import amount, climate, count, day, movement, number, percent
from seedbox.season.cautions import packet_cautions
from seedbox.season.listing import Listing, PacketLine
from seedbox.tin.codes import shown
from seedbox.tin.records import (
    GerminationTest,
    Kind,
    Movement,
    Packet,
    StoragePeriod,
    TrayCount,
    Treatment,
)

_TESTS = (
    Column("on"), Column("seeds", right=True), Column("germinated", right=True),
    Column("hard", right=True), Column("share", right=True), Column("test"), Column("by"),
    Column("note"),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class PacketFacts:
    """A packet, its line with the forecast, and what the tin tells of it besides."""

    line: PacketLine
    journal: Sequence[Movement]
    parent: str
    listing: Listing
    running: Sequence[GerminationTest] = ()

    @property
    def packet(self) -> Packet:
        return self.line.packet


def page(facts: PacketFacts) -> list[str]:
    """Lines of the page: cautions stand before everything that can be done with the seed."""
    line = facts.line
    parts = (
        ("", fields(_about(facts))),
        ("Cautions", _bullets(packet_cautions(line.packet, line.crop))),
        ("Forecast", _forecast(facts)),
        ("It rests on", _bullets(line.forecast.rests_on if line.forecast else ())),
        ("Where it lay", [_period(period, facts.listing) for period in line.dossier.storage]),
        ("Tests", _tests(facts)),
        ("On test", _on_test(facts.running)),
        ("Trays", _trays(line.dossier.trays)),
        ("Journal", [_entry(entry, facts.packet) for entry in facts.journal]),
    )
    lines = [title(line)]
    for heading, body in parts:
        if body:
            lines += ["", *([heading] if heading else []), *body]
    return lines


def title(line: PacketLine) -> str:
    """Code, crop and variety."""
    return f"{line.code}  {', '.join(filter(None, (line.crop, line.packet.variety)))}"


def _about(facts: PacketFacts) -> list[tuple[str, str]]:
    packet, line = facts.packet, facts.line
    book = facts.listing.book
    names = (book.botanical_name(packet.crop_id), book.family(packet.crop_id))
    return [
        ("botanical name", ", ".join(filter(None, names))),
        ("kind", packet.kind.value if packet.kind is Kind.STOCK else ""),
        ("year", _years(packet) or "not known"),
        ("left", amount(line.dossier.left, packet.unit)),
        ("store", line.store or "not known"),
        ("origin", _origin(packet)),
        ("treatment", "" if packet.treatment is Treatment.NONE else packet.treatment.value),
        ("printed germination", _printed(packet)),
        ("received", day(packet.received_on) if packet.received_on else ""),
        ("grown from", facts.parent),
        ("trade number", packet.ean),
        ("tags", ", ".join(packet.tags)),
        ("note", packet.note),
    ]  # fmt: skip


def _origin(packet: Packet) -> str:
    source = f"from {packet.source}" if packet.source else ""
    return " ".join(filter(None, (packet.origin, source)))


def _years(packet: Packet) -> str:
    known = (
        f"harvested {packet.harvest_year}" if packet.harvest_year else "",
        f"packed {packet.packed_year}" if packet.packed_year else "",
        f"bought {packet.bought_year}" if packet.bought_year else "",
        f"sow by {day(packet.sow_by)}" if packet.sow_by else "",
    )
    return ", ".join(filter(None, known))


def _printed(packet: Packet) -> str:
    if packet.printed_germination is None:
        return ""
    tested = f", tested {day(packet.printed_on)}" if packet.printed_on else ""
    return f"{percent(packet.printed_germination)}{tested}"


def _forecast(facts: PacketFacts) -> list[str]:
    forecast = facts.line.forecast
    if forecast is None:
        return []
    lines = forecast_lines(forecast, facts.listing.settings, facts.listing.today)
    return [part for line in lines for part in wrapped(line, "  ", "  ")]


def _bullets(sentences: Sequence[str]) -> list[str]:
    return [line for sentence in sentences for line in wrapped(sentence, "  - ", "    ")]


def _period(period: StoragePeriod, listing: Listing) -> str:
    store = listing.stores[period.store_id]
    dry = f" at {number(period.moisture)} % moisture" if period.moisture is not None else ""
    own = f", sealed{dry}" if period.sealed and not store.sealed else ""
    return f"  from {period.from_date.isoformat()}  {store.name}: {climate(store)}{own}"


def _tests(facts: PacketFacts) -> list[str]:
    rows = [
        (
            test.on.isoformat(),
            str(test.seeds),
            str(test.germinated),
            str(test.hard) if test.hard else "",
            percent(test.germinated / test.seeds),
            shown(test.code),
            test.reported_by,
            test.note,
        )
        for test in facts.line.dossier.tests
    ]
    return [f"  {line}" for line in table(_TESTS, rows, _inner())] if rows else []


def _on_test(running: Sequence[GerminationTest]) -> list[str]:
    return [
        f"  {count(test.seeds, 'seed')} since {day(test.started_on or test.on)}: "
        f"seedbox test show {test.code}"
        for test in running
    ]


def _trays(trays: Sequence[TrayCount]) -> list[str]:
    return [
        f"  {tray.on.isoformat()}  {tray.emerged} of {tray.sown} came up"
        + (f", {one_line(tray.place)}" if tray.place else "")
        for tray in trays
    ]


def _inner() -> int | None:
    width = room()
    return None if width is None else width - 2


def _entry(entry: Movement, packet: Packet) -> str:
    told = movement(
        entry.kind, amount(entry.amount, packet.unit) if entry.amount is not None else ""
    )
    if entry.amount is None:
        told = f"{entry.kind.value}, not counted"
    note = f"  ({entry.note})" if entry.note else ""
    return f"  {entry.on.isoformat()}  {told}{note}"
