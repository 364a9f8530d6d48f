"""From storage periods to the ageing dose: open and sealed, constant and seasonal stores."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, pi
from typing import NamedTuple

from seedbox.science.constants import HIGHEST_C, HIGHEST_RH, LOWEST_C, REFERENCE_C, REFERENCE_RH
from seedbox.science.errors import OutOfRangeError
from seedbox.science.moisture import (
    equilibrium_humidity,
    equilibrium_moisture,
    lowest_useful_moisture,
)
from seedbox.science.viability import relative_ageing

_Rate = Callable[[float], float]
_HOTTEST_COUNTED_C = 60.0
_DAMPEST_COUNTED = 0.95
_WETTEST_COUNTED = 40.0
# A cosine at the middle of each month; the second half of the year mirrors the first.
_HALF_YEAR_SHAPE = tuple(cos(2.0 * pi * (month + 0.5) / 12.0) for month in range(6))


class Climate(NamedTuple):
    """What seed feels. Exactly one of `relative_humidity` (open) and `moisture` (sealed) is given.

    `coolest_c`, `warmest_c` [C]: means of the coolest and of the warmest month, equal when the
    store is constant. `relative_humidity` [fraction]. `moisture` [% of fresh weight].
    """

    coolest_c: float
    warmest_c: float
    relative_humidity: float | None = None
    moisture: float | None = None


def open_store_rate(
    relative_humidity: float, coolest_c: float, warmest_c: float, oil: float
) -> float:
    """Ageing in open storage relative to the reference room, averaged over the year.

    ``mean over the year of 10^(f(m_ref, 20 C) - f(m(R, T), T))``, T a cosine through the year

    Parameters: relative_humidity [fraction], 0 <= R < 1; coolest_c, warmest_c [C];
    oil [fraction of dry weight].
    Returns: ratio of ageing rates [-]; 1 in the reference room (20 C, 50 % RH).
    Range: the forecast is supported from -20 to 45 C up to 70 % RH, see ``unsupported``.

    >>> round(open_store_rate(0.5, 20, 20, 0.05), 6)
    1.0
    >>> open_store_rate(0.5, 5, 25, 0.05) > open_store_rate(0.5, 15, 15, 0.05)
    True

    Source: Ellis & Roberts 1980; Cromarty, Ellis & Roberts 1982. Rates are averaged, not
    temperatures, because ageing is not linear in temperature.
    """
    floor = lowest_useful_moisture(oil)
    reference = reference_moisture(oil)

    def rate(temperature_c: float) -> float:
        moisture = max(equilibrium_moisture(relative_humidity, temperature_c, oil), floor)
        return relative_ageing(moisture, temperature_c, reference, REFERENCE_C)

    return _mean_over_year(rate, coolest_c, warmest_c)


def sealed_store_rate(moisture: float, coolest_c: float, warmest_c: float, oil: float) -> float:
    """Ageing of sealed seed relative to the reference room, averaged over the year.

    ``mean over the year of 10^(f(m_ref, 20 C) - f(m, T))``, m fixed when the seed was sealed

    Parameters: moisture [% of fresh weight]; coolest_c, warmest_c [C];
    oil [fraction of dry weight], sets the reference and the driest useful moisture.
    Returns: ratio of ageing rates [-].
    Range: as ``open_store_rate``. Seed drier than equilibrium with 10.6 % RH gains nothing more.

    >>> sealed_store_rate(3.0, 5, 5, 0.05) == sealed_store_rate(2.0, 5, 5, 0.05)
    True

    Source: Ellis & Roberts 1980; Ellis, Hong & Roberts 1989 for the lower limit.
    """
    driest = max(moisture, lowest_useful_moisture(oil))
    reference = reference_moisture(oil)
    return _mean_over_year(
        lambda temperature_c: relative_ageing(driest, temperature_c, reference, REFERENCE_C),
        coolest_c,
        warmest_c,
    )


def store_rate(climate: Climate, oil: float) -> float:
    """Ageing in a store, open or sealed, relative to the reference room [-]."""
    if climate.moisture is not None:
        return sealed_store_rate(climate.moisture, climate.coolest_c, climate.warmest_c, oil)
    if climate.relative_humidity is None:
        raise OutOfRangeError("relative humidity", float("nan"), 0.0, 1.0)
    return open_store_rate(climate.relative_humidity, climate.coolest_c, climate.warmest_c, oil)


def reference_moisture(oil: float) -> float:
    """Moisture of seed in the reference room, 20 C and 50 % RH [% of fresh weight].

    >>> round(reference_moisture(0.05), 1)
    11.1
    """
    return equilibrium_moisture(REFERENCE_RH, REFERENCE_C, oil)


def unsupported(climate: Climate, oil: float) -> str:
    """Why a store lies outside the range of the model, as a sentence; empty when inside."""
    if climate.coolest_c < LOWEST_C:
        return f"It is colder than {LOWEST_C:g} °C, beyond what the model was checked for."
    if climate.warmest_c > HIGHEST_C:
        return f"It is hotter than {HIGHEST_C:g} °C, beyond what the model was checked for."
    if _humidity(climate, oil) > HIGHEST_RH + 1e-9:
        return (
            f"It is damper than {100 * HIGHEST_RH:.0f} % relative humidity, where seed dies faster"
            " and less predictably than the model says."
        )
    return ""


def bounded(climate: Climate) -> Climate:
    """The nearest climate in which the formulas have a value, for forecasts marked unsupported.

    Temperatures -20 to 60 C, humidity up to 95 %, moisture 1 to 40 %. Inside it changes nothing;
    whoever uses it says what ``unsupported`` says.

    >>> bounded(Climate(-80.0, -80.0, moisture=5.0)).coolest_c
    -20.0
    """
    humidity, moisture = climate.relative_humidity, climate.moisture
    return Climate(
        min(max(climate.coolest_c, LOWEST_C), _HOTTEST_COUNTED_C),
        min(max(climate.warmest_c, LOWEST_C), _HOTTEST_COUNTED_C),
        None if humidity is None else min(max(humidity, 0.0), _DAMPEST_COUNTED),
        None if moisture is None else min(max(moisture, 1.0), _WETTEST_COUNTED),
    )


def _humidity(climate: Climate, oil: float) -> float:
    if climate.relative_humidity is not None:
        return climate.relative_humidity
    if climate.moisture is None:
        return REFERENCE_RH
    return equilibrium_humidity(min(climate.moisture, 99.0), min(climate.warmest_c, 90.0), oil)


def _mean_over_year(rate: _Rate, coolest_c: float, warmest_c: float) -> float:
    if coolest_c == warmest_c:
        return rate(coolest_c)
    middle = 0.5 * (coolest_c + warmest_c)
    swing = 0.5 * (warmest_c - coolest_c)
    return sum([rate(middle + swing * shape) for shape in _HALF_YEAR_SHAPE]) / 6.0
