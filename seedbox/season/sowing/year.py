"""A crop's year in a garden: when it is sown under glass and outside, set out, harvested."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from typing import Final

from seedbox.science.maturity import days_until_grown
from seedbox.season.sowing import job_constants as c
from seedbox.season.sowing.climate import DAYS_PER_WEEK, GardenClimate, GrowingSeason
from seedbox.season.sowing.figures import Hardiness, SowingFigures, Span
from seedbox.season.sowing.spans import Method, Phase, SowingSpan, season_spans

# Hardy crops stand in the ground after the first autumn frost about so long, half-hardy ones
# through the first light frosts. Common practice, no source.
STANDS_AFTER_FROST_WEEKS: Final = {
    Hardiness.HARDY: 10.0,
    Hardiness.HALF_HARDY: 3.0,
    Hardiness.TENDER: 0.0,
    Hardiness.VERY_TENDER: 0.0,
}
HARVEST_WEEKS: Final = 3.0  # no harvest is shorter: common practice, no source


class Activity(StrEnum):
    """What a stretch of the year is for."""

    INDOORS = "sow indoors"
    UNDER_COVER = "sow under cover"
    OUTDOORS = "sow outdoors"
    SET_OUT = "plant out"
    HARVEST = "harvest"


_SOWN = {
    Method.INDOORS: Activity.INDOORS,
    Method.UNDER_COVER: Activity.UNDER_COVER,
    Method.OUTDOORS: Activity.OUTDOORS,
}


@dataclass(frozen=True, slots=True)
class Stretch:
    """First and last day of an activity. `later` marks sowings after the best weeks."""

    activity: Activity
    first: date
    last: date
    later: bool = False


def crop_year(figures: SowingFigures, climate: GardenClimate, year: int) -> tuple[Stretch, ...]:
    """Every stretch that touches a calendar year, by activity and date; none without frost.

    Harvest runs from the quickest variety of the first sowing to the frost that ends it.
    """
    first, last = date(year, 1, 1), date(year, 12, 31)
    found = [
        stretch
        for season in climate.seasons_around(first)
        for stretch in _season(figures, climate, season)
        if stretch.last >= first and stretch.first <= last
    ]
    order = list(Activity)
    return tuple(sorted(found, key=lambda each: (order.index(each.activity), each.first)))


def _season(figures: SowingFigures, climate: GardenClimate, season: GrowingSeason) -> list[Stretch]:
    spans = season_spans(figures, climate, season)
    sown = [
        Stretch(_SOWN[span.method], span.opens, span.closes, span.phase is Phase.LATER)
        for span in spans
    ]
    set_out = _set_out(figures, spans, season)
    harvest = _harvest(figures, climate, spans, season)
    return [*sown, *(each for each in (set_out, harvest) if each is not None)]


def _set_out(
    figures: SowingFigures, spans: tuple[SowingSpan, ...], season: GrowingSeason
) -> Stretch | None:
    """From the week of the table to the day on which the last pot is large enough."""
    potted = [span for span in spans if span.method is Method.INDOORS]
    if not potted:
        return None
    week = figures.set_out_weeks or Span(*[c.SET_OUT_WEEK[figures.hardiness]] * 2)
    grown = (figures.weeks_to_transplant or c.UNKNOWN_WEEKS).high
    ready = max(span.closes for span in potted) + _weeks(grown)
    return Stretch(
        Activity.SET_OUT, season.week(week.low), max(season.week(week.high), _before(ready, season))
    )


def _before(day: date, season: GrowingSeason) -> date:
    """Nothing is set out after the first autumn frost."""
    return min(day, season.first_frost)


def _harvest(
    figures: SowingFigures,
    climate: GardenClimate,
    spans: tuple[SowingSpan, ...],
    season: GrowingSeason,
) -> Stretch | None:
    spring = [span for span in spans if span.phase is Phase.IN_SEASON]
    days = figures.maturity_days
    if days is None or not spring:
        return None
    start = _growing_from(figures, spring, season)
    taken = days_until_grown(days.low, lambda day: climate.daylight(start + timedelta(days=day)))
    first = start + timedelta(days=taken)
    last = season.first_frost + _weeks(STANDS_AFTER_FROST_WEEKS[figures.hardiness])
    # What takes longer than the season stands through the winter and is cut when it is ready.
    return Stretch(Activity.HARVEST, first, max(last, first + _weeks(HARVEST_WEEKS)))


def _growing_from(figures: SowingFigures, spring: list[SowingSpan], season: GrowingSeason) -> date:
    """The day from which days to maturity count for the first sowing of the season."""
    earliest = min(span.opens for span in spring)
    if not figures.maturity_from_transplanting:
        # The figure is for plants outside: an early start in warmth gains little before them.
        outside = [span.opens for span in spring if span.method is Method.OUTDOORS]
        return min(outside) if outside else earliest
    weeks = (figures.weeks_to_transplant or c.UNKNOWN_WEEKS).low
    out = figures.set_out_weeks.low if figures.set_out_weeks else c.SET_OUT_WEEK[figures.hardiness]
    return max(season.week(out), earliest + _weeks(weeks))


def _weeks(weeks: float) -> timedelta:
    return timedelta(days=round(DAYS_PER_WEEK * weeks))
