"""What the page of a packet says, as lines for a given width."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from seedbox.season.cautions import SHARING
from seedbox.season.far_dates import until
from seedbox.season.forecast import Forecast
from seedbox.season.listing import PacketLine
from seedbox.season.testing.due import DueCount
from seedbox.tin.codes import shown
from seedbox.tin.records import (
    GerminationTest,
    Kind,
    Movement,
    MovementKind,
    Packet,
    Store,
    Treatment,
)
from seedbox.tin.text import amount_text
from seedbox.tui import curve
from seedbox.tui.line_words import advice_words
from seedbox.tui.text_lines import Line, beside, heading, item, pair, paragraph
from seedbox.tui.tin_columns import TINTS, germination_text

WIDE = 112
GAP = 4
_COLOUR = {"good": "$success", "thick": "$thick", "warn": "$warning", "bad": "$error"}
_CURVE_STYLE = {
    "axis": "$quiet",
    "band": "$quiet",
    "mean": "bold $primary",
    "test": "bold $accent",
    "today": "$quiet",
    "standard": "$warning",
}


@dataclass(frozen=True, slots=True)
class PacketFacts:
    """All that the page shows of one packet."""

    line: PacketLine
    botanical_name: str
    cautions: tuple[str, ...]
    movements: Sequence[Movement]
    stores: dict[int, Store]
    points: Sequence[curve.Point]
    parent_code: str
    today: date
    running: tuple[DueCount, ...] = ()


def packet_lines(facts: PacketFacts, width: int) -> list[Line]:
    """One column, or two where there is room: facts on the left, the forecast on the right."""
    if width < WIDE:
        return [
            *_head(facts, width),
            *_cautions(facts, width),
            *_forecast(facts, width, height=9),
            *_record(facts, width),
            *_rests_on(facts, width),
        ]
    left_width = (width - GAP) // 2
    right_width = width - GAP - left_width
    left = [*_cautions(facts, left_width), *_record(facts, left_width)]
    right = [*_forecast(facts, right_width, height=12), *_rests_on(facts, right_width)]
    return [*_head(facts, width), *beside(left, right, left_width, GAP)]


def _head(facts: PacketFacts, width: int) -> list[Line]:
    line, packet = facts.line, facts.line.packet
    title = f"{line.crop} {packet.variety}".strip()
    about = [facts.botanical_name, _origin(packet), _years(packet), _treatment(packet)]
    lines = paragraph(title, width, "bold")
    lines += paragraph(" · ".join(part for part in about if part), width, "$quiet")
    lines.append([])
    word = line.advice or ("planting stock" if packet.kind is Kind.STOCK else "no advice")
    colour = _COLOUR.get(TINTS.get(line.advice, ""), "")
    lines += pair("Advice", word, width, f"bold {colour}".strip())
    lines += pair("", advice_words(line), width)
    if line.forecast is not None and line.forecast.mean is not None:
        words = f"{germination_text(line.forecast).strip()}, 90 % interval"
        lines += pair("Germination", words, width)
        lines += _dates(line.forecast, facts.today, width)
    for warning in line.forecast.warnings if line.forecast else ():
        lines += pair("Mind", warning, width, "$warning")
    return lines


def _dates(forecast: Forecast, today: date, width: int) -> list[Line]:
    lines: list[Line] = []
    if forecast.good_until:
        lines += pair("Good until", until(forecast.good_until, today), width)
    regrow = forecast.regrow_before
    if regrow and regrow > today:
        words = f"{until(regrow, today)}, if nobody else keeps the variety"
        lines += pair("Regrow before", words, width)
    elif regrow:
        words = "now, if nobody else keeps the variety: it has aged past 85 % of its first value"
        lines += pair("Regrow", words, width)
    return lines


def _origin(packet: Packet) -> str:
    source = f"from {packet.source}" if packet.source else ""
    return " ".join(part for part in (packet.origin or "", source) if part)


def _years(packet: Packet) -> str:
    kinds = (
        ("harvested", packet.harvest_year),
        ("packed", packet.packed_year),
        ("bought", packet.bought_year),
        ("sow by", packet.sow_by),
    )
    return ", ".join(f"{word} {value}" for word, value in kinds if value)


def _treatment(packet: Packet) -> str:
    return "" if packet.treatment is Treatment.NONE else f"{packet.treatment} seed"


def _cautions(facts: PacketFacts, width: int) -> list[Line]:
    if not facts.cautions:
        return []
    lines = heading("Cautions")
    for caution in facts.cautions:
        lines += item(caution, width, "" if caution == SHARING else "$error", mark="!")
    return lines


def _forecast(facts: PacketFacts, width: int, height: int) -> list[Line]:
    if len(facts.points) < 2:
        return []
    forecast = facts.line.forecast
    tests = [(test.on, _germinated(test)) for test in facts.line.dossier.tests]
    standard = forecast.standard if forecast else None
    picture = curve.Picture(facts.points, tests, facts.today, standard)
    drawn = curve.draw(picture, width, height)
    lines = heading("Expected germination")
    lines += [[(p.text, _CURVE_STYLE.get(p.role, "")) for p in row] for row in drawn]
    lines += paragraph(_legend(facts), width, "$quiet", indent=curve.LABEL_WIDTH)
    return lines


def _legend(facts: PacketFacts) -> str:
    parts = ["line: expected", "░ 90 % interval", "- - standard", "│ today"]
    if facts.line.dossier.tests:
        parts.insert(2, "o test")
    # Spaces within a part do not break, so that a sign stays with its word.
    return "\u00a0\u00a0 ".join(part.replace(" ", "\u00a0") for part in parts)


def _germinated(test: GerminationTest) -> float:
    return test.germinated / test.seeds


def _record(facts: PacketFacts, width: int) -> list[Line]:
    lines = [*_quantity(facts, width), *_storage(facts, width), *_tests(facts, width)]
    packet = facts.line.packet
    about = [
        ("Tags", ", ".join(packet.tags)),
        ("Bar code", packet.ean),
        ("Parent", shown(facts.parent_code) if facts.parent_code else ""),
        ("Printed", _printed(packet)),
        ("Note", packet.note),
    ]
    known = [(label, text) for label, text in about if text]
    if known:
        lines += heading("About it")
        for label, text in known:
            for number, part in enumerate(text.splitlines()):
                lines += pair(label if number == 0 else "", part, width)
    return lines


def _printed(packet: Packet) -> str:
    if packet.printed_germination is None:
        return ""
    when = f", tested {packet.printed_on}" if packet.printed_on else ""
    return f"{packet.printed_germination * 100:g} % on the packet{when}"


def _quantity(facts: PacketFacts, width: int) -> list[Line]:
    lines = heading(f"Left: {facts.line.left}")
    if not facts.movements:
        return [*lines, *paragraph("Nothing was ever written down. r counts it.", width, "$quiet")]
    for movement in facts.movements:
        amount = (
            "some"
            if movement.amount is None
            else amount_text(movement.amount, facts.line.packet.unit)
        )
        words = _MOVED[movement.kind].format(amount)
        note = f" ({movement.note})" if movement.note else ""
        lines += pair(str(movement.on), words + note, width)
    return lines


_MOVED = {
    MovementKind.RECEIVED: "{} came in",
    MovementKind.SOWN: "{} sown",
    MovementKind.TESTED: "{} taken for a test",
    MovementKind.GIVEN: "{} given away",
    MovementKind.LOST: "{} lost",
    MovementKind.RECOUNT: "counted: {}",
}


def _storage(facts: PacketFacts, width: int) -> list[Line]:
    lines = heading("Where it lay")
    if not facts.line.dossier.storage:
        words = "No store is known, so an ordinary room is assumed. m says where it lies."
        return [*lines, *paragraph(words, width, "$quiet")]
    for period in facts.line.dossier.storage:
        store = facts.stores.get(period.store_id)
        sealed = "sealed" if period.sealed else "open"
        moisture = f" at {period.moisture:g} % moisture" if period.moisture else ""
        name = f"{store.name} ({climate_words(store)})" if store else "a store no longer known"
        lines += pair(f"{period.from_date}", f"{name}, {sealed}{moisture}", width)
    return lines


def climate_words(store: Store) -> str:
    """Temperature and humidity of a store."""
    if store.coolest_c == store.warmest_c:
        warmth = f"{store.coolest_c:g} °C"
    else:
        warmth = f"{store.coolest_c:g} to {store.warmest_c:g} °C"
    if store.relative_humidity is None:
        return warmth
    return f"{warmth}, {store.relative_humidity * 100:g} % humidity"


def _tests(facts: PacketFacts, width: int) -> list[Line]:
    lines = heading("Germination tests")
    if not facts.line.dossier.tests and not facts.running:
        words = "None yet. N starts one, n writes down one that is finished."
        return [*lines, *paragraph(words, width, "$quiet")]
    for due in facts.running:
        lines += pair("running", _running_words(due, facts.today), width, "bold")
    for test in facts.line.dossier.tests:
        hard = f", {test.hard} hard" if test.hard else ""
        note = f" ({test.note})" if test.note else ""
        whose = f", by {test.reported_by}" if test.reported_by else ""
        words = (
            f"{test.germinated} of {test.seeds} = {_germinated(test):.0%}{hard},"
            f" {shown(test.code)}{whose}"
        )
        lines += pair(str(test.on), words + note, width)
    return lines


def _running_words(due: DueCount, today: date) -> str:
    """Which test, how far it is, and what is next."""
    after = due.count.words(today) if due.count else "all counts made, finish it"
    seeds = "1 seed" if due.test.seeds == 1 else f"{due.test.seeds} seeds"
    return f"{shown(due.test.code)}, {seeds}, day {due.day}: {after}. T opens it."


def _rests_on(facts: PacketFacts, width: int) -> list[Line]:
    forecast = facts.line.forecast
    if forecast is None or not forecast.rests_on:
        return []
    lines = heading("What the forecast rests on")
    for reason in forecast.rests_on:
        lines += item(reason, width)
    return lines
