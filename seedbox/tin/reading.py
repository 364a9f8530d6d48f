"""Reading the tin. One query a table; nothing here writes."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TypeVar

from seedbox.errors import NotFoundError
from seedbox.tin import codes, rows
from seedbox.tin.database import Database, Row, read_records
from seedbox.tin.frozen import record
from seedbox.tin.journal import after
from seedbox.tin.preferences import Settings, settings_from
from seedbox.tin.records import (
    Change,
    Dossier,
    GerminationTest,
    Movement,
    OwnCrop,
    OwnFigure,
    Packet,
    StoragePeriod,
    Store,
    TestCount,
    TestState,
    TrayCount,
)

R = TypeVar("R")
OfPacket = TypeVar("OfPacket", bound=StoragePeriod | GerminationTest | TrayCount)


def packets(database: Database) -> list[Packet]:
    return read_records(database, f"{rows.PACKETS} ORDER BY id", rows.packet)


def packet(database: Database, code_text: str) -> Packet:
    code = codes.parse(code_text)
    if code[0] != "P":
        raise NotFoundError(f"{codes.shown(code)} is the code of a {codes.KINDS[code[0]]}.")
    found = read_records(database, f"{rows.PACKETS} WHERE code = ?", rows.packet, (code,))
    if not found:
        raise NotFoundError(f"There is no packet {codes.shown(code)} in the tin.")
    return found[0]


def packet_by_id(database: Database, packet_id: int) -> Packet:
    found = read_records(database, f"{rows.PACKETS} WHERE id = ?", rows.packet, (packet_id,))
    if not found:
        raise NotFoundError(f"There is no packet number {packet_id} in the tin.")
    return found[0]


def stores(database: Database) -> list[Store]:
    return sorted(
        read_records(database, rows.STORES, rows.store), key=lambda one: one.name.casefold()
    )


def store(database: Database, name: str) -> Store:
    wanted = name.strip().casefold()
    known = stores(database)
    found = next((one for one in known if one.name.casefold() == wanted), None)
    if found is None:
        hint = _near_stores([one.name for one in known], name)
        raise NotFoundError(f"There is no store “{name.strip()}”.", hint=hint)
    return found


def store_by_id(database: Database, store_id: int) -> Store:
    found = read_records(database, f"{rows.STORES} WHERE id = ?", rows.store, (store_id,))
    if not found:
        raise NotFoundError(f"There is no store number {store_id} in the tin.")
    return found[0]


def movements(database: Database, packet_id: int | None = None) -> list[Movement]:
    return _read_of(database, rows.MOVEMENTS, "on_date, id", packet_id, rows.movement)


def storage(database: Database, packet_id: int | None = None) -> list[StoragePeriod]:
    return _read_of(database, rows.STORAGE, "from_date", packet_id, rows.period)


def tests(
    database: Database,
    packet_id: int | None = None,
    state: TestState | None = TestState.FINISHED,
) -> list[GerminationTest]:
    found = _read_of(database, rows.TESTS, "on_date, id", packet_id, rows.test)
    return [one for one in found if state is None or one.state is state]


def test(database: Database, code_text: str) -> GerminationTest:
    code = codes.parse(code_text)
    if code[0] != "T":
        raise NotFoundError(f"{codes.shown(code)} is the code of a {codes.KINDS[code[0]]}.")
    found = read_records(database, f"{rows.TESTS} WHERE code = ?", rows.test, (code,))
    if not found:
        raise NotFoundError(f"There is no germination test {codes.shown(code)} in the tin.")
    return found[0]


def test_counts(database: Database, test_id: int | None = None) -> list[TestCount]:
    order = "ORDER BY test_id, on_date, replicate"
    if test_id is None:
        return read_records(database, f"{rows.TEST_COUNTS} {order}", rows.test_count)
    sql = f"{rows.TEST_COUNTS} WHERE test_id = ? {order}"
    return read_records(database, sql, rows.test_count, (test_id,))


def tray_counts(database: Database, packet_id: int | None = None) -> list[TrayCount]:
    return _read_of(database, rows.TRAY_COUNTS, "on_date, id", packet_id, rows.tray_count)


def trays(database: Database, packet_id: int | None = None) -> list[TrayCount]:
    """Emergence in trays, whether counted by itself or in a sowing, in order of date."""
    of_packet, values = ("", ()) if packet_id is None else (" AND packet_id = ?", (packet_id,))
    sown = read_records(database, rows.COUNTED_SOWINGS + of_packet, rows.tray_count, values)
    return sorted([*tray_counts(database, packet_id), *sown], key=lambda one: one.on)


def dossiers(database: Database, include_empty: bool = True) -> list[Dossier]:
    """All packets with what belongs to them: seven queries, whatever the size of the tin."""
    journal = "SELECT packet_id, kind, amount FROM movement ORDER BY on_date, id"
    finished = f"{rows.TESTS} WHERE state = 'finished' ORDER BY on_date, id"
    things = _Belongings(
        lefts=_lefts(database.rows(journal)),
        periods=_grouped(read_records(database, f"{rows.STORAGE} ORDER BY from_date", rows.period)),
        tests=_grouped(read_records(database, finished, rows.test)),
        trays=_grouped(trays(database)),
        stores={one.id: one for one in read_records(database, rows.STORES, rows.store)},
    )
    made = (things.dossier(one) for one in packets(database))
    return [one for one in made if include_empty or one.left != 0]


def dossier(database: Database, code_text: str) -> Dossier:
    one = packet(database, code_text)
    journal = [(m.packet_id, m.kind, m.amount) for m in movements(database, one.id)]
    things = _Belongings(
        lefts=_lefts(journal),
        periods=_grouped(storage(database, one.id)),
        tests=_grouped(tests(database, one.id)),
        trays=_grouped(trays(database, one.id)),
        stores={shelf.id: shelf for shelf in stores(database)},
    )
    return things.dossier(one)


def settings(database: Database) -> Settings:
    return settings_from(dict(database.rows("SELECT name, value FROM setting")))


def own_crops(database: Database) -> list[OwnCrop]:
    return read_records(database, f"{rows.OWN_CROPS} ORDER BY crop_id", rows.own_crop)


def own_figures(database: Database) -> list[OwnFigure]:
    return read_records(database, f"{rows.OWN_FIGURES} ORDER BY crop_id, figure", rows.own_figure)


def history(database: Database, limit: int | None = None) -> list[Change]:
    most = -1 if limit is None else limit
    return read_records(database, f"{rows.CHANGES} ORDER BY id DESC LIMIT ?", rows.change, (most,))


def _read_of(
    database: Database, sql: str, order: str, packet_id: int | None, make: Callable[[Row], R]
) -> list[R]:
    if packet_id is None:
        return read_records(database, f"{sql} ORDER BY packet_id, {order}", make)
    return read_records(database, f"{sql} WHERE packet_id = ? ORDER BY {order}", make, (packet_id,))


def _grouped(records: Iterable[OfPacket]) -> dict[int, tuple[OfPacket, ...]]:
    groups: dict[int, tuple[OfPacket, ...]] = {}
    for one in records:
        before = groups.get(one.packet_id, ())
        groups[one.packet_id] = (*before, one)
    return groups


def _lefts(journal: Iterable[Row]) -> dict[int, float | None]:
    """What is left in each packet that has a journal."""
    lefts: dict[int, float | None] = {}
    for packet_id, kind, amount in journal:
        known = packet_id in lefts
        lefts[packet_id] = after(known, lefts.get(packet_id), kind, amount)
    return lefts


@record
class _Belongings:
    """What belongs to packets, by packet id, and the stores by their own."""

    lefts: dict[int, float | None]
    periods: dict[int, tuple[StoragePeriod, ...]]
    tests: dict[int, tuple[GerminationTest, ...]]
    trays: dict[int, tuple[TrayCount, ...]]
    stores: dict[int, Store]

    def dossier(self, one: Packet) -> Dossier:
        own, lain = one.id, self.periods.get(one.id, ())
        lies_in = self.stores[lain[-1].store_id] if lain else None
        tests, trays = self.tests.get(own, ()), self.trays.get(own, ())
        return Dossier(one, self.lefts.get(own), lain, tests, lies_in, trays)


def _near_stores(names: list[str], wanted: str) -> str:
    from difflib import get_close_matches

    near = get_close_matches(wanted, names, n=3)
    if near:
        return f"Did you mean {' or '.join(near)}?"
    return f"There are: {', '.join(names)}." if names else "No store has been added yet."
