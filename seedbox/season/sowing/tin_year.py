"""The year of the tin: for each crop the weeks of sowing, planting out and harvest, as data."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from seedbox.season.sowing.climate import GardenClimate
from seedbox.season.sowing.desk import Desk
from seedbox.season.sowing.figures import SowingFigures
from seedbox.season.sowing.garden import GrowingPlace
from seedbox.season.sowing.spans import Method
from seedbox.season.sowing.where import emerging
from seedbox.season.sowing.windows import ways
from seedbox.season.sowing.year import Activity, Stretch, crop_year
from seedbox.tin.records import Kind

# One letter an activity; capitals are the best weeks, small ones later sowings.
LETTERS: Final = {
    Activity.INDOORS: "I",
    Activity.UNDER_COVER: "C",
    Activity.OUTDOORS: "O",
    Activity.SET_OUT: "P",
    Activity.HARVEST: "H",
}
_SOWN: Final = {
    Method.INDOORS: Activity.INDOORS,
    Method.UNDER_COVER: Activity.UNDER_COVER,
    Method.OUTDOORS: Activity.OUTDOORS,
}
_NOTHING = "."
_EVERY_WEEKS = 2  # without frost the warmth of places is looked at so often


@dataclass(frozen=True, slots=True)
class CropYear:
    """One crop: its stretches, and for each week of the year what they make of it.

    `weeks` has for each activity a text of one letter a week: a capital, a small letter for
    later sowings, or a point.
    """

    crop_id: str
    crop: str
    stretches: tuple[Stretch, ...]
    weeks: dict[Activity, str]


@dataclass(frozen=True, slots=True)
class TinYear:
    """A calendar year. `starts` are the Mondays of its 52 or 53 weeks (ISO 8601)."""

    year: int
    starts: tuple[date, ...]
    crops: tuple[CropYear, ...]


def tin_year(desk: Desk, year: int, *, crop_id: str = "") -> TinYear:
    """The year of every crop of which the tin has seed, by name."""
    starts = week_starts(year)
    climate = desk.garden.climate
    if climate is None:
        return TinYear(year, starts, ())
    rows = []
    for each in sorted(_crops(desk)):
        figures = desk.facts.figures(each)
        if figures is None or crop_id not in ("", each):
            continue
        stretches = _stretches(desk, figures, climate, starts)
        weeks = {activity: strip(stretches, activity, starts) for activity in Activity}
        rows.append(CropYear(each, desk.listing.book.name(each), stretches, weeks))
    return TinYear(year, starts, tuple(sorted(rows, key=lambda row: row.crop.casefold())))


def week_starts(year: int) -> tuple[date, ...]:
    """Mondays of the weeks of a year by ISO 8601: 52 of them, or 53."""
    last = date(year, 12, 28).isocalendar().week  # 28 December lies in the last week
    return tuple(date.fromisocalendar(year, week, 1) for week in range(1, last + 1))


def strip(stretches: Iterable[Stretch], activity: Activity, starts: Sequence[date]) -> str:
    """A letter for each week that has a day of the activity, a point for the others."""
    own = [each for each in stretches if each.activity is activity]
    return "".join(_letter(own, activity, start) for start in starts)


def _letter(stretches: Sequence[Stretch], activity: Activity, start: date) -> str:
    end = start + timedelta(days=6)
    touching = [each for each in stretches if each.first <= end and each.last >= start]
    if not touching:
        return _NOTHING
    letter = LETTERS[activity]
    return letter.lower() if all(each.later for each in touching) else letter


def _crops(desk: Desk) -> set[str]:
    return {
        line.packet.crop_id
        for line in desk.listing.lines
        if line.packet.kind is Kind.SEED and not line.is_empty
    }


def _stretches(
    desk: Desk, figures: SowingFigures, climate: GardenClimate, starts: Sequence[date]
) -> tuple[Stretch, ...]:
    if not climate.frost_free:
        year = starts[0] + timedelta(days=3)  # the first Thursday names the year
        return crop_year(figures, climate, year.year)
    return _by_warmth(desk, figures, climate, starts)


def _by_warmth(
    desk: Desk, figures: SowingFigures, climate: GardenClimate, starts: Sequence[date]
) -> tuple[Stretch, ...]:
    """Without frost: the weeks in which a place of each sort is warm enough, and not too warm."""
    may = {way.method for way in ways(figures, climate, desk.today) if way.open}
    found: list[Stretch] = []
    for method in Method:
        places = [place for place in desk.garden.places if place.method is method]
        if method in may and places:
            found += _warm_stretches(desk, figures, places, starts)
    return tuple(found)


def _warm_stretches(
    desk: Desk, figures: SowingFigures, places: Sequence[GrowingPlace], starts: Sequence[date]
) -> list[Stretch]:
    model, activity = desk.facts.model(figures.crop_id), _SOWN[places[0].method]
    looked = starts[::_EVERY_WEEKS]
    good = [
        any(emerging(model, place.spot.warmth, start).verdict.sows for place in places)
        for start in looked
    ]
    found: list[Stretch] = []
    for start, fits in zip(looked, good, strict=True):
        end = start + timedelta(weeks=_EVERY_WEEKS, days=-1)
        if not fits:
            continue
        if found and found[-1].last == start - timedelta(days=1):
            found[-1] = Stretch(activity, found[-1].first, end)
        else:
            found.append(Stretch(activity, start, end))
    return found
