"""`garden`: frosts, latitude and region, which decide when a crop can be sown."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.described import HOW_TO_SET
from seedbox.cli.output import changed, say, say_json
from seedbox.cli.params import WORDS, Number
from seedbox.cli.session import Session
from seedbox.cli.tables import fields, wrapped
from seedbox.cli.words import count

if TYPE_CHECKING:
    from seedbox.season.sowing.garden import Garden
    from seedbox.tin.file import Tin
    from seedbox.tin.preferences import Settings

_SETTINGS = ("region", "assurance", "tray_cells", "cell_depth_cm", "hardening_days")


@seedbox_command("garden")
@click.option("--last-frost", type=WORDS, help="Average last frost of spring, as 04-25, or none.")
@click.option("--first-frost", type=WORDS, help="Average first frost of autumn, or none.")
@click.option("--latitude", type=Number("degrees", -90, 90), help="Latitude, south negative.")
@click.option("--name", type=WORDS, help="What the garden is called.")
@click.option("--region", type=WORDS, help="Whose minimum standards for seed hold: eu or us.")
@click.option("--assurance", type=WORDS, help="How sure a sowing should be, such as 0.9.")
@click.option("--tray-cells", type=WORDS, help="How many cells your trays have.")
@click.option("--cell-depth", "cell_depth_cm", type=WORDS, help="How deep the cells are, in cm.")
@click.option("--hardening-days", type=WORDS, help="Days for which you harden plants off.")
@json_option
@click.pass_obj
def command(session: Session, /, as_json: bool, **given: Any) -> None:
    """Show the garden, or say when its frosts are and where it lies.

    Ask a neighbour for the frosts: the average last one of spring, and the average first one
    of autumn. Where frost never comes, say none for both.

    \b
    seedbox garden --last-frost "25 April" --first-frost "25 October" --latitude 52
    """
    wanted = {name: value for name, value in given.items() if value is not None}
    if wanted:
        with session.tin(create=True) as tin:
            _set(tin, wanted)
            page = list(_page(tin))
            facts = _facts(tin)
        if as_json:
            changed("The garden was described.", as_json=True, **facts)
        else:
            say(*page, "Undo with: seedbox undo")
        return
    with session.tin() as tin:
        page, facts = list(_page(tin)), _facts(tin)
    say_json(facts) if as_json else say(*page)


def _set(tin: Tin, wanted: dict[str, Any]) -> None:
    from seedbox.cli.garden_lookup import day_of_year
    from seedbox.season.sowing.garden import set_garden
    from seedbox.tin.settings import set_setting

    days = {
        name: day_of_year(wanted[name]) for name in ("last_frost", "first_frost") if name in wanted
    }
    latitude = f"{wanted['latitude']:g}" if "latitude" in wanted else None
    with tin.change("Describe the garden"):
        set_garden(
            tin,
            last_spring_frost=days.get("last_frost"),
            first_autumn_frost=days.get("first_frost"),
            latitude=latitude,
            name=wanted.get("name"),
        )
        for name in _SETTINGS:
            if name in wanted:
                set_setting(tin, name, wanted[name])


def _page(tin: Tin) -> list[str]:
    from seedbox.season.sowing.garden import read_garden

    settings = tin.settings()
    garden = read_garden(tin, settings)
    return [
        *fields(
            [
                ("garden", garden.name),
                ("last frost of spring", _frost(settings.last_spring_frost)),
                ("first frost of autumn", _frost(settings.first_autumn_frost)),
                ("between them", _between(garden)),
                ("latitude", _latitude(settings.latitude)),
                ("standards of", settings.region.upper()),
                ("trays", f"{settings.tray_cells:g} cells, {settings.cell_depth_cm:g} cm deep"),
                ("sown so as to be", f"{settings.assurance:.0%}".replace("%", " %") + " sure"),
                ("hardened off for", count(round(settings.hardening_days), "day")),
                ("places", _named(garden)),
                ("plans", f"{len(garden.plans)} (seedbox plan list)" if garden.plans else "none"),
            ]
        ),
        *_missing(garden),
    ]


def _missing(garden: Garden) -> list[str]:
    if not garden.missing:
        return []
    lines = ["", *(line for said in garden.missing for line in wrapped(said))]
    return lines if garden.climate else [*lines, f"All at once: {HOW_TO_SET}"]


def _frost(setting: str) -> str:
    from datetime import date

    from seedbox.cli.words import day_of_month

    if not setting:
        return "not said yet"
    if setting == "none":
        return "none: frost never comes"
    return f"about {day_of_month(date.fromisoformat(f'2001-{setting}'))}"


def _between(garden: Garden) -> str:
    from datetime import date

    climate = garden.climate
    if climate is None or climate.last_spring_frost is None:
        return ""
    season = climate.season_of(climate.last_spring_frost.in_year(date.today().year))
    return count(season.frost_free_days, "day")


def _latitude(setting: str) -> str:
    if not setting:
        return "not said yet"
    degrees = float(setting)
    side = "north" if degrees > 0 else "south" if degrees < 0 else "on the equator"
    return f"{abs(degrees):g}° {side}"


def _named(garden: Garden) -> str:
    names = [place.name for place in garden.places]
    return ", ".join(names) if names else "none"


def _facts(tin: Tin) -> dict[str, Any]:
    from seedbox.season.sowing.garden import read_garden

    settings: Settings = tin.settings()
    garden = read_garden(tin, settings)
    return {
        "name": garden.name,
        "last_spring_frost": settings.last_spring_frost or None,
        "first_autumn_frost": settings.first_autumn_frost or None,
        "latitude": float(settings.latitude) if settings.latitude else None,
        "region": settings.region,
        "assurance": settings.assurance,
        "tray_cells": round(settings.tray_cells),
        "cell_depth_cm": settings.cell_depth_cm,
        "hardening_days": round(settings.hardening_days),
        "places": [place.name for place in garden.places],
        "plans": len(garden.plans),
        "missing": garden.missing,
    }
