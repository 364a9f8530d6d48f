"""The course of one sowing: when it comes up, can be set out and is ready, or did and was."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from seedbox.science.maturity import days_until_grown
from seedbox.season.sowing import job_constants as c
from seedbox.season.sowing.climate import GardenClimate
from seedbox.season.sowing.emergence_model import EmergenceModel
from seedbox.season.sowing.figures import SowingFigures
from seedbox.season.sowing.place import Warmth
from seedbox.season.sowing.pots import days_until_large_enough
from seedbox.season.sowing.spans import Method
from seedbox.season.sowing.where import Emerging, emerging

_YEAR = 366


@dataclass(frozen=True, slots=True)
class Sown:
    """A sowing as it was made, and what has happened to it since (None: not yet).

    `cell_depth_cm` is None for seed sown where it is to grow. `plants_per_cell` is what a cell
    is thinned to. `outside` is the bed that it is to go to, where its temperatures are known.
    `hardening_days` is how long the garden hardens its plants off.
    """

    figures: SowingFigures
    model: EmergenceModel
    method: Method
    sown_on: date
    warmth: Warmth
    cell_depth_cm: float | None = None
    per_cell: int = 1
    plants_per_cell: int = 1
    clusters: bool = False
    outside: Warmth | None = None
    hardening_days: float = 10.0
    emerged_on: date | None = None
    potted_on: date | None = None
    pot_depth_cm: float | None = None
    hardening_since: date | None = None
    planted_out_on: date | None = None

    @property
    def in_cells(self) -> bool:
        """Whether it stands in cells or pots, to be set out."""
        return self.cell_depth_cm is not None and self.planted_out_on is None


@dataclass(frozen=True, slots=True)
class Emergence:
    """Days of emergence: expected first, middle and last, or the day it was seen three times."""

    first: date
    middle: date
    last: date
    seen: bool
    expected: Emerging


def emergence_of(sown: Sown) -> Emergence:
    """When the sowing comes up, or did.

    Where nothing is known to come up at the place's temperatures the growing page's days are
    used, and `expected` says so.
    """
    expected = emerging(sown.model, sown.warmth, sown.sown_on)
    if sown.emerged_on is not None:
        day = sown.emerged_on
        return Emergence(day, day, day, True, expected)
    dates = expected.dates(sown.sown_on)
    if dates is None:
        days = sown.figures.emerge_days or c.THIN
        dates = (
            sown.sown_on + timedelta(days=round(days.low)),
            sown.sown_on + timedelta(days=round(days.mid)),
            sown.sown_on + timedelta(days=round(days.high)),
        )
    return Emergence(*dates, False, expected)


@dataclass(frozen=True, slots=True)
class SettingOut:
    """The day from which it can be planted out, and what it waits for."""

    day: date
    waits_for: str


def setting_out(sown: Sown, climate: GardenClimate, emerged: date) -> SettingOut:
    """First day on which plants are large enough, frost is past for them, and soil not cold.

    Plants ready while the growing season lasts go out; those ready after the first autumn frost
    wait for the next spring, unless they are hardy.
    """
    ready = emerged + timedelta(days=round(days_until_large_enough(sown.figures).low))
    day = _after_frost(sown.figures, climate, ready)
    waits = "until it is large enough" if day == ready else "until the frosts are past for it"
    warm = _in_warm_soil(sown, day)
    return SettingOut(warm, "until the soil is warm enough" if warm != day else waits)


def _after_frost(figures: SowingFigures, climate: GardenClimate, ready: date) -> date:
    week = (
        figures.set_out_weeks.low
        if figures.set_out_weeks is not None
        else c.SET_OUT_WEEK[figures.hardiness]
    )
    for season in climate.seasons_around(ready):
        opens = season.week(week)
        if ready <= season.first_frost:
            return max(ready, opens)
    return ready


def _in_warm_soil(sown: Sown, day: date) -> date:
    if sown.outside is None:
        return day
    least = c.LEAST_SOIL_C[sown.figures.hardiness]
    for later in range(c.MOST_SOIL_WAIT):
        if sown.outside.on(day + timedelta(days=later)) >= least:
            return day + timedelta(days=later)
    return day


@dataclass(frozen=True, slots=True)
class Ripening:
    """First harvest: of quick varieties, and of slow ones."""

    soonest: date
    latest: date


def ripening(
    sown: Sown, climate: GardenClimate, emerged: date, set_out: date | None
) -> Ripening | None:
    """When the harvest begins; None where no days to maturity are known.

    Days from sowing take its usual emergence for granted: what it took longer is added. Days
    from transplanting count from planting out. Days below 10 hours count for less.
    """
    days = sown.figures.maturity_days
    if days is None:
        return None
    start, low, high = sown.sown_on, days.low, days.high
    if sown.figures.maturity_from_transplanting:
        weeks = days_until_large_enough(sown.figures)
        start = set_out or emerged + timedelta(days=round(weeks.low))
    else:
        usual = sown.figures.emerge_days
        late = (emerged - sown.sown_on).days - (usual.mid if usual else 0.0)
        start += timedelta(days=max(round(late), 0))
    return Ripening(_grown(climate, start, low), _grown(climate, start, high))


def _grown(climate: GardenClimate, start: date, days: float) -> date:
    taken = days_until_grown(
        days, lambda day: climate.daylight(start + timedelta(days=day % _YEAR))
    )
    return start + timedelta(days=taken)
