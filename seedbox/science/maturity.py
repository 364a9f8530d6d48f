"""How long a crop takes to mature when days grow short."""

from __future__ import annotations

from collections.abc import Callable

from seedbox.science.daylength import SHORT_DAY_HOURS
from seedbox.science.errors import require

# In days of 9 h or less a crop makes about a tenth of its growth: what `nearly stops` comes to.
# Our judgement, no source.
STILL_HOURS = 9.0
STILL_RATE = 0.1
_MOST_DAYS = 1500


def growth_rate(daylight_h: float) -> float:
    """Growth in a day relative to days of 10 hours or more.

    ``1`` from 10 h up, ``0.1`` from 9 h down, straight between

    Parameters: daylight_h [h], 0 to 24.
    Returns: rate [-].
    Raises: OutOfRangeError.

    >>> growth_rate(16.0), growth_rate(9.5), growth_rate(8.0)
    (1.0, 0.55, 0.1)

    Source: rule of thumb that most vegetables nearly stop below 10 hours; the numbers are ours.
    """
    require("daylight", daylight_h, 0.0, 24.0, "h")
    part = min(max((daylight_h - STILL_HOURS) / (SHORT_DAY_HOURS - STILL_HOURS), 0.0), 1.0)
    return STILL_RATE + (1.0 - STILL_RATE) * part


def days_until_grown(days_needed: float, daylight_on: Callable[[int], float]) -> int:
    """Days that a crop takes, counted forward from a day.

    ``min n: sum over i < n of growth_rate(daylight(i)) >= days needed``

    Parameters: days_needed [d of full growth], 0 to 1,500; daylight_on [h] of the i-th day.
    Returns: days [d]; never fewer than needed.
    Raises: OutOfRangeError.

    >>> days_until_grown(30, lambda day: 14.0), days_until_grown(30, lambda day: 9.5)
    (30, 55)

    Source: sum of ``growth_rate``.
    """
    return _count(days_needed, daylight_on)


def days_before_to_grow(days_needed: float, daylight_on: Callable[[int], float]) -> int:
    """Days before a day by which a crop must have begun to be grown on it.

    Parameters: days_needed [d of full growth]; daylight_on [h] of the day i, negative before it.
    Returns: days [d].
    Raises: OutOfRangeError.

    >>> days_before_to_grow(30, lambda day: 14.0 if day < -10 else 9.0)
    39

    Source: sum of ``growth_rate``.
    """
    return _count(days_needed, lambda day: daylight_on(-1 - day))


def _count(days_needed: float, daylight_on: Callable[[int], float]) -> int:
    require("days to maturity", days_needed, 0.0, _MOST_DAYS, "days")
    grown, day = 0.0, 0
    while grown < days_needed - 1e-9:
        grown += growth_rate(daylight_on(day))
        day += 1
    return day
