"""The improved viability equation, used for ratios between stores, and the fall of a seed lot."""

from __future__ import annotations

from math import log10

from seedbox.science.constants import CH, CQ, CW, DAYS_PER_YEAR, FALL_PROBITS
from seedbox.science.errors import require, require_inside
from seedbox.science.probit import normal_cdf

_COLDEST_C = -40.0
_HOTTEST_C = 90.0


def log10_relative_life(moisture: float, temperature_c: float, cw: float = CW) -> float:
    """Where a store lies on the scale of seed life (Ellis & Roberts).

    ``f(m, T) = -CW log10 m - CH T - CQ T^2``

    Parameters: moisture [% of fresh weight], above 0 to 60; temperature_c [C], -40 to 90;
    cw [-], the crop's moisture term.
    Returns: log10 of relative life [-]; only differences of it mean anything.
    Raises: OutOfRangeError.

    Cooling from 20 to 10 C at equal moisture makes seed live about three times as long:

    >>> round(10 ** (log10_relative_life(7, 10) - log10_relative_life(7, 20)), 2)
    2.97

    Source: Ellis & Roberts 1980, Annals of Botany 45:13-30; temperature terms by Dickie,
    Ellis, Kraak, Ryder & Tompsett 1990, Annals of Botany 65:197-204.
    """
    require_inside("moisture", moisture, 0.0, 60.0, "%")
    require("temperature", temperature_c, _COLDEST_C, _HOTTEST_C, "C")
    return -cw * log10(moisture) - CH * temperature_c - CQ * temperature_c * temperature_c


def relative_ageing(
    moisture: float, temperature_c: float, reference_moisture: float, reference_c: float
) -> float:
    """How many times faster seed ages here than in the reference store.

    ``10^(f(m_ref, T_ref) - f(m, T))``

    Parameters: moisture, reference_moisture [% of fresh weight]; temperature_c, reference_c [C].
    Returns: ratio of ageing rates [-].
    Range: as ``log10_relative_life``.

    >>> round(relative_ageing(7, 10, 7, 20), 3)
    0.337

    Source: Ellis & Roberts 1980, as above.
    """
    return float(
        10.0
        ** (
            log10_relative_life(reference_moisture, reference_c)
            - log10_relative_life(moisture, temperature_c)
        )
    )


def days_per_probit(storage_years: float) -> float:
    """Ageing of a typical lot in the reference store, from a storage-life table.

    ``sigma_ref = years x 365.25 / 1.03``

    Parameters: storage_years [years], above 0 to 1000: fall from 90 % to 60 %.
    Returns: sigma_ref [days per probit].
    Raises: OutOfRangeError.

    >>> round(days_per_probit(4.0))
    1418

    Source: reading of the storage-life tables given in ``constants.FALL_PROBITS``.
    """
    require_inside("storage life", storage_years, 0.0, 1000.0, "years")
    return storage_years * DAYS_PER_YEAR / FALL_PROBITS


def germination(initial_probits: float, ageing_rate: float, dose: float) -> float:
    """Fraction of a seed lot that still germinates.

    ``g = Phi(K - theta D)``

    Parameters: initial_probits K [probits]; ageing_rate theta [-], a typical lot is 1;
    dose D [probits], 0 or more.
    Returns: fraction [-].

    >>> round(germination(1.28155, 1.0, 1.03), 2)
    0.6

    Source: Ellis & Roberts 1980, as above, with the dose summed over storage periods.
    """
    return normal_cdf(initial_probits - ageing_rate * dose)
