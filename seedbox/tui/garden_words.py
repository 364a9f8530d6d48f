"""The garden, its places and plans in words."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from seedbox.season.sowing.climate import spoken
from seedbox.season.sowing.garden import Garden, GrowingPlace
from seedbox.season.sowing.needs import Need
from seedbox.tin.garden_records import Place, Plan
from seedbox.tin.preferences import Settings
from seedbox.tui.columns import Column
from seedbox.tui.sowing_words import counted
from seedbox.tui.virtual_list import Row

PLACES = (
    Column("name", "Place", 18, most=30),
    Column("kind", "What it is", 17, from_width=72),
    Column("how", "Sown there", 11),
    Column("warmth", "Soil or compost", 15, most=34),
    Column("light", "Light", 9, most=26),
    Column("note", "Note", 10, most=60, from_width=110),
)
PLANS = (
    Column("crop", "Crop", 14, most=24),
    Column("variety", "Variety", 10, most=26),
    Column("plants", "Plants", 6, right=True),
    Column("again", "Sow again", 13, from_width=72),
    Column("year", "Year", 5, from_width=72),
    Column("now", "So far", 20, most=50),
    Column("note", "Note", 10, most=40, from_width=110),
)
_COMMON_YEAR = 2001


def garden_words(settings: Settings, garden: Garden) -> tuple[str, ...]:
    """Frosts, latitude and region; then trays; then what is still to be said."""
    name = f"{settings.garden_name}: " if settings.garden_name else ""
    last, first = settings.last_spring_frost, settings.first_autumn_frost
    where = (
        f"{name or 'Your garden: '}last frost {_frost(last)}, first frost {_frost(first)},"
        f" latitude {latitude_words(settings.latitude)}, standards of {settings.region.upper()}."
    )
    trays = (
        f"Trays of {settings.tray_cells:g} cells, {settings.cell_depth_cm:g} cm deep. Sown so as"
        f" to be {settings.assurance:.0%} sure. Hardened off for"
        f" {counted(round(settings.hardening_days), 'day')}."
    ).replace("% sure", " % sure")
    return (where, trays, *missing_words(garden))


def missing_words(garden: Garden) -> tuple[str, ...]:
    """What to set first, by the keys of this tab."""
    said = []
    if garden.climate is None:
        said.append("Say the frosts and the latitude first: press f.")
    if not garden.places:
        said.append(
            "Then add the places where you sow: press a."
            if said
            else "Press a to add the places where you sow."
        )
    return tuple(said)


def _frost(setting: str) -> str:
    if not setting:
        return "not said yet"
    if setting == "none":
        return "never"
    return f"about {spoken(date.fromisoformat(f'{_COMMON_YEAR}-{setting}'))}"


def latitude_words(setting: str) -> str:
    """Degrees and the half of the world.

    >>> latitude_words("52"), latitude_words("-37.5"), latitude_words("")
    ('52° north', '37.5° south', 'not said yet')
    """
    if not setting:
        return "not said yet"
    degrees = float(setting)
    side = " north" if degrees > 0 else " south" if degrees < 0 else ", the equator"
    return f"{abs(degrees):g}°{side}"


def place_row(place: GrowingPlace) -> Row:
    """One place as the texts of its columns."""
    record = place.record
    return (
        record.name,
        record.kind.value,
        place.method.value,
        warmth_words(record),
        _light(record),
        record.note,
    )


def warmth_words(place: Place) -> str:
    """How warm its soil or compost is through the year."""
    if place.coolest_c == place.warmest_c:
        return f"{place.coolest_c:g} °C"
    return f"{place.coolest_c:g} to {place.warmest_c:g} °C"


def _light(place: Place) -> str:
    return "" if place.ppfd is None else f"{place.ppfd:g}, {place.light_hours:g} h"


def place_words(place: GrowingPlace, today: date) -> str:
    """What a place is good for, today's warmth, its light."""
    now = f"{place.name}: sown {place.method.value}. Now about {place.spot.warmth.on(today):.0f} °C"
    months = " (by its twelve monthly figures)" if place.record.months_c else ""
    light = place.light_sentence()
    told = f" Light {light}." if light else " Its light was never measured."
    note = f" {place.record.note}" if place.record.note else ""
    return f"{now}{months}.{told}{note}"


def plan_row(plan: Plan, crop: str, need: Need | None) -> Row:
    """One plan as the texts of its columns."""
    return (
        crop,
        plan.variety or "any",
        str(plan.plants),
        f"after {counted(plan.again_days, 'day')}" if plan.again_days else "once",
        str(plan.year) if plan.year else "every",
        so_far(need),
        plan.note,
    )


def so_far(need: Need | None) -> str:
    """How a plan stands, without repeating it; empty where it does not hold now."""
    return "" if need is None else need.words().partition(": ")[2] or "met"


def need_of(plan: Plan, needs: Sequence[Need]) -> Need | None:
    """How a plan stands in the season of the day."""
    return next((need for need in needs if need.plan.id == plan.id), None)


def plan_words(plan: Plan, crop: str, need: Need | None) -> str:
    """A plan in a sentence, and how it stands."""
    what = f"{crop} {plan.variety}".strip()
    again = f", sown again every {counted(plan.again_days, 'day')}" if plan.again_days else ""
    year = f"for the season of {plan.year}" if plan.year else "every season"
    stands = f" So far: {so_far(need)}." if need else ""
    note = f" {plan.note}" if plan.note else ""
    return f"{what}: {counted(plan.plants, 'plant')}{again}; {year}.{stands}{note}"
