"""Moving packets between stores. A move starts a new period; it never rewrites the past."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from seedbox.errors import BadDataError
from seedbox.tin.changes import OpenChange
from seedbox.tin.codes import shown
from seedbox.tin.drafts import moisture_problem, past_day_problem
from seedbox.tin.file import Tin
from seedbox.tin.records import Packet, StoragePeriod, Store


def move(
    tin: Tin,
    packets: Iterable[Packet],
    store: Store,
    *,
    today: date,
    on: date | None = None,
    sealed: bool | None = None,
    moisture: float | None = None,
) -> int:
    """Moves packets into a store, as one change; returns how many were not there already.

    `sealed` and `moisture` [% of fresh weight] left out are those of the store. A second move on
    one day replaces that day's period. A move for a past day is put in where it belongs, as long
    as it is not before the packet's first store.
    """
    moving, day = list(packets), on or today
    is_sealed = store.sealed if sealed is None else sealed
    if moisture is None and is_sealed:
        moisture = store.sealed_moisture
    _refuse_bad_move(day, today, is_sealed, moisture)
    what = shown(moving[0].code) if len(moving) == 1 else f"{len(moving)} packets"
    with tin.change(f"Move {what} to {store.name}") as change:
        return sum(
            _move_one(
                tin, change, packet, StoragePeriod(packet.id, day, store.id, is_sealed, moisture)
            )
            for packet in moving
        )


def _refuse_bad_move(day: date, today: date, sealed: bool, moisture: float | None) -> None:
    problem = past_day_problem(day, today)
    if not problem and moisture is not None:
        problem = moisture_problem(moisture)
        if not problem and not sealed:
            problem = "Only sealed seed keeps its moisture: seal it, or leave the moisture out."
    if problem:
        raise BadDataError(problem)


def _move_one(tin: Tin, change: OpenChange, packet: Packet, new: StoragePeriod) -> bool:
    lain = tin.storage(packet.id)
    if lain and new.from_date < lain[0].from_date:
        raise BadDataError(
            f"{shown(packet.code)} came into its first store on {lain[0].from_date};"
            " a move cannot be earlier."
        )
    same_day = next((period for period in lain if period.from_date == new.from_date), None)
    if same_day is not None:
        return change.update("storage_period", same_day.id, _columns(new))
    before = [period for period in lain if period.from_date < new.from_date]
    if before and _state(before[-1]) == _state(new):
        return False
    change.insert("storage_period", _columns(new))
    return True


def _state(period: StoragePeriod) -> tuple[int, bool, float | None]:
    return period.store_id, period.sealed, period.moisture


def _columns(period: StoragePeriod) -> dict[str, object]:
    return {
        "packet_id": period.packet_id,
        "from_date": period.from_date.isoformat(),
        "store_id": period.store_id,
        "sealed": int(period.sealed),
        "moisture": period.moisture,
    }
