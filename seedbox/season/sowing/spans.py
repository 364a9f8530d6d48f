"""When a crop can be sown in one growing season, by method: dates, before any day is asked for."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from functools import lru_cache
from typing import Final

from seedbox.science.maturity import days_before_to_grow
from seedbox.season.sowing.climate import GardenClimate, GrowingSeason
from seedbox.season.sowing.figures import Hardiness, SowingFigures, Span
from seedbox.season.sowing.overwintering import MILD_FROST_WEEKS, autumn_weeks

# An unheated greenhouse or cold frame gains about so much at both ends of the season; tender
# crops gain less, since it freezes too. Common practice, no source.
COVER_WEEKS: Final = 4.0
COVER_WEEKS_TENDER: Final = 2.0
# They form bulbs by long days: sown late they stay small. Common practice, no source.
LONG_DAY_BULBS: Final = frozenset({"onion_bulb", "shallot"})


class Method(StrEnum):
    """Where seed is sown."""

    INDOORS = "indoors"
    UNDER_COVER = "under cover"
    OUTDOORS = "outdoors"


class Phase(StrEnum):
    """Which of a crop's sowings it is."""

    IN_SEASON = "in season"
    LATER = "later"
    AUTUMN = "to stand the winter"
    NO_FROST = "no frost"


@dataclass(frozen=True, slots=True)
class SowingSpan:
    """First and last day on which a crop can be sown in a way, and the season that sets them."""

    method: Method
    phase: Phase
    opens: date
    closes: date
    season: GrowingSeason


def season_spans(
    figures: SowingFigures, climate: GardenClimate, season: GrowingSeason
) -> tuple[SowingSpan, ...]:
    """Every span of one growing season, methods in order of warmth, phases in order of time.

    The weeks of the growing table close the spring sowing only. Later sowings last while the
    crop still matures before the first autumn frost, at its middle pace, slower in days below
    10 hours. What frost touches is never sown too late for its quickest varieties.
    """
    weeks = {
        Method.INDOORS: figures.indoor_weeks,
        Method.UNDER_COVER: _cover_weeks(figures),
        Method.OUTDOORS: figures.outdoor_weeks,
    }
    spans = [
        span
        for method, span_weeks in weeks.items()
        if span_weeks is not None
        for span in _spans(method, span_weeks, figures, climate, season)
    ]
    return (*spans, *_autumn(figures, climate, season))


def _cover_weeks(figures: SowingFigures) -> Span | None:
    base = figures.outdoor_weeks or figures.set_out_weeks
    if base is None:
        return None
    lead = COVER_WEEKS_TENDER if figures.hardiness.frost_kills else COVER_WEEKS
    return Span(base.low - lead, base.high)


def _spans(
    method: Method,
    weeks: Span,
    figures: SowingFigures,
    climate: GardenClimate,
    season: GrowingSeason,
) -> list[SowingSpan]:
    frost = season.first_frost
    if method is Method.UNDER_COVER:
        frost += timedelta(days=round(7 * COVER_WEEKS))
    opens, closes = season.week(weeks.low), season.week(weeks.high)
    days = figures.days_to_harvest()
    if days is not None and figures.hardiness is not Hardiness.HARDY:
        closes = min(closes, latest_sowing(days.low, climate, frost))
    if closes < opens:
        return []
    found = [SowingSpan(method, Phase.IN_SEASON, opens, closes, season)]
    if days is None or figures.crop_id in LONG_DAY_BULBS:
        return found
    later = latest_sowing(days.mid, climate, frost)
    if later > closes:
        after = closes + timedelta(days=1)
        found.append(SowingSpan(method, Phase.LATER, after, later, season))
    return found


@lru_cache(maxsize=4096)
def latest_sowing(days_needed: float, climate: GardenClimate, frost: date) -> date:
    """Last day from which a crop still has its days of growth before the first autumn frost."""
    before = days_before_to_grow(
        days_needed, lambda day: climate.daylight(frost + timedelta(days=day))
    )
    return frost - timedelta(days=before)


def _autumn(
    figures: SowingFigures, climate: GardenClimate, season: GrowingSeason
) -> list[SowingSpan]:
    weeks = autumn_weeks(figures)
    if weeks is None:
        return []
    opens, closes = (
        season.first_frost + timedelta(days=round(7 * week)) for week in (weeks.low, weeks.high)
    )
    mild = climate.frost_weeks() <= MILD_FROST_WEEKS
    method = Method.OUTDOORS if mild else Method.UNDER_COVER
    return [SowingSpan(method, Phase.AUTUMN, opens, closes, season)]
