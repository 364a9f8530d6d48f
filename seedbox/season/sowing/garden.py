"""The garden as the tin tells it: climate, places, plans, and what must be said first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from seedbox.errors import BadDataError
from seedbox.season.sowing import place as spots
from seedbox.season.sowing.climate import GardenClimate, MonthDay
from seedbox.season.sowing.spans import Method
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import Place, PlaceKind, Plan
from seedbox.tin.preferences import Settings
from seedbox.tin.settings import set_setting

_NONE = "none"


@dataclass(frozen=True, slots=True)
class GrowingPlace:
    """A place of the tin with its warmth and light through the year."""

    record: Place
    spot: spots.Place

    @property
    def id(self) -> int:
        return self.record.id

    @property
    def name(self) -> str:
        return self.record.name

    @property
    def method(self) -> Method:
        """How one sows there."""
        return self.spot.method

    def light_sentence(self) -> str:
        """What its light means for seedlings; empty where nobody measured it."""
        found = self.spot.light()
        return "" if found is None else f"{found[0]:.1f} mol/m² a day: {found[1].value}"


@dataclass(frozen=True, slots=True)
class Garden:
    """Climate (None until the garden has said its frosts and latitude), places and plans.

    `missing` says what to set first, each in a sentence.
    """

    name: str
    climate: GardenClimate | None
    places: tuple[GrowingPlace, ...]
    plans: tuple[Plan, ...]
    missing: tuple[str, ...]

    def place_by_id(self, place_id: int) -> GrowingPlace:
        return next(place for place in self.places if place.id == place_id)

    def places_for(self, method: Method) -> tuple[GrowingPlace, ...]:
        """Where one sows in that way, by name."""
        return tuple(place for place in self.places if place.method is method)


def read_garden(tin: Tin, settings: Settings | None = None) -> Garden:
    """The garden of a tin."""
    settings = settings or tin.settings()
    climate, missing = _climate(settings)
    southern = is_southern(settings)
    places = tuple(growing_place(one, southern=southern) for one in tin.places())
    if not places:
        missing = (*missing, "Add a place where you sow, with its temperature: seedbox place add.")
    return Garden(settings.garden_name, climate, places, tuple(tin.plans()), missing)


def growing_place(record: Place, *, southern: bool) -> GrowingPlace:
    """A place of the tin as the season reckons with it."""
    warmth = (
        spots.Warmth(record.months_c)
        if record.months_c
        else spots.between(record.coolest_c, record.warmest_c, southern=southern)
    )
    spot = spots.Place(record.name, method_of(record), warmth, record.ppfd, record.light_hours)
    return GrowingPlace(record, spot)


def method_of(record: Place) -> Method:
    """Indoors, under cover or outdoors, by what sort of place it is."""
    if record.kind.indoors:
        return Method.INDOORS
    if record.kind is PlaceKind.BED and not record.covered:
        return Method.OUTDOORS
    return Method.UNDER_COVER if record.covered else Method.OUTDOORS


def is_southern(settings: Settings) -> bool:
    """Whether the year is turned: by latitude, else by the setting `hemisphere`."""
    if settings.latitude:
        return float(settings.latitude) < 0
    return settings.hemisphere == "south"


def set_garden(
    tin: Tin,
    *,
    last_spring_frost: str | None = None,
    first_autumn_frost: str | None = None,
    latitude: str | None = None,
    name: str | None = None,
) -> Garden:
    """Says the garden's frosts (days such as 04-25, or `none`), latitude and name, as one change.

    What is left out stays. Frosts that do not go together are refused.
    """
    given = {
        "last_spring_frost": last_spring_frost,
        "first_autumn_frost": first_autumn_frost,
        "latitude": latitude,
        "garden_name": name,
    }
    if _NONE in (last_spring_frost, first_autumn_frost):
        given |= _without_frost(last_spring_frost, first_autumn_frost)
    with tin.change("Describe the garden"):
        for setting, text in given.items():
            if text is not None:
                set_setting(tin, setting, text)
        _climate(tin.settings())
    return read_garden(tin)


def _without_frost(*frosts: str | None) -> dict[str, str | None]:
    """A garden without one frost has no other."""
    if any(frost not in (None, "", _NONE) for frost in frosts):
        raise BadDataError(
            "A garden has a last spring frost and a first autumn frost, or neither: give both, or"
            " none."
        )
    return {"last_spring_frost": _NONE, "first_autumn_frost": _NONE}


def _climate(settings: Settings) -> tuple[GardenClimate | None, tuple[str, ...]]:
    missing = tuple(_missing(settings))
    if missing:
        return None, missing
    latitude = float(settings.latitude)
    if settings.last_spring_frost == _NONE:
        return GardenClimate(None, None, latitude), ()
    last, first = _day(settings.last_spring_frost), _day(settings.first_autumn_frost)
    return GardenClimate(last, first, latitude), ()


def _missing(settings: Settings) -> list[str]:
    said = []
    frosts = {
        "last spring frost": settings.last_spring_frost,
        "first autumn frost": settings.first_autumn_frost,
    }
    for name, value in frosts.items():
        if not value:
            setting = name.replace(" ", "_")
            said.append(
                f"Say when the {name} is on average, such as seedbox settings {setting} MM-DD"
                " (none where frost never comes)."
            )
    if not said and len({value == _NONE for value in frosts.values()}) == 2:
        said.append(
            "Only one of the two frosts is none: a garden has both, or neither. Set them again."
        )
    if not settings.latitude:
        said.append(
            "Say the garden's latitude in degrees, south negative: seedbox settings latitude 52."
        )
    return said


def _day(text: str) -> MonthDay:
    month, day = text.split("-")
    return MonthDay(int(month), int(day))


def season_of(climate: GardenClimate, on: date) -> tuple[int, date]:
    """The growing season to which a sowing belongs: its year, and the day after which it counts.

    A season runs from one first autumn frost to the next, and has the year of its last spring
    frost; without frost it is the calendar year.
    """
    for season in reversed(climate.seasons_around(on)):
        start = climate.season_of(_year_before(season.last_frost)).first_frost
        if start < on <= season.first_frost:
            return season.last_frost.year, start
    if climate.frost_free:
        return on.year, date(on.year - 1, 12, 31)
    following = climate.seasons_around(on)[-1]
    return following.last_frost.year, on


def _year_before(day: date) -> date:
    return day.replace(year=day.year - 1)


def own_figures_by_crop(tin: Tin) -> Mapping[str, dict[str, str]]:
    """A person's own figures, by crop and name."""
    own: dict[str, dict[str, str]] = {}
    for one in tin.own_figures():
        own.setdefault(one.crop_id, {})[one.figure] = one.value
    return own
