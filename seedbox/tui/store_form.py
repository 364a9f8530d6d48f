"""The form for a store: how warm, how damp, open or sealed."""

from __future__ import annotations

from dataclasses import replace

from seedbox.tin.records import Store
from seedbox.tin.stores import add_store, check_store, edit_store
from seedbox.tui.desk import Desk
from seedbox.tui.field_values import FieldReader
from seedbox.tui.form import Field, FormPlan, Values

OPEN, SEALED = "open", "sealed"
_FIELD_OF_PROBLEM = {
    "coolest_c": "coolest",
    "warmest_c": "warmest",
    "relative_humidity": "humidity",
    "sealed_moisture": "moisture",
}
_BLANK = Store(0, "", 0.0, 0.0)


def store_plan(desk: Desk, store: Store | None) -> FormPlan:
    """A form for a new store, or for putting one right."""

    def save(values: Values) -> str:
        wanted = _store_from(values, store or _BLANK, desk)
        return _added(desk, wanted) if store is None else _edited(desk, store, wanted)

    name = Field("name", "Name", "Such as kitchen drawer, cold shed, jar in the refrigerator.")
    return FormPlan(
        title="Add a store" if store is None else f"Change {store.name}",
        fields=[
            *([name] if store is None else []),
            Field("coolest", "Coolest month", "°C, the mean of that month."),
            Field("warmest", "Warmest month", "°C. Leave it empty when it is the same all year."),
            Field(
                "humidity", "Humidity %", "Of the air: about 50 in a dry room, 65 to 80 in a shed."
            ),
            Field("sealed", "Packets are", "Sealed: in a closed jar or foil.", (OPEN, SEALED)),
            Field("moisture", "Moisture %", "Of the seed sealed here, when you know it."),
            Field("note", "Note", "Anything worth remembering."),
        ],
        save=save,
        initial=_values(store) if store else {},
        draft_key="store" if store is None else f"store {store.id}",
        advice=(
            "Refrigerator about 5 °C, cellar 10 to 15, living room 20. Write what you measured."
            if store is None
            else "New figures hold for the past too. For a new place, add a store and move packets."
        ),
    )


def _values(store: Store) -> Values:
    constant = store.coolest_c == store.warmest_c
    humidity = store.relative_humidity
    return {
        "name": store.name,
        "coolest": f"{store.coolest_c:g}",
        "warmest": "" if constant else f"{store.warmest_c:g}",
        "humidity": "" if humidity is None else f"{humidity * 100:g}",
        "sealed": SEALED if store.sealed else OPEN,
        "moisture": "" if store.sealed_moisture is None else f"{store.sealed_moisture:g}",
        "note": store.note,
    }


def _store_from(values: Values, before: Store, desk: Desk) -> Store:
    reader = FieldReader(values, desk.today)
    coolest, warmest = reader.number("coolest"), reader.number("warmest")
    humidity = reader.number("humidity")
    if coolest is None and "coolest" not in reader.problems:
        reader.fault("coolest", "Say how cool it is: 20 for a living room, 5 for a refrigerator.")
    store = replace(
        before,
        name=reader.text("name") or before.name,
        coolest_c=coolest or 0.0,
        warmest_c=(coolest or 0.0) if warmest is None else warmest,
        relative_humidity=None if humidity is None else humidity / 100,
        sealed=values["sealed"] == SEALED,
        sealed_moisture=reader.number("moisture"),
        note=values["note"].strip(),
    )
    for problem in check_store(store):
        reader.fault(_FIELD_OF_PROBLEM.get(problem.field, problem.field), problem.sentence)
    reader.finish()
    return store


def _added(desk: Desk, s: Store) -> str:
    desk.change(
        lambda tin: add_store(
            tin, s.name, s.coolest_c, s.warmest_c, relative_humidity=s.relative_humidity,
            sealed=s.sealed, sealed_moisture=s.sealed_moisture, note=s.note,
        )
    )  # fmt: skip
    return f"Added the store {s.name}. u takes it back."


def _edited(desk: Desk, before: Store, s: Store) -> str:
    desk.change(
        lambda tin: edit_store(
            tin, before.name, coolest_c=s.coolest_c, warmest_c=s.warmest_c,
            relative_humidity=s.relative_humidity, sealed=s.sealed,
            sealed_moisture=s.sealed_moisture, note=s.note,
        )
    )  # fmt: skip
    return f"Changed the store {s.name}. u takes it back."
