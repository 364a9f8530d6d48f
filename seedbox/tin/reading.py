"""From rows to records. One query a table; nothing here writes."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date, datetime
from typing import TypeVar

from seedbox.errors import NotFoundError
from seedbox.tin import codes
from seedbox.tin.database import Database, Row
from seedbox.tin.journal import after
from seedbox.tin.preferences import Settings, settings_from
from seedbox.tin.records import (
    Change,
    Dossier,
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
    Treatment,
    Unit,
)

R = TypeVar("R")

PACKET_COLUMNS = (
    "id, code, crop_id, variety, kind, origin, source, harvest_year, packed_year, bought_year,"
    " sow_by, printed_germination, printed_on, treatment, ean, note, tags, parent_id, unit,"
    " received_on"
)
_PACKETS = f"SELECT {PACKET_COLUMNS} FROM packet"
_STORES = (
    "SELECT id, name, coolest_c, warmest_c, relative_humidity, sealed, sealed_moisture, note"
    " FROM store"
)
_STORAGE = "SELECT packet_id, from_date, store_id, sealed, moisture, id FROM storage_period"
_MOVEMENTS = "SELECT packet_id, on_date, kind, amount, note, id FROM movement"
_TESTS = "SELECT id, code, packet_id, on_date, seeds, germinated, hard, note FROM germination_test"

# Calling an enumeration costs three times a look-up, and a listing makes thousands of them.
_KIND = {member.value: member for member in Kind}
_ORIGIN: dict[str | None, Origin | None] = {
    None: None,
    **{member.value: member for member in Origin},
}
_TREATMENT = {member.value: member for member in Treatment}
_UNIT: dict[str | None, Unit | None] = {None: None, **{member.value: member for member in Unit}}
_MOVEMENT = {member.value: member for member in MovementKind}


def packets(database: Database) -> list[Packet]:
    return [_packet(row) for row in database.rows(f"{_PACKETS} ORDER BY id")]


def packet(database: Database, code_text: str) -> Packet:
    return _packet(_packet_row(database, code_text))


def packet_by_id(database: Database, packet_id: int) -> Packet:
    found = database.rows(f"{_PACKETS} WHERE id = ?", (packet_id,))
    if not found:
        raise NotFoundError(f"There is no packet number {packet_id} in the tin.")
    return _packet(found[0])


def stores(database: Database) -> list[Store]:
    return [_store(row) for row in database.rows(f"{_STORES} ORDER BY name COLLATE NOCASE")]


def store(database: Database, name: str) -> Store:
    wanted = name.strip().casefold()
    known = stores(database)
    found = next((one for one in known if one.name.casefold() == wanted), None)
    if found is None:
        raise NotFoundError(f"There is no store “{name.strip()}”.", hint=_stores_hint(known, name))
    return found


def store_by_id(database: Database, store_id: int) -> Store:
    found = database.rows(f"{_STORES} WHERE id = ?", (store_id,))
    if not found:
        raise NotFoundError(f"There is no store number {store_id} in the tin.")
    return _store(found[0])


def movements(database: Database, packet_id: int | None = None) -> list[Movement]:
    return _of_packet(database, _MOVEMENTS, "on_date, id", packet_id, _movement)


def storage(database: Database, packet_id: int | None = None) -> list[StoragePeriod]:
    return _of_packet(database, _STORAGE, "from_date", packet_id, _period)


def tests(database: Database, packet_id: int | None = None) -> list[GerminationTest]:
    return _of_packet(database, _TESTS, "on_date, id", packet_id, _test)


def dossiers(database: Database, include_empty: bool = True) -> list[Dossier]:
    """All packets with what belongs to them: five queries, whatever the size of the tin."""
    known_stores = {row[0]: _store(row) for row in database.rows(_STORES)}
    lefts = _lefts(
        database.rows("SELECT packet_id, kind, amount FROM movement ORDER BY on_date, id")
    )
    periods = _grouped(database.rows(f"{_STORAGE} ORDER BY from_date"), 0, _period)
    tested = _grouped(database.rows(f"{_TESTS} ORDER BY on_date, id"), 2, _test)
    made = (
        _dossier(_packet(row), lefts, periods, tested, known_stores)
        for row in database.rows(f"{_PACKETS} ORDER BY id")
    )
    return [one for one in made if include_empty or one.left != 0]


def dossier(database: Database, code_text: str) -> Dossier:
    wanted = packet(database, code_text)
    journal = [(m.packet_id, m.kind.value, m.amount) for m in movements(database, wanted.id)]
    return _dossier(
        wanted,
        _lefts(journal),
        {wanted.id: tuple(storage(database, wanted.id))},
        {wanted.id: tuple(tests(database, wanted.id))},
        {one.id: one for one in stores(database)},
    )


def settings(database: Database) -> Settings:
    return settings_from(dict(database.rows("SELECT name, value FROM setting")))


def own_crops(database: Database) -> list[OwnCrop]:
    rows = database.rows("SELECT crop_id, name, family, note FROM own_crop ORDER BY crop_id")
    return [OwnCrop(*row) for row in rows]


def own_figures(database: Database) -> list[OwnFigure]:
    rows = database.rows(
        "SELECT crop_id, figure, value, note FROM own_figure ORDER BY crop_id, figure"
    )
    return [OwnFigure(*row) for row in rows]


def history(database: Database, limit: int | None = None) -> list[Change]:
    rows = database.rows(
        "SELECT id, made_at, label, state FROM change ORDER BY id DESC LIMIT ?",
        (-1 if limit is None else limit,),
    )
    return [Change(row[0], datetime.fromisoformat(row[1]), row[2], row[3]) for row in rows]


def _packet_row(database: Database, code_text: str) -> Row:
    code = codes.parse(code_text)
    if code[0] != "P":
        raise NotFoundError(f"{codes.shown(code)} is the code of a {codes.KINDS[code[0]]}.")
    found = database.rows(f"{_PACKETS} WHERE code = ?", (code,))
    if not found:
        raise NotFoundError(f"There is no packet {codes.shown(code)} in the tin.")
    return found[0]


def _of_packet(
    database: Database, sql: str, order: str, packet_id: int | None, make: Callable[[Row], R]
) -> list[R]:
    if packet_id is None:
        return [make(row) for row in database.rows(f"{sql} ORDER BY packet_id, {order}")]
    found = database.rows(f"{sql} WHERE packet_id = ? ORDER BY {order}", (packet_id,))
    return [make(row) for row in found]


def _grouped(rows: Iterable[Row], key: int, make: Callable[[Row], R]) -> dict[int, tuple[R, ...]]:
    groups: dict[int, tuple[R, ...]] = {}
    for row in rows:
        groups[row[key]] = (*groups.get(row[key], ()), make(row))
    return groups


def _lefts(rows: Iterable[Row]) -> dict[int, float | None]:
    """What is left in each packet that has a journal."""
    lefts: dict[int, float | None] = {}
    for packet_id, kind, amount in rows:
        known = packet_id in lefts
        lefts[packet_id] = after(known, lefts.get(packet_id), kind, amount)
    return lefts


def _dossier(
    one: Packet,
    lefts: dict[int, float | None],
    periods: dict[int, tuple[StoragePeriod, ...]],
    tested: dict[int, tuple[GerminationTest, ...]],
    known_stores: dict[int, Store],
) -> Dossier:
    lain = periods.get(one.id, ())
    now_in = known_stores[lain[-1].store_id] if lain else None
    return Dossier(one, lefts.get(one.id), lain, tested.get(one.id, ()), now_in)


def _day(text: str | None) -> date | None:
    return None if text is None else date.fromisoformat(text)


def _packet(row: Row) -> Packet:
    (
        row_id, code, crop_id, variety, kind, origin, source, harvest, packed, bought, sow_by,
        printed, printed_on, treatment, ean, note, tags, parent_id, unit, received_on,
    ) = row  # fmt: skip
    return Packet(
        row_id, code, crop_id, variety, _KIND[kind], _ORIGIN[origin], source, harvest, packed,
        bought, _day(sow_by), printed, _day(printed_on), _TREATMENT[treatment], ean, note,
        tuple(tags.split(",")) if tags else (), parent_id, _UNIT[unit], _day(received_on),
    )  # fmt: skip


def _store(row: Row) -> Store:
    row_id, name, coolest, warmest, humidity, sealed, moisture, note = row
    return Store(row_id, name, coolest, warmest, humidity, bool(sealed), moisture, note)


def _period(row: Row) -> StoragePeriod:
    packet_id, from_date, store_id, sealed, moisture, row_id = row
    return StoragePeriod(
        packet_id, date.fromisoformat(from_date), store_id, bool(sealed), moisture, row_id
    )


def _movement(row: Row) -> Movement:
    packet_id, on, kind, amount, note, row_id = row
    return Movement(packet_id, date.fromisoformat(on), _MOVEMENT[kind], amount, note, row_id)


def _test(row: Row) -> GerminationTest:
    row_id, code, packet_id, on, seeds, germinated, hard, note = row
    return GerminationTest(
        row_id, code, packet_id, date.fromisoformat(on), seeds, germinated, hard, note
    )


def _stores_hint(known: list[Store], name: str) -> str:
    from difflib import get_close_matches

    names = [one.name for one in known]
    near = get_close_matches(name, names, n=3)
    if near:
        return f"Did you mean {' or '.join(near)}?"
    return f"There are: {', '.join(names)}." if names else "No store has been added yet."
