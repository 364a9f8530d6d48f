"""Which ways of sowing a crop are open in a garden on a day, and why the others are not."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from seedbox.season.sowing.climate import DAYS_PER_WEEK, GardenClimate, spoken, weeks_text
from seedbox.season.sowing.figures import SowingFigures
from seedbox.season.sowing.spans import LONG_DAY_BULBS, Method, Phase, SowingSpan, season_spans

_BEST_FIRST = (Phase.IN_SEASON, Phase.AUTUMN, Phase.LATER)
_TOO_SHORT = "the season between the frosts is too short for it to mature"


@dataclass(frozen=True, slots=True)
class Way:
    """One method on one day. Closed: `opens` is the next opening, None when there is none.

    `closes` is the last day of the span that is open, or that opens next; `later_until` the last
    day of the later sowings that follow on it, if any. A garden without frost has no dates: the
    warmth of the place decides.
    """

    method: Method
    open: bool
    phase: Phase | None
    opens: date | None
    closes: date | None
    reason: str
    later_until: date | None = None

    def days_left(self, on: date) -> int | None:
        """Days until an open way closes; None when it is closed or never closes."""
        return (self.closes - on).days if self.open and self.closes is not None else None


def ways(figures: SowingFigures, climate: GardenClimate, on: date) -> tuple[Way, ...]:
    """Indoors, under cover and outdoors, each open or closed on a day, with the reason."""
    if climate.frost_free:
        return tuple(_without_frost(method, figures) for method in Method)
    spans = [
        span
        for season in climate.seasons_around(on)
        for span in season_spans(figures, climate, season)
    ]
    return tuple(
        _way(method, [span for span in spans if span.method is method], figures, on)
        for method in Method
    )


def open_ways(figures: SowingFigures, climate: GardenClimate, on: date) -> tuple[Way, ...]:
    """Those that are open, without the rest."""
    return tuple(way for way in ways(figures, climate, on) if way.open)


def year_spans(figures: SowingFigures, climate: GardenClimate, year: int) -> tuple[SowingSpan, ...]:
    """Spans that touch a calendar year, for a strip of weeks; none without frost."""
    first, last = date(year, 1, 1), date(year, 12, 31)
    found = [
        span
        for season in climate.seasons_around(first)
        for span in season_spans(figures, climate, season)
        if span.closes >= first and span.opens <= last
    ]
    return tuple(sorted(found, key=lambda span: (span.opens, span.method)))


def _without_frost(method: Method, figures: SowingFigures) -> Way:
    never = _never(method, figures)
    if never:
        return Way(method, False, None, None, None, never)
    return Way(
        method, True, Phase.NO_FROST, None, None, "no frost here: the warmth of the place decides"
    )


def _never(method: Method, figures: SowingFigures) -> str:
    if method is Method.INDOORS and figures.indoor_weeks is None:
        if figures.dislikes_moving:
            return "it dislikes moving: sow it where it is to grow"
        return "not raised indoors: sow it outdoors or under cover"
    if method is Method.OUTDOORS and figures.outdoor_weeks is None:
        if figures.wants_winter_cold:
            return ""
        return "raised in pots and planted out, not sown outdoors"
    if figures.outdoor_weeks is None and figures.set_out_weeks is None:
        return "no sowing week is known for it"
    return ""


def _way(method: Method, spans: Sequence[SowingSpan], figures: SowingFigures, on: date) -> Way:
    now = [span for span in spans if span.opens <= on <= span.closes]
    if now:
        best = min(now, key=lambda span: _BEST_FIRST.index(span.phase))
        reason = _why_open(best, figures)
        later = [s.closes for s in spans if s.season == best.season and s.phase is Phase.LATER]
        until = later[0] if later and best.phase is Phase.IN_SEASON else None
        return Way(method, True, best.phase, best.opens, best.closes, reason, until)
    coming = sorted((span for span in spans if span.opens > on), key=lambda span: span.opens)
    if not coming:
        reason = _never(method, figures) or _TOO_SHORT
        return Way(method, False, None, None, None, reason)
    past = [span for span in spans if span.closes < on]
    reason = _why_closed(coming[0], past, figures, on)
    return Way(method, False, None, coming[0].opens, coming[0].closes, reason)


def _why_open(span: SowingSpan, figures: SowingFigures) -> str:
    until = f"until {spoken(span.closes)}"
    if span.phase is Phase.IN_SEASON:
        return f"in season {until}"
    if span.phase is Phase.AUTUMN:
        return f"to stand the winter, {until}"
    matures = f"{until} it still matures before the frost of about " + spoken(
        span.season.first_frost
    )
    if figures.pots_only:
        return f"late, which costs harvest: {matures}"
    if figures.succession_days is not None:
        return f"later sowing: {matures}"
    return f"later than its best weeks: {matures}"


def _why_closed(
    following: SowingSpan, past: Sequence[SowingSpan], figures: SowingFigures, on: date
) -> str:
    again = f"opens {spoken(following.opens)}"
    if following.phase is Phase.AUTUMN:
        return f"closed: {again}, to stand the winter"
    weeks = (following.opens - following.season.last_frost).days / DAYS_PER_WEEK
    when = f"{again}, {weeks_text(weeks)} the last frost"
    last = max(past, key=lambda span: span.closes, default=None)
    if last is None or on > last.season.first_frost or last.phase is Phase.AUTUMN:
        return f"too early: {when}"
    if figures.crop_id in LONG_DAY_BULBS:
        return f"too late for good bulbs: {when}"
    if figures.days_to_harvest() is None:
        return f"too late: {when}"
    return f"too late to mature before the autumn frost: {when}"
