"""The plan for a whole tin that an export wrote (or that a person wrote in the same tables).

What the tin has already stays as it is: a packet by its code, a store by its name, an own crop,
an own figure, a setting, a place or a plan likewise. A packet goes in with all of its journal,
storage, tests and sowings, or not at all.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from seedbox.problems import Problem
from seedbox.tin.codes import shown
from seedbox.tin.exchange import entries, headers, standing
from seedbox.tin.exchange.answers import ResolveCrop
from seedbox.tin.exchange.crops import CropReader
from seedbox.tin.exchange.drawing import draw_codes
from seedbox.tin.exchange.entries import Entries, Gathered, by_packet, sheet_of
from seedbox.tin.exchange.fields import Field
from seedbox.tin.exchange.garden_entries import read_sowing_events, read_sowings
from seedbox.tin.exchange.lineage import refuse_doubles, refuse_orphans
from seedbox.tin.exchange.list_entries import read_label_queue, read_swap_choices
from seedbox.tin.exchange.plans import (
    ChoiceEntry,
    CountEntry,
    EventEntry,
    ImportPlan,
    JournalEntry,
    LabelEntry,
    SowingEntry,
    StorageEntry,
    TestEntry,
    TrayEntry,
)
from seedbox.tin.exchange.rows import RowReading, read_rows
from seedbox.tin.exchange.table import Table
from seedbox.tin.exchange.testing_entries import read_test_counts, read_tests, read_tray_counts
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import Place
from seedbox.tin.records import Store, Unit

_FOLLOWS = ("An entry of this packet is wrong", "This goes with a packet that stays out")


@dataclass(frozen=True, slots=True)
class _Belongings:
    """What belongs to packets, read from its tables."""

    journal: Entries
    storage: Entries
    tests: Entries
    test_counts: Entries
    tray_counts: Entries
    sowings: Entries
    sowing_events: Entries
    swap_choices: Entries
    labels: Entries

    def all(self) -> tuple[Entries, ...]:
        return (
            self.journal,
            self.storage,
            self.tests,
            self.test_counts,
            self.tray_counts,
            self.sowings,
            self.sowing_events,
            self.swap_choices,
            self.labels,
        )


def plan_whole(
    tin: Tin, path: Path, tables: Mapping[str, Table], resolve_crop: ResolveCrop, today: date
) -> ImportPlan:
    """Everything in `tables` that the tin has not."""
    gathered, notes = Gathered(), list[str]()
    stores, known_stores = standing.new_stores(tin, tables, gathered, notes)
    own_crops, known_crops = standing.new_own_crops(tin, tables, gathered)
    figures = standing.new_figures(tin, tables, gathered)
    settings = standing.new_settings(tin, tables, gathered, notes)
    places, known_places = standing.new_places(tin, tables, gathered, notes)
    plans = standing.new_plans(tin, tables, gathered)
    wants = standing.new_wants(tin, tables, gathered)
    reading = _packets(tables, CropReader(resolve_crop, known_crops.values()), today)
    things = _belongings(
        tin, tables, reading, stores=known_stores, places=known_places, today=today
    )
    codes = {row[0] for row in tin.database.rows("SELECT code FROM packet")}
    refuse_doubles(reading)
    _refuse_unknown(reading, things, codes)
    _refuse_elsewhere(tin, "germination_test", "test", things.tests, codes)
    _refuse_elsewhere(tin, "sowing", "sowing", things.sowings, codes)
    _pass_on_faults(reading, things)
    order = refuse_orphans(reading, codes)
    _keep_back(reading, things)
    new = [reading.packets[place] for place in order if reading.packets[place].code not in codes]
    gathered.take_in(reading.sheet)
    for one in things.all():
        gathered.take_in(one.sheet)
    place_of = {one.code: place for place, one in enumerate(new)}
    tests = _placed_tests(tin, things.tests, place_of)
    sowings = _placed_sowings(things.sowings, place_of)
    return ImportPlan(
        path,
        today,
        tuple(new),
        len(order) - len(new),
        tuple(sorted(gathered.problems, key=_is_consequence)),
        tuple(gathered.rejects),
        tuple(stores),
        tuple(own_crops),
        tuple(figures),
        tuple(settings),
        notes=tuple(notes + reading.notes),
        journal=_placed_journal(tables, things.journal, place_of),
        storage=_placed_storage(tables, things.storage, place_of),
        tests=tests,
        test_counts=_placed_counts(things.test_counts, tests),
        tray_counts=tuple(
            TrayEntry(place_of[row[0]], *row[1:])
            for row in things.tray_counts.sound()
            if row[0] in place_of
        ),
        places_to_add=tuple(places),
        plans_to_add=tuple(plans),
        sowings=sowings,
        sowing_events=_placed_events(things.sowing_events, sowings),
        wants_to_add=tuple(wants),
        swap_choices=tuple(
            ChoiceEntry(place_of[row[0]], *row[1:])
            for row in things.swap_choices.sound()
            if row[0] in place_of
        ),
        labels=tuple(LabelEntry(*row[1:]) for row in things.labels.sound() if row[0] in place_of),
    )


def _is_consequence(problem: Problem) -> bool:
    """Causes are told before what follows from them."""
    return problem.sentence.startswith(_FOLLOWS)


def _packets(tables: Mapping[str, Table], crops: CropReader, today: date) -> RowReading:
    """The packets; where there is a journal, `left` is only there for the reader."""
    table = tables.get("packets") or Table([], [], 2)
    columns = headers.recognised(table)
    at = dict(columns.at)
    if "movements" in tables:
        at.pop(Field.QUANTITY, None)
    if "storage" in tables:
        at.pop(Field.STORE, None)
    columns = headers.Columns(at, columns.note_columns, columns.ignored, columns.mapped)
    return read_rows(table, columns, crops, today=today, month_first=False, where="packets")


def _belongings(
    tin: Tin,
    tables: Mapping[str, Table],
    reading: RowReading,
    *,
    stores: Mapping[str, Store],
    places: Mapping[str, Place],
    today: date,
) -> _Belongings:
    units = {one.code: Unit(one.unit) if one.unit else None for one in reading.packets}
    tests = read_tests(sheet_of(tables, "tests"), today)
    sowings = read_sowings(sheet_of(tables, "sowings"), places, today)
    tested = _packets_of(tin, "germination_test")
    sown, events = _packets_of(tin, "sowing"), sheet_of(tables, "sowing_events")
    owners = tested | sown | {row[1]: row[0] for row in (*tests.rows, *sowings.rows)}
    return _Belongings(
        entries.read_journal(sheet_of(tables, "movements"), units, today),
        entries.read_storage(sheet_of(tables, "storage"), stores, today),
        tests,
        read_test_counts(sheet_of(tables, "test_counts"), tests, tested, today),
        read_tray_counts(sheet_of(tables, "tray_counts"), today),
        sowings,
        read_sowing_events(events, sowings, sown, places, today),
        read_swap_choices(sheet_of(tables, "swap_choices")),
        read_label_queue(sheet_of(tables, "label_queue"), owners),
    )


def _packets_of(tin: Tin, table: str) -> dict[str, str]:
    """Packet of each test or sowing that the tin has, both by code."""
    return dict(
        tin.database.rows(
            f"SELECT {table}.code, packet.code FROM {table} JOIN packet ON packet.id = packet_id"
        )
    )


def _refuse_unknown(reading: RowReading, things: _Belongings, codes: set[str]) -> None:
    """A packet of a whole tin needs a code; entries need their packet."""
    for place, one in enumerate(reading.packets):
        if not one.code and place not in reading.sheet.faults:
            reading.sheet.fault(place, "The code is empty.", "code")
    known = codes | {one.code for one in reading.packets}
    for table in things.all():
        for place, row in enumerate(table.rows):
            if row[0] and row[0] not in known:
                table.sheet.fault(place, f"There is no packet {shown(row[0])}.", "packet")


def _refuse_elsewhere(tin: Tin, table: str, word: str, read: Entries, codes: set[str]) -> None:
    """A code stands for one test or sowing: a new packet cannot bring one that the tin has."""
    taken = {row[0] for row in tin.database.rows(f"SELECT code FROM {table}")}
    for place, row in enumerate(read.rows):
        if row[1] in taken and row[0] not in codes:
            read.sheet.fault(place, f"The tin has another {word} {shown(row[1])}.", "code")


def _pass_on_faults(reading: RowReading, things: _Belongings) -> None:
    """A fault among a packet's entries keeps the packet out: half a history would mislead."""
    place_of = {one.code: place for place, one in enumerate(reading.packets)}
    for table in things.all():
        for code, places in by_packet(table).items():
            bad = [place for place in places if place in table.sheet.faults]
            if bad and code in place_of and place_of[code] not in reading.sheet.faults:
                where, row = table.sheet.where, table.sheet.numbers[bad[0]]
                reading.sheet.fault(place_of[code], f"{_FOLLOWS[0]}: {where}, row {row}.")


def _keep_back(reading: RowReading, things: _Belongings) -> None:
    """Entries of a packet that stays out go to the rejects with it."""
    faults = reading.sheet.faults
    staying_out = {one.code for place, one in enumerate(reading.packets) if place in faults}
    for table in things.all():
        for place, row in enumerate(table.rows):
            if row[0] in staying_out and place not in table.sheet.faults:
                table.sheet.fault(place, f"{_FOLLOWS[1]}: {shown(row[0])}.")


def _placed_journal(
    tables: Mapping[str, Table], journal: Entries, place_of: Mapping[str, int]
) -> tuple[JournalEntry, ...] | None:
    if "movements" not in tables:
        return None
    return tuple(
        JournalEntry(place_of[row[0]], *row[1:]) for row in journal.sound() if row[0] in place_of
    )


def _placed_storage(
    tables: Mapping[str, Table], storage: Entries, place_of: Mapping[str, int]
) -> tuple[StorageEntry, ...] | None:
    if "storage" not in tables:
        return None
    return tuple(
        StorageEntry(place_of[row[0]], *row[1:]) for row in storage.sound() if row[0] in place_of
    )


def _placed_tests(tin: Tin, tests: Entries, place_of: Mapping[str, int]) -> tuple[TestEntry, ...]:
    rows = [row for row in tests.sound() if row[0] in place_of]
    taken = {row[0] for row in tin.database.rows("SELECT code FROM germination_test")}
    taken.update(row[1] for row in rows)
    drawn = iter(draw_codes(sum(not row[1] for row in rows), taken, tin.rng, "T"))
    return tuple(TestEntry(place_of[row[0]], row[1] or next(drawn), *row[2:]) for row in rows)


def _placed_counts(counts: Entries, tests: tuple[TestEntry, ...]) -> tuple[CountEntry, ...]:
    """Counts of the tests that come in; those of tests in the tin already stay as they are."""
    place_of = {test.code: place for place, test in enumerate(tests)}
    return tuple(
        CountEntry(place_of[row[1]], *row[2:]) for row in counts.sound() if row[1] in place_of
    )


def _placed_sowings(sowings: Entries, place_of: Mapping[str, int]) -> tuple[SowingEntry, ...]:
    return tuple(
        SowingEntry(place_of[row[0]], *row[1:]) for row in sowings.sound() if row[0] in place_of
    )


def _placed_events(events: Entries, sowings: tuple[SowingEntry, ...]) -> tuple[EventEntry, ...]:
    """Events of the sowings that come in."""
    place_of = {one.code: place for place, one in enumerate(sowings)}
    return tuple(
        EventEntry(place_of[row[1]], *row[2:]) for row in events.sound() if row[1] in place_of
    )
