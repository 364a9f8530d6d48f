"""Emergence as heat gathered above a base temperature."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from seedbox.science.errors import OutOfRangeError, require_inside

_FEWEST_POINTS = 2


@dataclass(frozen=True, slots=True)
class HeatSum:
    """Base temperature [C] and heat above it that a seed needs [C days]."""

    base_c: float
    degree_days: float


def heat_sum_rate(temperature_c: float, heat: HeatSum) -> float:
    """Progress towards emergence in a day, 0 at and below the base temperature.

    ``1 / t = (T - Tb) / S``

    Parameters: temperature_c T [C]; heat, base Tb [C] and sum S [C days], above 0.
    Returns: rate [per day].
    Range: the rising limb, from the base to the optimum; the caller bounds it above.
    Raises: OutOfRangeError for a sum that is not positive.

    >>> round(1 / heat_sum_rate(15.0, HeatSum(1.3, 170.0)), 1)
    12.4

    Source: Bierhuizen & Wagenvoort 1974, Scientia Horticulturae 2:213-219.
    """
    require_inside("heat sum", heat.degree_days, 0.0, float("inf"), "C days")
    return max(temperature_c - heat.base_c, 0.0) / heat.degree_days


def fit_heat_sum(points: Sequence[tuple[float, float]]) -> HeatSum:
    """Heat sum by least squares of 1 / days on temperature.

    ``1 / t = a + b T``, ``Tb = -a / b``, ``S = 1 / b``

    Parameters: points, pairs of (temperature [C], days [d]) of the rising limb, two or more.
    Returns: HeatSum.
    Raises: OutOfRangeError when there are too few points or the rate does not rise.

    >>> fitted = fit_heat_sum([(10.0, 20.0), (15.0, 10.0)])
    >>> round(fitted.base_c, 6), round(fitted.degree_days, 6)
    (5.0, 100.0)

    Source: least squares; the form is that of Bierhuizen & Wagenvoort 1974, as above.
    """
    if len(points) < _FEWEST_POINTS:
        raise OutOfRangeError("points", len(points), _FEWEST_POINTS, float("inf"))
    rates = [1.0 / days for _, days in points]
    mean_t = sum(t for t, _ in points) / len(points)
    mean_r = sum(rates) / len(points)
    spread = sum((t - mean_t) ** 2 for t, _ in points)
    slope = sum((t - mean_t) * r for (t, _), r in zip(points, rates, strict=True)) / spread
    require_inside("slope of the rate", slope, 0.0, float("inf"), "per C day")
    return HeatSum(mean_t - mean_r / slope, 1.0 / slope)
