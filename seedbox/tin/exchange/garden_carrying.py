"""Places, plans, sowings and their events of a plan into the tin."""

from __future__ import annotations

from typing import Any

from seedbox.tin.changes import OpenChange
from seedbox.tin.exchange.plans import EventEntry, ImportPlan, SowingEntry
from seedbox.tin.file import Tin
from seedbox.tin.places import place_columns
from seedbox.tin.plans import plan_columns
from seedbox.tin.sowing_events import event_columns
from seedbox.tin.sowings import sowing_columns


def insert_garden(tin: Tin, change: OpenChange, plan: ImportPlan, first_packet: int) -> None:
    """What the garden has of the plan; packets have been inserted from the id `first_packet`."""
    _insert(change, "place", [place_columns(place) for place in plan.places_to_add])
    _insert(change, "plan", [plan_columns(one) for one in plan.plans_to_add])
    places = {place.name.casefold(): place.id for place in tin.places()}
    sown = [_sowing(one, first_packet, places) for one in plan.sowings]
    first_sowing = _insert(change, "sowing", sown)
    _insert(
        change, "sowing_event", [_event(one, first_sowing, places) for one in plan.sowing_events]
    )


def _sowing(one: SowingEntry, first_packet: int, places: dict[str, int]) -> dict[str, Any]:
    return {
        "code": one.code,
        "packet_id": first_packet + one.packet,
        "on_date": one.on,
        "place_id": places[one.place],
        **sowing_columns(one.draft),
    }


def _event(one: EventEntry, first_sowing: int, places: dict[str, int]) -> dict[str, Any]:
    columns = event_columns(one.event)
    columns["sowing_id"] = first_sowing + one.sowing
    columns["place_id"] = places[one.place] if one.place else None
    return columns


def _insert(change: OpenChange, table: str, rows: list[dict[str, Any]]) -> int:
    """Inserts rows that all have the same columns; returns the id of the first."""
    if not rows:
        return 0
    first, _ = change.insert_many(table, tuple(rows[0]), [tuple(row.values()) for row in rows])
    return first
