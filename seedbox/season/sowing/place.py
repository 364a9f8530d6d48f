"""Where things grow: how warm through the year, and how much light."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from math import cos, pi

from seedbox.errors import BadDataError
from seedbox.science.light import Light, daily_light, light_for_seedlings
from seedbox.season.sowing.spans import Method
from seedbox.units import celsius, celsius_range

MONTHS = 12
_COLDEST_C, _HOTTEST_C = -40.0, 60.0
_MIDDLE = 15  # a month's mean is taken to be that of its 15th


@dataclass(frozen=True, slots=True)
class Warmth:
    """Mean temperature of each month [C], January first; straight between the 15ths."""

    months: tuple[float, ...]

    def __post_init__(self) -> None:
        if len(self.months) != MONTHS:
            raise BadDataError(f"Give 12 monthly temperatures, not {len(self.months)}.")
        for month in self.months:
            if not _COLDEST_C <= month <= _HOTTEST_C:
                raise BadDataError(
                    f"{celsius(month)} is not a monthly temperature: give "
                    f"{celsius_range(_COLDEST_C, _HOTTEST_C)}."
                )

    @property
    def constant(self) -> bool:
        """Whether it is the same all year."""
        return len(set(self.months)) == 1

    def on(self, day: date) -> float:
        """Temperature of a day [C]."""
        if self.constant:
            return self.months[0]
        after = day.day >= _MIDDLE
        first = date(day.year, day.month, _MIDDLE)
        start = first if after else _month_before(first)
        end = _month_after(start)
        part = (day - start).days / (end - start).days
        return (1.0 - part) * self.months[start.month - 1] + part * self.months[end.month - 1]

    def course(self, start: date, days: int) -> list[float]:
        """Temperatures of so many days from a day on [C]."""
        if self.constant:
            return [self.months[0]] * days
        return [self.on(start + timedelta(days=day)) for day in range(days)]


def _month_before(middle: date) -> date:
    return (middle - timedelta(days=_MIDDLE + 1)).replace(day=_MIDDLE)


def _month_after(middle: date) -> date:
    return (middle + timedelta(days=31)).replace(day=_MIDDLE)


def constant(temperature_c: float) -> Warmth:
    """The same temperature all year."""
    return Warmth((temperature_c,) * MONTHS)


def between(coolest_c: float, warmest_c: float, *, southern: bool = False) -> Warmth:
    """A cosine through the year: coolest in January and warmest in July, in the south turned."""
    middle, swing = 0.5 * (coolest_c + warmest_c), 0.5 * (warmest_c - coolest_c)
    turn = -1.0 if southern else 1.0
    return Warmth(
        tuple(middle - turn * swing * cos(2.0 * pi * month / MONTHS) for month in range(MONTHS))
    )


@dataclass(frozen=True, slots=True)
class Place:
    """A windowsill, propagator, greenhouse, cold frame or bed. Light [PPFD, h] may be unknown."""

    name: str
    method: Method
    warmth: Warmth
    ppfd: float | None = None
    light_hours: float | None = None

    def light(self) -> tuple[float, Light] | None:
        """Daily light [mol per square metre and day] and what it means, where it is known."""
        if self.ppfd is None or self.light_hours is None:
            return None
        dli = daily_light(self.ppfd, self.light_hours)
        return dli, light_for_seedlings(dli)
