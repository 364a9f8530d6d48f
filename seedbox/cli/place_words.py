"""Places of the garden as words, and as facts for JSON."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from seedbox.cli.words import number
from seedbox.tin.garden_records import Place

if TYPE_CHECKING:
    from seedbox.season.sowing.garden import GrowingPlace


def warmth(place: Place) -> str:
    """How warm its soil or compost is through the year.

    >>> from seedbox.tin.garden_records import PlaceKind
    >>> warmth(Place(1, "sill", PlaceKind.WINDOWSILL, True, 18.0, 18.0))
    '18 °C'
    """
    if place.months_c:
        ends = f"{number(place.coolest_c)} to {number(place.warmest_c)} °C"
        return f"{ends}, month by month"
    if place.coolest_c == place.warmest_c:
        return f"{number(place.coolest_c)} °C"
    return f"{number(place.coolest_c)} to {number(place.warmest_c)} °C over the year"


def light(place: Place) -> str:
    """The light as it was entered; empty where nobody measured it."""
    if place.ppfd is None or place.light_hours is None:
        return ""
    return f"{number(place.ppfd)} µmol/m²s, {number(place.light_hours)} h"


def told(place: GrowingPlace) -> str:
    """A place in one sentence."""
    record = place.record
    parts = [record.kind.value, place.method.value, warmth(record), place.light_sentence()]
    return ", ".join(filter(None, parts))


def facts(place: Place) -> dict[str, Any]:
    """A place for JSON."""
    return {
        "name": place.name,
        "kind": place.kind,
        "covered": place.covered,
        "coolest_c": place.coolest_c,
        "warmest_c": place.warmest_c,
        "months_c": place.months_c or None,
        "ppfd": place.ppfd,
        "light_hours": place.light_hours,
        "note": place.note,
    }
