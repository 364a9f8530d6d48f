"""A plan into the tin: one transaction, one entry in the history, one undo."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from operator import itemgetter
from typing import Any

from seedbox.errors import BadDataError
from seedbox.tin.changes import OpenChange
from seedbox.tin.exchange.drawing import draw_codes
from seedbox.tin.exchange.garden_carrying import insert_garden
from seedbox.tin.exchange.list_carrying import insert_lists
from seedbox.tin.exchange.plans import ImportDone, ImportPlan, NewPacket
from seedbox.tin.file import Tin
from seedbox.tin.records import Store

_PACKET = (
    "code", "crop_id", "variety", "kind", "origin", "source", "harvest_year", "packed_year",
    "bought_year", "sow_by", "printed_germination", "printed_on", "treatment", "ean", "note",
    "tags", "parent_id", "unit", "received_on", "import_key",
)  # fmt: skip
_MOVEMENT = ("packet_id", "on_date", "kind", "amount", "note")
_PERIOD = ("packet_id", "from_date", "store_id", "sealed", "moisture")
_TEST = (
    "code", "packet_id", "on_date", "seeds", "germinated", "hard", "note", "state", "started_on",
    "replicates", "substrate", "temperature_c", "night_c", "first_count_day", "final_count_day",
    "pretreatment", "abnormal", "fresh", "dead", "reported_by",
)  # fmt: skip
_COUNT = ("test_id", "on_date", "replicate", "normal", "abnormal", "hard", "fresh", "dead")
_TRAY = ("packet_id", "on_date", "place", "sown", "emerged", "note")
_STORE = (
    "name", "coolest_c", "warmest_c", "relative_humidity", "sealed", "sealed_moisture", "note",
)  # fmt: skip


def carry_out(tin: Tin, plan: ImportPlan, *, strict: bool = False) -> ImportDone:
    """Does what the plan says. With `strict`, nothing when any row stays out (BadDataError).

    The plan belongs to the tin as it was: it must not have been changed in between.
    """
    if strict and plan.problems:
        count = len(plan.rejects) or len(plan.problems)
        raise BadDataError(
            f"{_times(count, 'row')} of {plan.path.name} did not fit, so nothing was brought in.",
            hint="Mend them, or leave strict out to bring in the others.",
        )
    brings = plan.brings
    label = f"Import {brings[0]} from {plan.path.name[:80]}" if brings else ""
    codes: tuple[str, ...] = ()
    if label:
        with tin.change(label) as change:
            codes = _insert(tin, change, plan)
    return ImportDone(len(plan.new), plan.already, len(plan.rejects), label, codes)


def _insert(tin: Tin, change: OpenChange, plan: ImportPlan) -> tuple[str, ...]:
    change.insert_many("store", _STORE, map(_store_row, plan.stores_to_add))
    change.insert_many(
        "own_crop",
        ("crop_id", "name", "family", "note"),
        ((crop.id, crop.name, crop.family, crop.note) for crop in plan.own_crops_to_add),
    )
    change.insert_many(
        "own_figure",
        ("crop_id", "figure", "value", "note"),
        ((one.crop_id, one.figure, one.value, one.note) for one in plan.own_figures_to_set),
    )
    change.insert_many("setting", ("name", "value"), plan.settings_to_set)
    codes, first = _insert_packets(tin, change, plan.new)
    _insert_belongings(tin, change, plan, first)
    insert_garden(tin, change, plan, first)
    insert_lists(change, plan, first)
    return codes


def _insert_packets(
    tin: Tin, change: OpenChange, new: Sequence[NewPacket]
) -> tuple[tuple[str, ...], int]:
    taken = {row[0] for row in tin.database.rows("SELECT code FROM packet")}
    taken.update(one.code for one in new if one.code)
    drawn = iter(draw_codes(sum(not one.code for one in new), taken, tin.rng))
    codes = tuple(one.code or next(drawn) for one in new)
    first = 1 + (tin.database.value("SELECT max(id) FROM packet") or 0)
    parents = _parents(tin, new, codes, first)
    rows = (
        (code, *one[2:17], parents.get(one.parent), *one[18:21])
        for code, one in zip(codes, new, strict=True)
    )
    change.insert_many("packet", _PACKET, rows)
    return codes, first


def _parents(
    tin: Tin, new: Sequence[NewPacket], codes: Sequence[str], first: int
) -> dict[str, int]:
    """Row ids of the parents, by code."""
    wanted = {one.parent for one in new if one.parent}
    if not wanted:
        return {}
    there = {
        code: row_id
        for code, row_id in tin.database.rows("SELECT code, id FROM packet")
        if code in wanted
    }
    return there | {code: place for place, code in enumerate(codes, first) if code in wanted}


def _insert_belongings(tin: Tin, change: OpenChange, plan: ImportPlan, first: int) -> None:
    stores = {store.name.casefold(): store for store in tin.stores()}
    journal = _first_entries(plan) if plan.journal is None else plan.journal
    change.insert_many(
        "movement", _MOVEMENT, ((first + place, *entry) for place, *entry in journal)
    )
    storage = _first_periods(plan, stores) if plan.storage is None else plan.storage
    change.insert_many(
        "storage_period",
        _PERIOD,
        (
            (first + place, day, stores[store].id, int(sealed), moisture)
            for place, day, store, sealed, moisture in storage
        ),
    )
    first_test, _ = change.insert_many(
        "germination_test",
        _TEST,
        ((one.code, first + one.packet, *one[2:]) for one in plan.tests),
    )
    counts = ((first_test + place, *rest) for place, *rest in plan.test_counts)
    change.insert_many("test_count", _COUNT, counts)
    trays = ((first + place, *rest) for place, *rest in plan.tray_counts)
    change.insert_many("tray_count", _TRAY, trays)


def _first_entries(plan: ImportPlan) -> Iterable[tuple[Any, ...]]:
    """What a table of packets says of quantities: that so much was received."""
    entered = plan.today.isoformat()
    get = itemgetter(19, 21)  # received_on, amount
    return (
        (place, received or entered, "received", amount, "")
        for place, (received, amount) in enumerate(map(get, plan.new))
    )


def _first_periods(plan: ImportPlan, stores: Mapping[str, Store]) -> Iterable[tuple[Any, ...]]:
    """A packet lies in its store since it was received, sealed where the store seals."""
    entered = plan.today.isoformat()
    for place, one in enumerate(plan.new):
        if one.store:
            folded = one.store.casefold()
            store = stores[folded]
            moisture = store.sealed_moisture if store.sealed else None
            yield place, one.received_on or entered, folded, store.sealed, moisture


def _store_row(store: Store) -> tuple[Any, ...]:
    return (
        store.name, store.coolest_c, store.warmest_c, store.relative_humidity, int(store.sealed),
        store.sealed_moisture, store.note,
    )  # fmt: skip


def _times(count: int, what: str) -> str:
    return f"1 {what}" if count == 1 else f"{count:,} {what}s"
