"""Reading places, plans, sowings and their events. Nothing here writes."""

from __future__ import annotations

from datetime import date

from seedbox.errors import NotFoundError
from seedbox.tin import codes
from seedbox.tin.database import Database, Row, read_records
from seedbox.tin.garden_records import EventKind, Place, PlaceKind, Plan, Sowing, SowingEvent

_PLACES = (
    "SELECT id, name, kind, covered, coolest_c, warmest_c, months_c, ppfd, light_hours, note"
    " FROM place"
)
_PLANS = "SELECT id, crop_id, plants, variety, year, again_days, note FROM plan"
_SOWINGS = (
    "SELECT id, code, packet_id, on_date, place_id, seeds, cells, per_cell, row_m, left_per_cell,"
    " plants_wanted, pot_depth_cm, note FROM sowing"
)
_EVENTS = (
    "SELECT sowing_id, on_date, kind, count, place_id, pot_depth_cm, job, until_date, note, id"
    " FROM sowing_event"
)


def places(database: Database) -> list[Place]:
    """All places by name."""
    return sorted(read_records(database, _PLACES, _place), key=lambda one: one.name.casefold())


def place(database: Database, name: str) -> Place:
    wanted = name.strip().casefold()
    known = places(database)
    found = next((one for one in known if one.name.casefold() == wanted), None)
    if found is None:
        names = ", ".join(one.name for one in known)
        hint = f"There are: {names}." if names else "No place has been added yet."
        raise NotFoundError(f"There is no place “{name.strip()}” in the garden.", hint=hint)
    return found


def plans(database: Database) -> list[Plan]:
    """All plans by crop, variety and year."""
    return read_records(database, f"{_PLANS} ORDER BY crop_id, variety, coalesce(year, 0)", _plan)


def sowings(database: Database, packet_id: int | None = None) -> list[Sowing]:
    """Sowings of one packet, or all, in order of date."""
    if packet_id is None:
        return read_records(database, f"{_SOWINGS} ORDER BY on_date, id", _sowing)
    sql = f"{_SOWINGS} WHERE packet_id = ? ORDER BY on_date, id"
    return read_records(database, sql, _sowing, (packet_id,))


def sowing(database: Database, code_text: str) -> Sowing:
    """The sowing with this code, however it is spelt."""
    code = codes.parse(code_text)
    if code[0] != "S":
        raise NotFoundError(f"{codes.shown(code)} is the code of a {codes.KINDS[code[0]]}.")
    found = read_records(database, f"{_SOWINGS} WHERE code = ?", _sowing, (code,))
    if not found:
        raise NotFoundError(f"There is no sowing {codes.shown(code)} in the tin.")
    return found[0]


def events(database: Database, sowing_id: int | None = None) -> list[SowingEvent]:
    """What became of one sowing, or of all, in order of date."""
    order = "ORDER BY sowing_id, on_date, id"
    if sowing_id is None:
        return read_records(database, f"{_EVENTS} {order}", _event)
    return read_records(database, f"{_EVENTS} WHERE sowing_id = ? {order}", _event, (sowing_id,))


def _place(row: Row) -> Place:
    row_id, name, kind, covered, coolest, warmest, months, ppfd, hours, note = row
    means = tuple(map(float, months.split()))
    return Place(
        row_id, name, PlaceKind(kind), bool(covered), coolest, warmest, means, ppfd, hours, note
    )


def _plan(row: Row) -> Plan:
    return Plan(*row)


def _sowing(row: Row) -> Sowing:
    row_id, code, packet_id, on, *rest = row
    return Sowing(row_id, code, packet_id, date.fromisoformat(on), *rest)


def _event(row: Row) -> SowingEvent:
    sowing_id, on, kind, count, place_id, depth, job, until, note, row_id = row
    later = None if until is None else date.fromisoformat(until)
    return SowingEvent(
        sowing_id,
        date.fromisoformat(on),
        EventKind(kind),
        count,
        place_id,
        depth,
        job,
        later,
        note,
        row_id,
    )
