"""What of a whole tin stands by itself: of stores, own crops, plans and wants what the tin lacks.

What the tin has already stays as it is; where the two differ, a note says so.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from seedbox.tin.exchange import entries
from seedbox.tin.exchange.entries import Gathered, sheet_of
from seedbox.tin.exchange.garden_entries import read_places, read_plans
from seedbox.tin.exchange.list_entries import read_wants
from seedbox.tin.exchange.table import Table
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import Place, Plan
from seedbox.tin.list_records import Want
from seedbox.tin.preferences import parse_setting
from seedbox.tin.records import OwnCrop, Store
from seedbox.tin.wants import want_key


def new_stores(
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


def new_own_crops(
    tin: Tin, tables: Mapping[str, Table], gathered: Gathered
) -> tuple[list[OwnCrop], dict[str, OwnCrop]]:
    read = entries.read_own_crops(sheet_of(tables, "own_crops"))
    gathered.take_in(read.sheet)
    known = {crop.id: crop for crop in tin.own_crops()}
    adding = [crop for (crop,) in read.sound() if crop.id not in known]
    return adding, known | {crop.id: crop for crop in adding}


def new_figures(tin: Tin, tables: Mapping[str, Table], gathered: Gathered) -> list[Any]:
    read = entries.read_own_figures(sheet_of(tables, "own_figures"))
    gathered.take_in(read.sheet)
    known = {(one.crop_id, one.figure) for one in tin.own_figures()}
    return [one for (one,) in read.sound() if (one.crop_id, one.figure) not in known]


def new_settings(
    tin: Tin, tables: Mapping[str, Table], gathered: Gathered, notes: list[str]
) -> list[tuple[str, str]]:
    read = entries.read_settings(sheet_of(tables, "settings"), parse_setting)
    gathered.take_in(read.sheet)
    known: dict[str, str] = dict(tin.database.rows("SELECT name, value FROM setting"))
    for name, value in read.sound():
        if known.get(name, value) != value:
            notes.append(f"The setting {name} stays {known[name]}, as it is in the tin.")
    return [(name, value) for name, value in read.sound() if name not in known]


def new_places(
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


def new_plans(tin: Tin, tables: Mapping[str, Table], gathered: Gathered) -> list[Plan]:
    read = read_plans(sheet_of(tables, "plans"))
    gathered.take_in(read.sheet)
    known = {(plan.crop_id, plan.variety.casefold(), plan.year) for plan in tin.plans()}
    plans = [plan for (plan,) in read.sound()]
    return [one for one in plans if (one.crop_id, one.variety.casefold(), one.year) not in known]


def new_wants(tin: Tin, tables: Mapping[str, Table], gathered: Gathered) -> list[Want]:
    """Wants of a crop and variety that the tin has no want of."""
    read = read_wants(sheet_of(tables, "wants"))
    gathered.take_in(read.sheet)
    known = {want_key(want) for want in tin.wants()}
    return [want for (want,) in read.sound() if want_key(want) not in known]
