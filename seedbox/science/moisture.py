"""How much water seed holds in air of a given humidity, both directions."""

from __future__ import annotations

from math import exp, log1p, sqrt

from seedbox.science.constants import (
    ISOTHERM_C_PER_UNIT,
    ISOTHERM_INTERCEPT,
    ISOTHERM_SCALE,
    LOWEST_USEFUL_RH,
    LOWEST_USEFUL_RH_AT_C,
)
from seedbox.science.errors import require, require_inside

_COLDEST_C = -40.0
_HOTTEST_C = 90.0
_OILIEST = 0.6


def equilibrium_moisture(relative_humidity: float, temperature_c: float, oil: float) -> float:
    """Moisture of seed in equilibrium with air (Cromarty, Ellis & Roberts).

    ``1 - R = exp(-[Me (1.1 + T / 90) / (1 - oil)]^2 / 440)``, ``m = 100 Me / (100 + Me)``

    Parameters: relative_humidity [fraction], 0 <= R < 1; temperature_c [C], -40 to 90;
    oil [fraction of dry weight], 0 to 0.6.
    Returns: moisture m [% of fresh weight].
    Range: fitted near 15 to 25 C; trust it up to about 70 % RH.
    Raises: OutOfRangeError.

    Chickpea, 5 % oil, dried at 15 % RH and 15 C, holds about 6 %:

    >>> round(equilibrium_moisture(0.15, 15.0, 0.05), 1)
    6.0

    Source: Cromarty, Ellis & Roberts 1982, The Design of Seed Storage Facilities for Genetic
    Conservation (International Board for Plant Genetic Resources).
    """
    require("relative humidity", relative_humidity, 0.0, 0.999)
    _require_seed(temperature_c, oil)
    dry_basis = sqrt(-ISOTHERM_SCALE * log1p(-relative_humidity)) / _slope(temperature_c, oil)
    return 100.0 * dry_basis / (100.0 + dry_basis)


def equilibrium_humidity(moisture: float, temperature_c: float, oil: float) -> float:
    """Relative humidity of air in equilibrium with seed: the isotherm read backwards.

    ``R = 1 - exp(-[Me (1.1 + T / 90) / (1 - oil)]^2 / 440)``, ``Me = 100 m / (100 - m)``

    Parameters: moisture [% of fresh weight], 0 <= m < 100; temperature_c [C], -40 to 90;
    oil [fraction of dry weight], 0 to 0.6.
    Returns: relative humidity [fraction].
    Raises: OutOfRangeError.

    Maize, 5 % oil, at 13 % and 25 C stands at about 65 % RH:

    >>> round(equilibrium_humidity(13.0, 25.0, 0.05), 2)
    0.66

    Source: Cromarty, Ellis & Roberts 1982, as above.
    """
    require("moisture", moisture, 0.0, 99.0, "%")
    _require_seed(temperature_c, oil)
    dry_basis = 100.0 * moisture / (100.0 - moisture)
    reduced = dry_basis * _slope(temperature_c, oil)
    return 1.0 - exp(-reduced * reduced / ISOTHERM_SCALE)


def lowest_useful_moisture(oil: float) -> float:
    """Moisture below which drying brings no longer life.

    ``m(R = 0.106, T = 20 C)`` by the isotherm above.

    Parameters: oil [fraction of dry weight], 0 to 0.6.
    Returns: moisture [% of fresh weight].

    >>> round(lowest_useful_moisture(0.05), 1)
    4.8

    Source: Ellis, Hong & Roberts 1989, Annals of Botany 63:601-611 (10.6 % RH).
    """
    return equilibrium_moisture(LOWEST_USEFUL_RH, LOWEST_USEFUL_RH_AT_C, oil)


def _slope(temperature_c: float, oil: float) -> float:
    return (ISOTHERM_INTERCEPT + temperature_c / ISOTHERM_C_PER_UNIT) / (1.0 - oil)


def _require_seed(temperature_c: float, oil: float) -> None:
    require("temperature", temperature_c, _COLDEST_C, _HOTTEST_C, "C")
    require_inside("oil content", oil, -1e-9, _OILIEST + 1e-9)
