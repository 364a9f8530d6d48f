"""Why no place will do for a crop today: until when to wait, or which other place is ready."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from seedbox.season.sowing.climate import spoken
from seedbox.season.sowing.emergence_model import EmergenceModel
from seedbox.season.sowing.offers import Choice
from seedbox.season.sowing.place import Place, Warmth
from seedbox.season.sowing.where import (
    Verdict,
    days_text,
    emerging,
    least_soil,
    rank_places,
)

_FAR = 365
_STEP_DAYS = 6
_NEAR_C = 3.0  # so far below the least temperature nothing is worth reckoning
_ORDER = list(Verdict)


def nearest(choices: Sequence[Choice]) -> Choice:
    """The place that comes nearest to being good: by verdict, then by days, then by warmth."""

    def badness(one: Choice) -> tuple[int, float, float]:
        days = one.emerging.days
        far = float("inf") if days is None else days.mid
        return (_ORDER.index(one.emerging.verdict), far, -one.emerging.temperature_c)

    return min(choices, key=badness)


def good_from(model: EmergenceModel, warmth: Warmth, on: date, until: date | None) -> date | None:
    """First day from which a place will do, to within a few days; None when not until then.

    Without `until` a year is looked through.
    """
    if warmth.constant:
        return None
    days = _FAR if until is None else min((until - on).days, _FAR)
    least = least_soil(model.crop_id) - _NEAR_C
    for later in range(_STEP_DAYS, days + 1, _STEP_DAYS):
        day = on + timedelta(days=later)
        if warmth.on(day) < least:
            continue
        if emerging(model, warmth, day).verdict.sows:
            return _first_of(model, warmth, day - timedelta(days=_STEP_DAYS))
    return None


def _first_of(model: EmergenceModel, warmth: Warmth, after: date) -> date:
    """The first good day of a step that ends with one."""
    for later in range(2, _STEP_DAYS, 2):
        day = after + timedelta(days=later)
        if emerging(model, warmth, day).verdict.sows:
            return day
    return after + timedelta(days=_STEP_DAYS)


def why_no_place(
    model: EmergenceModel,
    choices: Sequence[Choice],
    others: Sequence[Place],
    on: date,
    last_chance: date | None,
) -> str:
    """What is wrong with the nearest place, until when to wait, and what is ready instead.

    Waiting past the `last_chance` of a crop is no advice: then that is said.
    """
    best = nearest(choices)
    told = f"{best.place.name} is {best.emerging.sentence}"
    hints = [_wait(model, best, on, last_chance)]
    ready = [one for one in rank_places(model, others, on) if one.emerging.verdict.sows]
    if ready and ready[0].emerging.days is not None:
        hints.append(f"use the {ready[0].place.name}: {days_text(ready[0].emerging.days)}")
    said = ", or ".join(hint for hint in hints if hint)
    return f"{told}; {said}" if said else told


def _wait(model: EmergenceModel, best: Choice, on: date, last_chance: date | None) -> str:
    warmth = best.place.spot.warmth
    day = good_from(model, warmth, on, last_chance)
    if day is not None:
        return f"wait until about {spoken(day)}"
    if warmth.constant:
        return ""
    if last_chance is None:
        return "it stays so all year"
    return f"it stays so until its weeks end on {spoken(last_chance)}"
