"""`store`: the places where packets lie, and how warm and damp they are."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import click

from seedbox.cli.command import group, json_option
from seedbox.cli.lookup import store_among
from seedbox.cli.output import changed, say, say_json
from seedbox.cli.params import SHARE, WORDS, Number
from seedbox.cli.session import Session
from seedbox.cli.tables import Column, room, table
from seedbox.cli.words import climate
from seedbox.errors import UsageError
from seedbox.tin.records import Store

_COLUMNS = (
    Column("store", least=10),
    Column("packets", right=True),
    Column("climate", least=20),
    Column("note", least=8),
)
_DEGREES = Number("degrees C", -40, 60)
_OPTIONS = (
    click.option("--temperature", type=_DEGREES, help="Temperature all year, °C."),
    click.option("--coolest", type=_DEGREES, help="Mean of the coolest month, °C."),
    click.option("--warmest", type=_DEGREES, help="Mean of the warmest month, °C."),
    click.option("--humidity", type=SHARE, help="Relative humidity, %."),
    click.option("--sealed/--open", default=None, help="Whether seed is sealed in it (a jar)."),
    click.option("--moisture", type=Number("per cent", 1, 30), help="Seed moisture if sealed, %."),
    click.option("--note", type=WORDS, help="Anything worth knowing."),
)


def _climate_options(function: Callable[..., Any]) -> Callable[..., Any]:
    for option in reversed(_OPTIONS):
        function = option(function)
    return function


@group("store")
def command() -> None:
    """The places where packets lie: how warm and how damp decides how long seed lives."""


@command.command("add")
@click.argument("name", type=WORDS)
@_climate_options
@json_option
@click.pass_obj
def add(session: Session, /, name: str, as_json: bool, **given: Any) -> None:
    """Add a store called NAME.

    \b
    seedbox store add "kitchen drawer" --coolest 17 --warmest 24 --humidity 55
    seedbox store add jar --temperature 5 --sealed --moisture 6
    """
    from seedbox.tin.stores import add_store

    known = _fields(given)
    if "coolest_c" not in known or "warmest_c" not in known:
        raise UsageError(
            "How warm is it there?", hint="Give --temperature, or both --coolest and --warmest."
        )
    if not known.get("sealed") and "relative_humidity" not in known:
        raise UsageError(
            "How damp is it there?",
            hint="Give --humidity (a heated room has about 40 to 55), or --sealed for a jar.",
        )
    with session.tin(create=True) as tin:
        store = add_store(tin, name, **known)
    changed(
        f"Added the store {store.name}: {climate(store)}.", as_json=as_json, store=_facts(store)
    )


@command.command("edit")
@click.argument("name", type=WORDS)
@click.option("--name", "new_name", type=WORDS, help="Another name for it.")
@_climate_options
@json_option
@click.pass_obj
def edit(session: Session, /, name: str, new_name: str | None, as_json: bool, **given: Any) -> None:
    """Put right what is known of the store NAME.

    This changes the past of every packet in it. Where a place itself changed, add a new store
    and move the packets.
    """
    from seedbox.tin.stores import edit_store

    wanted = _fields(given)
    if new_name:
        wanted["name"] = new_name
    if not wanted:
        raise UsageError("Say what to change.", hint="Read more with: seedbox store edit --help")
    with session.tin() as tin:
        store = edit_store(tin, store_among(tin.stores(), name).name, **wanted)
    changed(f"{store.name} is now: {climate(store)}.", as_json=as_json, store=_facts(store))


@command.command("remove")
@click.argument("name", type=WORDS)
@json_option
@click.pass_obj
def remove(session: Session, name: str, as_json: bool) -> None:
    """Remove the store NAME, in which no packet ever lay."""
    from seedbox.tin.stores import remove_store

    with session.tin() as tin:
        store = store_among(tin.stores(), name)
        remove_store(tin, store.name)
    changed(f"Removed the store {store.name}.", as_json=as_json, store=_facts(store))


@command.command("list", short_help="List the stores and what lies in them.")
@json_option
@click.pass_obj
def list_stores(session: Session, as_json: bool) -> None:
    """List the stores, how many packets lie in each, and how warm and damp it is there."""
    with session.tin() as tin:
        stores = tin.stores()
        inside = [dossier.store.id for dossier in tin.dossiers(False) if dossier.store]
    if as_json:
        say_json([_facts(store) | {"packets": inside.count(store.id)} for store in stores])
    elif not stores:
        say("There is no store yet. Add one with: seedbox store add NAME …")
    else:
        rows = [
            (store.name, str(inside.count(store.id)), climate(store), store.note)
            for store in stores
        ]
        say(*table(_COLUMNS, rows, room()))


def _fields(given: dict[str, Any]) -> dict[str, Any]:
    """The fields of a store that were given. One temperature stands for all the year."""
    constant = given["temperature"]
    if constant is not None and (given["coolest"] is not None or given["warmest"] is not None):
        raise UsageError("Give --temperature, or --coolest and --warmest, not all of them.")
    found = {
        "coolest_c": given["coolest"] if constant is None else constant,
        "warmest_c": given["warmest"] if constant is None else constant,
        "relative_humidity": given["humidity"],
        "sealed": given["sealed"],
        "sealed_moisture": given["moisture"],
        "note": given["note"],
    }
    return {name: value for name, value in found.items() if value is not None}


def _facts(store: Store) -> dict[str, Any]:
    return {
        "name": store.name,
        "coolest_c": store.coolest_c,
        "warmest_c": store.warmest_c,
        "relative_humidity": store.relative_humidity,
        "sealed": store.sealed,
        "sealed_moisture_percent": store.sealed_moisture,
        "note": store.note,
    }
