"""The plan for a whole tin that an export wrote (or that a person wrote in the same tables).

What the tin has already stays as it is: a packet by its code, a store by its name, an own crop,
an own figure, a setting, a place or a plan likewise. A packet goes in with all of its journal,
storage, tests and sowings, or not at all.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any

from seedbox.problems import Problem
from seedbox.tin.codes import shown
from seedbox.tin.exchange import entries, headers
from seedbox.tin.exchange.answers import ResolveCrop
from seedbox.tin.exchange.crops import CropReader
from seedbox.tin.exchange.drawing import draw_codes
from seedbox.tin.exchange.entries import Entries, Gathered, by_packet, sheet_of
from seedbox.tin.exchange.fields import Field
from seedbox.tin.exchange.garden_entries import (
    read_places,
    read_plans,
    read_sowing_events,
    read_sowings,
)
from seedbox.tin.exchange.lineage import refuse_doubles, refuse_orphans
from seedbox.tin.exchange.plans import (
    CountEntry,
    EventEntry,
    ImportPlan,
    JournalEntry,
    SowingEntry,
    StorageEntry,
    TestEntry,
    TrayEntry,
)
from seedbox.tin.exchange.rows import RowReading, read_rows
from seedbox.tin.exchange.table import Table
from seedbox.tin.exchange.testing_entries import read_test_counts, read_tests, read_tray_counts
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import Place, Plan
from seedbox.tin.preferences import parse_setting
from seedbox.tin.records import OwnCrop, Store, Unit

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

    def all(self) -> tuple[Entries, ...]:
        return (
            self.journal,
            self.storage,
            self.tests,
            self.test_counts,
            self.tray_counts,
            self.sowings,
            self.sowing_events,
        )


def plan_whole(
    tin: Tin, path: Path, tables: Mapping[str, Table], resolve_crop: ResolveCrop, today: date
) -> ImportPlan:
    """Everything in `tables` that the tin has not."""
    gathered, notes = Gathered(), list[str]()
    stores, known_stores = _stores(tin, tables, gathered, notes)
    own_crops, known_crops = _own_crops(tin, tables, gathered)
    figures = _figures(tin, tables, gathered)
    settings = _settings(tin, tables, gathered, notes)
    places, known_places = _places(tin, tables, gathered, notes)
    plans = _plans(tin, tables, gathered)
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
    )


def _is_consequence(problem: Problem) -> bool:
    """Causes are told before what follows from them."""
    return problem.sentence.startswith(_FOLLOWS)


def _stores(
    tin: Tin, tables: Mapping[str, Table], gathered: Gathered, notes: list[str]
) -> tuple[list[Store], dict[str, Store]]:
    """Stores to add, and all by name that there will be."""
    read = entries.read_stores(sheet_of(tables, "stores"))
    gathered.take_in(read.sheet)
    known = {store.name.casefold(): store for store in tin.stores()}
    adding = []
    for (store,) in read.sound():
        there = known.get(store.name.casefold())
        if there is None:
            adding.append(store)
        elif _climate(there) != _climate(store):
            notes.append(f"The store “{there.name}” stays as it is in the tin.")
    return adding, known | {store.name.casefold(): store for store in adding}


def _climate(store: Store) -> tuple[Any, ...]:
    return (
        store.coolest_c, store.warmest_c, store.relative_humidity, store.sealed,
        store.sealed_moisture,
    )  # fmt: skip


def _own_crops(
    tin: Tin, tables: Mapping[str, Table], gathered: Gathered
) -> tuple[list[OwnCrop], dict[str, OwnCrop]]:
    read = entries.read_own_crops(sheet_of(tables, "own_crops"))
    gathered.take_in(read.sheet)
    known = {crop.id: crop for crop in tin.own_crops()}
    adding = [crop for (crop,) in read.sound() if crop.id not in known]
    return adding, known | {crop.id: crop for crop in adding}


def _figures(tin: Tin, tables: Mapping[str, Table], gathered: Gathered) -> list[Any]:
    read = entries.read_own_figures(sheet_of(tables, "own_figures"))
    gathered.take_in(read.sheet)
    known = {(one.crop_id, one.figure) for one in tin.own_figures()}
    return [one for (one,) in read.sound() if (one.crop_id, one.figure) not in known]


def _settings(
    tin: Tin, tables: Mapping[str, Table], gathered: Gathered, notes: list[str]
) -> list[tuple[str, str]]:
    read = entries.read_settings(sheet_of(tables, "settings"), parse_setting)
    gathered.take_in(read.sheet)
    known: dict[str, str] = dict(tin.database.rows("SELECT name, value FROM setting"))
    for name, value in read.sound():
        if known.get(name, value) != value:
            notes.append(f"The setting {name} stays {known[name]}, as it is in the tin.")
    return [(name, value) for name, value in read.sound() if name not in known]


def _places(
    tin: Tin, tables: Mapping[str, Table], gathered: Gathered, notes: list[str]
) -> tuple[list[Place], dict[str, Place]]:
    """Places to add, and all by name that there will be."""
    read = read_places(sheet_of(tables, "places"))
    gathered.take_in(read.sheet)
    known = {place.name.casefold(): place for place in tin.places()}
    adding = []
    for (place,) in read.sound():
        there = known.get(place.name.casefold())
        if there is None:
            adding.append(place)
        elif replace(there, id=0, name=place.name, note=place.note) != place:
            notes.append(f"The place “{there.name}” stays as it is in the tin.")
    return adding, known | {place.name.casefold(): place for place in adding}


def _plans(tin: Tin, tables: Mapping[str, Table], gathered: Gathered) -> list[Plan]:
    read = read_plans(sheet_of(tables, "plans"))
    gathered.take_in(read.sheet)
    known = {(plan.crop_id, plan.variety.casefold(), plan.year) for plan in tin.plans()}
    plans = [plan for (plan,) in read.sound()]
    return [one for one in plans if (one.crop_id, one.variety.casefold(), one.year) not in known]


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
    return _Belongings(
        entries.read_journal(sheet_of(tables, "movements"), units, today),
        entries.read_storage(sheet_of(tables, "storage"), stores, today),
        tests,
        read_test_counts(sheet_of(tables, "test_counts"), tests, tested, today),
        read_tray_counts(sheet_of(tables, "tray_counts"), today),
        sowings,
        read_sowing_events(events, sowings, sown, places, today),
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
