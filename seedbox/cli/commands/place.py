"""`place`: where things grow, how warm it is there, and how light."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import click

from seedbox.cli import completing
from seedbox.cli.command import group, json_option
from seedbox.cli.garden_lookup import place_among
from seedbox.cli.output import changed, say, say_json
from seedbox.cli.params import WORDS, Choice, Number, read_number
from seedbox.cli.place_words import facts, light, told, warmth
from seedbox.cli.session import Session
from seedbox.cli.tables import Column, room, table
from seedbox.errors import UsageError
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import Place, PlaceKind

KIND = Choice("kind", tuple(kind.value for kind in PlaceKind))
_DEGREES = Number("degrees C", -40, 50)
_COLUMNS = (
    Column("place", least=10),
    Column("kind", least=8),
    Column("sown"),
    Column("soil or compost", least=12),
    Column("light", least=8),
    Column("note", least=8),
)
_OPTIONS = (
    click.option("--temperature", type=_DEGREES, help="Temperature all year, °C."),
    click.option("--coolest", type=_DEGREES, help="Mean of the coolest month, °C."),
    click.option("--warmest", type=_DEGREES, help="Mean of the warmest month, °C."),
    click.option("--months", type=WORDS, help='Twelve monthly means from January, as "4 4 6 …".'),
    click.option("--covered/--open", default=None, help="Whether it has a roof of some sort."),
    click.option("--light", type=Number("PPFD", 0, 2500), help="Light, µmol/m²s (PPFD)."),
    click.option("--hours", type=Number("hours", 0, 24), help="Hours of that light a day."),
    click.option("--note", type=WORDS, help="Anything worth knowing."),
)


def _warmth_options(function: Callable[..., Any]) -> Callable[..., Any]:
    for option in reversed(_OPTIONS):
        function = option(function)
    return function


@group("place")
def command() -> None:
    """The places where things grow: how warm they are decides what comes up there, and when."""


@command.command("add")
@click.argument("name", type=WORDS)
@click.option("--kind", type=KIND, required=True, help=f"One of: {', '.join(KIND.words)}.")
@_warmth_options
@json_option
@click.pass_obj
def add(session: Session, /, name: str, kind: str, as_json: bool, **given: Any) -> None:
    """Add a place called NAME. Temperatures are those of the soil or compost there.

    \b
    seedbox place add "kitchen sill" --kind windowsill --temperature 18
    seedbox place add bed --kind bed --months "4 4 6 9 13 16 18 18 15 11 7 5"
    seedbox place add lamp --kind "lit shelf" --temperature 20 --light 200 --hours 16
    """
    from seedbox.tin.places import add_place

    known = _fields(given)
    if not known.keys() & {"months_c", "coolest_c"} or _half(known):
        raise UsageError(
            "How warm is it there?",
            hint="Give --temperature, or both --coolest and --warmest, or --months. "
            "Lay a thermometer in a tray or in the soil.",
        )
    with session.tin(create=True) as tin:
        place = add_place(tin, name, PlaceKind(kind), **known)
        sentence = _told(tin, place)
    changed(f"Added {place.name}: {sentence}.", as_json=as_json, place=facts(place))


@command.command("edit")
@click.argument("name", type=WORDS, shell_complete=completing.places)
@click.option("--name", "new_name", type=WORDS, help="Another name for it.")
@click.option("--kind", type=KIND, help="What sort of place it is.")
@_warmth_options
@json_option
@click.pass_obj
def edit(session: Session, /, name: str, as_json: bool, **given: Any) -> None:
    """Put right what is known of the place NAME."""
    from seedbox.tin.places import edit_place

    wanted = _fields(given)
    if given["new_name"]:
        wanted["name"] = given["new_name"]
    if given["kind"]:
        wanted["kind"] = PlaceKind(given["kind"])
    if not wanted:
        raise UsageError("Say what to change.", hint="Read more with: seedbox place edit --help")
    with session.tin() as tin:
        place = edit_place(tin, place_among(tin.places(), name).name, **wanted)
        sentence = _told(tin, place)
    changed(f"{place.name} is now: {sentence}.", as_json=as_json, place=facts(place))


@command.command("remove")
@click.argument("name", type=WORDS, shell_complete=completing.places)
@json_option
@click.pass_obj
def remove(session: Session, name: str, as_json: bool) -> None:
    """Remove the place NAME, in which nothing was ever sown."""
    from seedbox.tin.places import remove_place

    with session.tin() as tin:
        place = place_among(tin.places(), name)
        remove_place(tin, place.name)
    changed(f"Removed the place {place.name}.", as_json=as_json, place=facts(place))


@command.command("list", short_help="List the places, how warm and how light they are.")
@json_option
@click.pass_obj
def list_places(session: Session, as_json: bool) -> None:
    """List the places, how one sows there, how warm they are, and what their light means."""
    from seedbox.season.sowing.garden import read_garden

    with session.tin() as tin:
        places = read_garden(tin).places
    if as_json:
        say_json(
            [
                {
                    **facts(place.record),
                    "method": place.method,
                    "daily_light": place.light_sentence() or None,
                }
                for place in places
            ]
        )
    elif not places:
        say("There is no place yet. Add one with: seedbox place add NAME --kind windowsill …")
    else:
        rows = [
            (
                place.name,
                place.record.kind.value,
                place.method.value,
                warmth(place.record),
                place.light_sentence() or light(place.record),
                place.record.note,
            )
            for place in places
        ]
        say(*table(_COLUMNS, rows, room()))


def _told(tin: Tin, place: Place) -> str:
    from seedbox.season.sowing.garden import growing_place, is_southern

    return told(growing_place(place, southern=is_southern(tin.settings())))


def _half(known: dict[str, Any]) -> bool:
    """Whether only one end of the year's temperatures was given."""
    return "months_c" not in known and ("coolest_c" in known) != ("warmest_c" in known)


def _fields(given: dict[str, Any]) -> dict[str, Any]:
    """The fields of a place that were given. One temperature stands for all the year."""
    constant, ends = given["temperature"], (given["coolest"], given["warmest"])
    ways = [constant is not None, ends != (None, None), given["months"] is not None]
    if sum(ways) > 1:
        raise UsageError("Give --temperature, or --coolest and --warmest, or --months: only one.")
    found = {
        "coolest_c": ends[0] if constant is None else constant,
        "warmest_c": ends[1] if constant is None else constant,
        "months_c": _months(given["months"]),
        "covered": given["covered"],
        "ppfd": given["light"],
        "light_hours": given["hours"],
        "note": given["note"],
    }
    return {name: value for name, value in found.items() if value is not None}


def _months(text: str | None) -> tuple[float, ...] | None:
    if text is None:
        return None
    parts = text.replace(";", " ").split()
    try:
        found = tuple(read_number(part) for part in parts)
    except ValueError as error:
        raise UsageError(f"--months: {error}") from None
    if len(found) != 12:
        raise UsageError(f"--months wants twelve temperatures from January on, not {len(found)}.")
    return found
