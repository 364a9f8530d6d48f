"""Hours of daylight by latitude and day of the year."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import acos, asin, atan, cos, pi, radians, sin, tan

from seedbox.science.errors import require

_DAYS = 365
# The sun's upper edge on the horizon, bent by the air: its centre stands 0.8333 degrees below.
SUNRISE_DEGREES = 0.8333
# Below this most vegetables nearly stop (rule of thumb of winter growers, no source).
SHORT_DAY_HOURS = 10.0


def daylight_hours(latitude: float, day_of_year: int) -> float:
    """Hours from sunrise to sunset (the CBM model).

    ``theta = 0.2163108 + 2 atan(0.9671396 tan(0.0086 (J - 186)))``
    ``phi = asin(0.39795 cos theta)``
    ``D = 24 - 24 / pi acos((sin(p) + sin(L) sin(phi)) / (cos(L) cos(phi)))``, p = 0.8333 degrees

    Parameters: latitude L [degrees, south negative], -90 to 90; day_of_year J, 1 to 366.
    Returns: daylight [h]; 24 where the sun does not set, 0 where it does not rise.
    Range: within 6 minutes of an almanac up to 60 degrees; near the polar circles the air and
    the hour within the day make more.
    Raises: OutOfRangeError.

    >>> round(daylight_hours(0.0, 80), 1)
    12.1
    >>> daylight_hours(80.0, 172), daylight_hours(80.0, 355)
    (24.0, 0.0)

    Source: Forsythe, Rykiel, Stahl, Wu & Schoolfield 1995, A model comparison for daylength as a
    function of latitude and day of year, Ecological Modelling 80:87-95, equations 1 to 3.
    """
    require("latitude", latitude, -90.0, 90.0, "degrees")
    require("day of the year", day_of_year, 1, 366)
    sun = _declination(day_of_year)
    north = radians(min(max(latitude, -89.999), 89.999))
    crossing = (sin(radians(SUNRISE_DEGREES)) + sin(north) * sin(sun)) / (cos(north) * cos(sun))
    return 24.0 - 24.0 / pi * acos(min(max(crossing, -1.0), 1.0))


def _declination(day_of_year: int) -> float:
    """Height of the noon sun over the equator's [radians]."""
    revolution = 0.2163108 + 2.0 * atan(0.9671396 * tan(0.00860 * (day_of_year - 186)))
    return asin(0.39795 * cos(revolution))


@dataclass(frozen=True, slots=True)
class ShortDays:
    """First and last day of the year with less daylight than the limit; the run may cross a year.

    `first` is greater than `last` where the short days lie around the new year.
    """

    first: int
    last: int


@lru_cache(maxsize=256)
def short_days(latitude: float, hours: float = SHORT_DAY_HOURS) -> ShortDays | None:
    """The part of the year in which days are shorter than a limit.

    Parameters: latitude [degrees, south negative]; hours [h].
    Returns: ShortDays, or None where no day is so short.
    Raises: OutOfRangeError.

    >>> short_days(52.0)
    ShortDays(first=300, last=47)
    >>> short_days(30.0) is None
    True

    Source: ``daylight_hours``; the limit of 10 h is a rule of thumb.
    """
    short = [daylight_hours(latitude, day) < hours for day in range(1, _DAYS + 1)]
    if not any(short):
        return None
    starts = [day + 1 for day in range(_DAYS) if short[day] and not short[day - 1]]
    ends = [day + 1 for day in range(_DAYS) if short[day] and not short[(day + 1) % _DAYS]]
    return ShortDays(starts[0], ends[0]) if starts else ShortDays(1, _DAYS)
