"""The jobs that a sowing makes, each with its day, why, and what happens if it waits."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta
from enum import StrEnum

from seedbox.season.sowing import job_constants as c
from seedbox.season.sowing.climate import GardenClimate, spoken
from seedbox.season.sowing.course import (
    Emergence,
    SettingOut,
    Sown,
    emergence_of,
    ripening,
    setting_out,
)
from seedbox.season.sowing.pots import days_in_pot, if_pot_bound
from seedbox.season.sowing.spans import Method
from seedbox.season.sowing.where import days_text
from seedbox.season.sowing.windows import open_ways


class JobKind(StrEnum):
    """What is to be done, in the words that are shown."""

    COUNT = "count emergence"
    THIN = "thin"
    POT_ON = "pot on"
    HARDEN_OFF = "harden off"
    PLANT_OUT = "plant out"
    HARVEST = "harvest from"
    SOW_AGAIN = "sow again"
    RESOW = "resow"


@dataclass(frozen=True, slots=True)
class JobDate:
    """One job. It is late after `good_until`; `why` is its reason, `if_it_waits` the price."""

    kind: JobKind
    due: date
    good_until: date
    why: str
    if_it_waits: str = ""

    def days_late(self, on: date) -> int:
        """Days past the last good one; 0 when it is not late."""
        return max((on - self.good_until).days, 0)


def jobs(sown: Sown, climate: GardenClimate, today: date | None = None) -> tuple[JobDate, ...]:
    """Every job still to come of a sowing, in order of date.

    What has happened (emergence seen, potted on, hardening begun, planted out) removes its own
    job and moves the rest. So does what has not happened by `today`: seedlings not seen yet come
    up no sooner, until the end of their interval (many a row is never counted), and a harvest
    that counts from planting out waits for it.
    """
    expected = emergence_of(sown)
    up = _not_before(expected, today)
    out = setting_out(sown, climate, up.middle) if sown.in_cells else None
    found = [
        _count(sown, expected),
        _thin(sown, up),
        *(_in_the_pot(sown, up, out) if out else ()),
        _harvest(sown, climate, up, _planted_out(sown, out, today)),
        _sow_again(sown, climate),
    ]
    return tuple(sorted((job for job in found if job is not None), key=lambda job: job.due))


def _not_before(up: Emergence, today: date | None) -> Emergence:
    if today is None or up.seen:
        return up
    return replace(up, middle=min(max(up.middle, today), up.last))


def _planted_out(sown: Sown, out: SettingOut | None, today: date | None) -> date | None:
    if out is None or sown.planted_out_on is not None:
        return sown.planted_out_on
    return out.day if today is None else max(out.day, today)


def _count(sown: Sown, up: Emergence) -> JobDate | None:
    if up.seen or sown.planted_out_on is not None:
        return None
    days = up.expected.days
    expected = (
        f"expected in {days_text(days)}, by {spoken(up.last)}"
        if days
        else f"{up.expected.sentence}; by its growing page by {spoken(up.last)}"
    )
    return JobDate(
        JobKind.COUNT,
        up.middle,
        up.last,
        expected,
        "overdue: look whether it is dry, too cold, too deep or eaten, then test the packet or "
        "resow",
    )


def _thin(sown: Sown, up: Emergence) -> JobDate | None:
    crowded = sown.per_cell > sown.plants_per_cell or sown.clusters or sown.cell_depth_cm is None
    if not crowded or sown.potted_on is not None or sown.planted_out_on is not None:
        return None
    to = "to its spacing" if sown.cell_depth_cm is None else f"to {sown.plants_per_cell} a cell"
    return JobDate(
        JobKind.THIN,
        _after(up.middle, c.THIN.low),
        _after(up.middle, c.THIN.high),
        f"{to}, at the first true leaf",
        "crowded seedlings grow thin and fall over",
    )


def _in_the_pot(sown: Sown, up: Emergence, out: SettingOut) -> list[JobDate | None]:
    return [_pot_on(sown, up, out), _harden_off(sown, up, out), _plant_out(sown, out)]


def _pot_on(sown: Sown, up: Emergence, out: SettingOut) -> JobDate | None:
    """When roots have filled the pot, unless the plant goes out about then."""
    start = sown.potted_on or up.middle
    depth = sown.pot_depth_cm if sown.potted_on and sown.pot_depth_cm else sown.cell_depth_cm
    assert depth is not None
    due = _after(start, days_in_pot(sown.figures, depth))
    if out.day <= _after(due, c.WAITING_DAYS):
        return None
    waits = c.POT_ON_WAITS_DEEP if sown.figures.deep_rooted else c.POT_ON_WAITS
    needs = sown.figures.pot_depth_cm
    roots = "roots go down first and" if sown.figures.deep_rooted else "roots"
    shallow = f", and it wants {needs:g} cm" if depth < needs else ""
    return JobDate(
        JobKind.POT_ON,
        due,
        _after(due, waits),
        f"its {roots} have filled {depth:g} cm{shallow}; it cannot go out before {spoken(out.day)}",
        if_pot_bound(sown.figures),
    )


def _harden_off(sown: Sown, up: Emergence, out: SettingOut) -> JobDate | None:
    if sown.method is Method.OUTDOORS or sown.hardening_since is not None:
        return None
    begins = max(_after(out.day, -sown.hardening_days), up.middle)
    return JobDate(
        JobKind.HARDEN_OFF,
        begins,
        max(_after(out.day, -_least_hardening(sown)), begins),
        f"{sown.hardening_days:g} days out by day, to be planted out about {spoken(out.day)}",
        "set out unhardened it is checked, scorched or chilled",
    )


def _least_hardening(sown: Sown) -> float:
    return min(c.LEAST_HARDENING, sown.hardening_days)


def _plant_out(sown: Sown, out: SettingOut) -> JobDate:
    day = out.day
    if sown.hardening_since is not None:
        day = max(day, _after(sown.hardening_since, _least_hardening(sown)))
    return JobDate(
        JobKind.PLANT_OUT,
        day,
        _after(day, c.PLANT_OUT_WAITS),
        f"it waits {out.waits_for}",
        if_pot_bound(sown.figures),
    )


def _harvest(
    sown: Sown, climate: GardenClimate, up: Emergence, set_out: date | None
) -> JobDate | None:
    ripe = ripening(sown, climate, up.middle, set_out)
    if ripe is None:
        return None
    counted = "planting out" if sown.figures.maturity_from_transplanting else "sowing"
    days = sown.figures.maturity_days
    assert days is not None
    return JobDate(
        JobKind.HARVEST,
        ripe.soonest,
        ripe.latest,
        f"{days.low:g} to {days.high:g} days from {counted}, by variety",
    )


def _sow_again(sown: Sown, climate: GardenClimate) -> JobDate | None:
    """The next sowing of a succession, in the same way or outdoors, if that is open then."""
    every = sown.figures.succession_days
    if every is None:
        return None
    due = _after(sown.sown_on, every.low)
    ways = {way.method for way in open_ways(sown.figures, climate, due)}
    if not ways & {sown.method, Method.OUTDOORS}:
        return None
    return JobDate(
        JobKind.SOW_AGAIN,
        due,
        _after(sown.sown_on, every.high + c.SOW_AGAIN_WAITS),
        f"every {every.low:g} to {every.high:g} days keeps it coming"
        if every.low != every.high
        else f"every {every.low:g} days keeps it coming",
        "a gap in the harvest",
    )


def resow_job(sown: Sown, climate: GardenClimate, on: date) -> JobDate | None:
    """What to do after emergence failed: resow, while any way of sowing is open; else None."""
    found = open_ways(sown.figures, climate, on)
    if not found:
        return None
    why = "too few came up; it can still be sown " + " or ".join(way.method.value for way in found)
    soon = on + timedelta(days=c.RESOW_WAITS)
    closes = [day for way in found if (day := way.later_until or way.closes) is not None]
    if not closes:
        return JobDate(JobKind.RESOW, on, soon, why, "the harvest comes so much later")
    last = max(closes)
    return JobDate(JobKind.RESOW, on, min(last, soon), why, f"after {spoken(last)} it is too late")


def _after(day: date, days: float) -> date:
    return day + timedelta(days=round(days))
