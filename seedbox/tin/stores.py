"""Stores: the drawer, the shed, the jar in the refrigerator."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict, fields, replace
from math import isfinite
from typing import Any

from seedbox.errors import BadDataError
from seedbox.problems import Problem
from seedbox.tin.drafts import LONGEST_NOTE, moisture_problem
from seedbox.tin.file import Tin
from seedbox.tin.records import Store
from seedbox.tin.text import clean_line, clean_note

LONGEST_NAME = 80
COLDEST_C, HOTTEST_C = -40.0, 60.0


def add_store(
    tin: Tin,
    name: str,
    coolest_c: float,
    warmest_c: float | None = None,
    *,
    relative_humidity: float | None = None,
    sealed: bool = False,
    sealed_moisture: float | None = None,
    note: str = "",
) -> Store:
    """Adds a store. One temperature is a constant one; two are the coolest and warmest month."""
    warmest = coolest_c if warmest_c is None else warmest_c
    store = _checked(
        tin, Store(0, name, coolest_c, warmest, relative_humidity, sealed, sealed_moisture, note)
    )
    with tin.change(f"Add store {store.name}") as change:
        row_id = change.insert("store", _columns(store))
    return replace(store, id=row_id)


def edit_store(tin: Tin, name: str, /, **changed: Any) -> Store:
    """Changes a store. The new figures hold for the past of the packets in it too: this is for
    putting a wrong figure right. For a new place add a store and move the packets."""
    wrong = sorted(
        changed.keys() - {field.name for field in fields(Store)} | changed.keys() & {"id"}
    )
    if wrong:
        raise BadDataError(f"A store's {', '.join(wrong)} cannot be edited.")
    store = _checked(tin, replace(tin.store(name), **changed))
    with tin.change(f"Edit store {store.name}") as change:
        change.update("store", store.id, _columns(store))
    return store


def remove_store(tin: Tin, name: str) -> None:
    """Removes a store in which no packet ever lay."""
    store = tin.store(name)
    used = tin.database.value(
        "SELECT count(DISTINCT packet_id) FROM storage_period WHERE store_id = ?", (store.id,)
    )
    if used:
        packets = "1 packet lies or lay" if used == 1 else f"{used} packets lie or lay"
        raise BadDataError(f"{packets} in {store.name}, so it stays.")
    with tin.change(f"Remove store {store.name}") as change:
        change.delete("store", store.id)


def check_store(store: Store) -> list[Problem]:
    """Everything wrong with a store by itself, each with its field."""
    found = [*_text_problems(store), *_climate_problems(store)]
    return [Problem(sentence, field=field) for field, sentence in found]


def _checked(tin: Tin, store: Store) -> Store:
    store = replace(store, name=clean_line(store.name), note=clean_note(store.note))
    problems = check_store(store)
    taken = [one for one in tin.stores() if one.name.casefold() == store.name.casefold()]
    if taken and taken[0].id != store.id:
        problems.append(Problem(f"There is a store “{taken[0].name}” already.", field="name"))
    if problems:
        raise BadDataError(" ".join(problem.sentence for problem in problems))
    return store


def _text_problems(store: Store) -> Iterator[tuple[str, str]]:
    if not store.name:
        yield "name", "A store needs a name."
    if len(store.name) > LONGEST_NAME:
        yield "name", f"The store's name has more than {LONGEST_NAME} characters."
    if len(store.note) > LONGEST_NOTE:
        yield "note", f"The note has {len(store.note)} characters; {LONGEST_NOTE} are the most."


def _climate_problems(store: Store) -> Iterator[tuple[str, str]]:
    for field, degrees in (("coolest_c", store.coolest_c), ("warmest_c", store.warmest_c)):
        if not (isfinite(degrees) and COLDEST_C <= degrees <= HOTTEST_C):
            yield (
                field,
                (f"A store of {degrees:g} °C is not between {COLDEST_C:g} and {HOTTEST_C:g} °C."),
            )
    if store.coolest_c > store.warmest_c:
        yield "warmest_c", "The warmest month is colder than the coolest."
    humidity = store.relative_humidity
    if humidity is not None and not 0 <= humidity <= 1:
        yield "relative_humidity", "The humidity must lie between 0 and 100 %."
    if store.sealed_moisture is not None:
        sentence = moisture_problem(store.sealed_moisture)
        if sentence:
            yield "sealed_moisture", sentence


def _columns(store: Store) -> dict[str, Any]:
    columns = asdict(store)
    del columns["id"]
    return {**columns, "sealed": int(store.sealed)}
