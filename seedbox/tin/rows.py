"""How each record lies in its table: the columns read, and the record made of a row."""

from __future__ import annotations

from datetime import date, datetime

from seedbox.tin.database import Row
from seedbox.tin.records import (
    Change,
    GerminationTest,
    Kind,
    Movement,
    MovementKind,
    Origin,
    OwnCrop,
    OwnFigure,
    Packet,
    StoragePeriod,
    Store,
    Substrate,
    TestCount,
    TestState,
    TrayCount,
    Treatment,
    Unit,
)

PACKETS = (
    "SELECT id, code, crop_id, variety, kind, origin, source, harvest_year, packed_year,"
    " bought_year, sow_by, printed_germination, printed_on, treatment, ean, note, tags,"
    " parent_id, unit, received_on FROM packet"
)
STORES = (
    "SELECT id, name, coolest_c, warmest_c, relative_humidity, sealed, sealed_moisture, note"
    " FROM store"
)
STORAGE = "SELECT packet_id, from_date, store_id, sealed, moisture, id FROM storage_period"
MOVEMENTS = "SELECT packet_id, on_date, kind, amount, note, id FROM movement"
TESTS = (
    "SELECT id, code, packet_id, on_date, seeds, germinated, hard, note, state, started_on,"
    " replicates, substrate, temperature_c, night_c, first_count_day, final_count_day,"
    " pretreatment, abnormal, fresh, dead, reported_by FROM germination_test"
)
TEST_COUNTS = (
    "SELECT test_id, on_date, replicate, normal, abnormal, hard, fresh, dead, id FROM test_count"
)
TRAY_COUNTS = "SELECT packet_id, on_date, place, sown, emerged, note, id FROM tray_count"
# The last count of each sowing is a tray count: told by the sowing, read as both, with an id below
# 0. Beet and chard give several seedlings a unit: more than were sown say no more than all came.
COUNTED_SOWINGS = (
    "SELECT sowing.packet_id, event.on_date, place.name, sowing.seeds,"
    " min(event.count, sowing.seeds), '', -event.id FROM sowing_event AS event"
    " JOIN sowing ON sowing.id = event.sowing_id JOIN place ON place.id = sowing.place_id"
    " WHERE event.id = (SELECT id FROM sowing_event AS later WHERE later.sowing_id = sowing.id"
    " AND later.kind = 'emerged' ORDER BY on_date DESC, id DESC LIMIT 1)"
)
OWN_CROPS = "SELECT crop_id, name, family, note FROM own_crop"
OWN_FIGURES = "SELECT crop_id, figure, value, note FROM own_figure"
CHANGES = "SELECT id, made_at, label, state FROM change"

# Calling an enumeration costs three times a look-up, and a listing makes thousands of them.
_KIND = {member.value: member for member in Kind}
_ORIGIN: dict[str | None, Origin | None] = {None: None, **{one.value: one for one in Origin}}
_TREATMENT = {member.value: member for member in Treatment}
_UNIT: dict[str | None, Unit | None] = {None: None, **{one.value: one for one in Unit}}
_STATE = {member.value: member for member in TestState}
_SUBSTRATE: dict[str | None, Substrate | None] = {None: None, **{s.value: s for s in Substrate}}
_MOVEMENT = {member.value: member for member in MovementKind}


def packet(row: Row) -> Packet:
    (
        row_id, code, crop_id, variety, kind, origin, source, harvest, packed, bought, sow_by,
        printed, printed_on, treatment, ean, note, tags, parent_id, unit, received_on,
    ) = row  # fmt: skip
    return Packet(
        row_id, code, crop_id, variety, _KIND[kind], _ORIGIN[origin], source, harvest, packed,
        bought, _day(sow_by), printed, _day(printed_on), _TREATMENT[treatment], ean, note,
        tuple(tags.split(",")) if tags else (), parent_id, _UNIT[unit], _day(received_on),
    )  # fmt: skip


def store(row: Row) -> Store:
    row_id, name, coolest, warmest, humidity, sealed, moisture, note = row
    return Store(row_id, name, coolest, warmest, humidity, bool(sealed), moisture, note)


def period(row: Row) -> StoragePeriod:
    packet_id, from_date, store_id, sealed, moisture, row_id = row
    since = date.fromisoformat(from_date)
    return StoragePeriod(packet_id, since, store_id, bool(sealed), moisture, row_id)


def movement(row: Row) -> Movement:
    packet_id, on, kind, amount, note, row_id = row
    return Movement(packet_id, date.fromisoformat(on), _MOVEMENT[kind], amount, note, row_id)


def test(row: Row) -> GerminationTest:
    (
        row_id, code, packet_id, on, seeds, germinated, hard, note, state, started_on, replicates,
        substrate, *figures,
    ) = row  # fmt: skip
    return GerminationTest(
        row_id, code, packet_id, date.fromisoformat(on), seeds, germinated, hard, note,
        _STATE[state], _day(started_on), replicates, _SUBSTRATE[substrate], *figures,
    )  # fmt: skip


def test_count(row: Row) -> TestCount:
    test_id, on, *figures = row
    return TestCount(test_id, date.fromisoformat(on), *figures)


def tray_count(row: Row) -> TrayCount:
    packet_id, on, *figures = row
    return TrayCount(packet_id, date.fromisoformat(on), *figures)


def own_crop(row: Row) -> OwnCrop:
    return OwnCrop(*row)


def own_figure(row: Row) -> OwnFigure:
    return OwnFigure(*row)


def change(row: Row) -> Change:
    return Change(row[0], datetime.fromisoformat(row[1]), row[2], row[3])


def _day(text: str | None) -> date | None:
    return None if text is None else date.fromisoformat(text)
