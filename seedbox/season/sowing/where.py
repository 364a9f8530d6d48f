"""When a sowing comes up in a place, whether it is too cold or too warm there, and where best."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from seedbox import almanac
from seedbox.science import emergence_constants as c
from seedbox.science.emergence import Days, Reach, emergence_interval
from seedbox.season.sowing.climate import spoken
from seedbox.season.sowing.emergence_model import EmergenceModel, Ground
from seedbox.season.sowing.figures import sowing_figures
from seedbox.season.sowing.job_constants import LEAST_SOIL_C
from seedbox.season.sowing.place import Place, Warmth
from seedbox.units import per_cent

_HORIZON_DAYS = 200
_WAIT_DAYS = 365
_WAIT_STEP = 7  # a spell of warmth shorter than a week is none to sow in


class Verdict(StrEnum):
    """How a place suits a sowing, best first."""

    GOOD = "good"
    LOSES = "warm: some seedlings are lost"
    NOT_KNOWN = "not known at this temperature"
    TOO_COLD = "too cold"
    TOO_WARM = "too warm"

    @property
    def sows(self) -> bool:
        """Whether one would sow there."""
        return self in (Verdict.GOOD, Verdict.LOSES)


@dataclass(frozen=True, slots=True)
class Emerging:
    """A sowing in a place: days to emergence (None when it will not come up), and why.

    `temperature_c` is the mean until emergence; `share` the normal seedlings kept there, of the
    most that the trials gave, where they say.
    """

    verdict: Verdict
    days: Days | None
    temperature_c: float
    share: float | None
    ground: Ground
    sentence: str

    def dates(self, sown_on: date) -> tuple[date, date, date] | None:
        """Expected first, middle and last day of emergence."""
        if self.days is None:
            return None
        low, mid, high = (
            sown_on + timedelta(days=round(each))
            for each in (self.days.low, self.days.mid, self.days.high)
        )
        return low, mid, high


def emerging(model: EmergenceModel, warmth: Warmth, sown_on: date) -> Emerging:
    """What a sowing on a day does at the temperatures of a place."""
    if model.ground is Ground.PAGE:
        return _by_page(model, warmth, sown_on)
    course = warmth.course(sown_on, _HORIZON_DAYS)
    days = emergence_interval(model.rate, course, model.ln_sd)
    until = course[: max(round(days.mid), 1)] if days else course[:14]
    mean = sum(until) / len(until)
    reading, ground = model.reading(mean)
    share = model.share(mean)
    verdict = _verdict(model, days, reading.reach, mean, share)
    # Where nothing was tried the days of a course are a wait for warmth, not an answer.
    known = None if reading.reach is Reach.UNTESTED else days
    return Emerging(
        verdict, known, mean, share, ground, _sentence(model, verdict, known, mean, share)
    )


def _verdict(
    model: EmergenceModel, days: Days | None, reach: Reach, mean: float, share: float | None
) -> Verdict:
    best = model.best()
    warm = best is not None and mean > best[0]
    if reach is Reach.TOO_WARM:
        return Verdict.TOO_WARM
    if reach is Reach.TOO_COLD or (reach is Reach.UNTESTED and mean < least_soil(model.crop_id)):
        return Verdict.TOO_COLD
    if days is not None and best is not None and _slow(days, best[1]):
        return Verdict.TOO_WARM if warm else Verdict.TOO_COLD
    if days is None or reach is Reach.UNTESTED:
        return Verdict.NOT_KNOWN
    if warm and share is not None and share < c.LOSING_SHARE:
        return Verdict.TOO_WARM if share < c.HALF_LOST else Verdict.LOSES
    return Verdict.GOOD


def _slow(days: Days, best_days: float) -> bool:
    return days.mid > max(c.SLOW_DAYS, c.SLOW_TIMES * best_days)


def least_soil(crop_id: str) -> float:
    """Least soil temperature for the crop's seed [C], by table or else by hardiness."""
    soil = almanac.soil_temperature(crop_id)
    if soil is not None and soil.minimum_c is not None:
        return soil.minimum_c
    return LEAST_SOIL_C[sowing_figures(crop_id).hardiness]


def _by_page(model: EmergenceModel, warmth: Warmth, sown_on: date) -> Emerging:
    """The page gives days at no stated temperature: only the limits of the soil speak."""
    span = model.page_days
    course = warmth.course(sown_on, max(round(span.mid), 1) if span else 14)
    mean = sum(course) / len(course)
    soil = almanac.soil_temperature(model.crop_id)
    verdict = Verdict.GOOD if span else Verdict.NOT_KNOWN
    if mean < least_soil(model.crop_id):
        verdict = Verdict.TOO_COLD
    elif soil is not None and soil.maximum_c is not None and mean > soil.maximum_c:
        verdict = Verdict.TOO_WARM
    days = None
    if span and verdict.sows:
        slower = _slower_than_in_a_room(model.crop_id, mean)
        days = Days(span.low, span.mid, span.high * slower)
    sentence = _sentence(model, verdict, days, mean, None)
    return Emerging(verdict, days, mean, None, Ground.PAGE, sentence)


def _slower_than_in_a_room(crop_id: str, mean_c: float) -> float:
    """How far the upper end may stretch where it is colder than in a room, by heat above a base."""
    tender = sowing_figures(crop_id).hardiness.frost_kills
    base = c.PAGE_TENDER_BASE_C if tender else c.PAGE_BASE_C
    return max((c.ROOM_C - base) / max(mean_c - base, 1.0), 1.0)


def _sentence(
    model: EmergenceModel, verdict: Verdict, days: Days | None, mean: float, share: float | None
) -> str:
    at = f"at {mean:.0f} °C"
    told = f"{days_text(days)} {at}" if days else ""
    if model.ground is Ground.PAGE and days:
        whose = "your own figure" if model.yours else "in a room; its temperature is not stated"
        told = f"{days_text(days)} ({whose})"
    if verdict is Verdict.TOO_COLD:
        return f"too cold: {told}" if told else f"too cold {at}"
    if verdict is Verdict.TOO_WARM:
        lost = "" if share is None else f", {per_cent(1 - share)} fewer seedlings"
        return f"too warm {at}{lost}"
    if verdict is Verdict.LOSES:
        return f"{told}; warm: {per_cent(1 - (share or 0.0))} fewer seedlings than at its best"
    if verdict is Verdict.NOT_KNOWN:
        return f"not known {at}: no trial was made there"
    return told


def days_text(days: Days) -> str:
    """`6 days (4 to 10)`, in whole days.

    >>> days_text(Days(4.2, 6.1, 9.6))
    '6 days (4 to 10)'
    """
    mid = max(round(days.mid), 1)
    low, high = max(int(days.low), 1), max(-int(-days.high // 1), mid)
    unit = "day" if mid == 1 else "days"
    return f"{mid} {unit} ({low} to {high})"


@dataclass(frozen=True, slots=True)
class PlaceChoice:
    """A place with what a sowing does there."""

    place: Place
    emerging: Emerging


def rank_places(
    model: EmergenceModel, places: Sequence[Place], sown_on: date
) -> tuple[PlaceChoice, ...]:
    """Places from best to worst: by verdict, then by days to emergence."""
    choices = [PlaceChoice(each, emerging(model, each.warmth, sown_on)) for each in places]
    order = list(Verdict)
    return tuple(
        sorted(
            choices,
            key=lambda each: (
                order.index(each.emerging.verdict),
                each.emerging.days.mid if each.emerging.days else float("inf"),
            ),
        )
    )


def wait_until(model: EmergenceModel, warmth: Warmth, on: date) -> date | None:
    """First day within a year on which the place is good enough to sow; None when never."""

    def sows(later: int) -> bool:
        return emerging(model, warmth, on + timedelta(days=later)).verdict.sows

    week = next((later for later in range(0, _WAIT_DAYS, _WAIT_STEP) if sows(later)), None)
    if week is None:
        return None
    first = next(later for later in range(max(week - _WAIT_STEP + 1, 0), week + 1) if sows(later))
    return on + timedelta(days=first)


def why_not_here(model: EmergenceModel, place: Place, others: Sequence[Place], on: date) -> str:
    """Why a place is not sown in now: until when to wait, and which place is ready."""
    here = emerging(model, place.warmth, on)
    if here.verdict.sows:
        return ""
    told = f"{place.name} is {here.sentence}"
    hints = []
    day = wait_until(model, place.warmth, on)
    if day is not None:
        hints.append(f"wait until about {spoken(day)}")
    ready = [each for each in rank_places(model, others, on) if each.emerging.verdict.sows]
    if ready and ready[0].emerging.days is not None:
        hints.append(f"use the {ready[0].place.name}: {days_text(ready[0].emerging.days)}")
    return f"{told}; {', or '.join(hints)}" if hints else told
