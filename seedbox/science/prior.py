"""What is believed of a lot before any test: initial viability K and ageing rate theta."""

from __future__ import annotations

from math import hypot, log
from typing import NamedTuple

from seedbox.science import constants as c
from seedbox.science.probit import probit


class Prior(NamedTuple):
    """Independent normals on K [probits] and ln theta [-]."""

    viability: float
    viability_sd: float
    ln_rate: float
    ln_rate_sd: float


class Viability(NamedTuple):
    """A normal on the initial viability K [probits]."""

    mean: float
    sd: float


_ABOVE_STANDARD = {
    "bought": Viability(c.BOUGHT_ABOVE, c.BOUGHT_SPREAD),
    "saved": Viability(c.SAVED_ABOVE, c.SAVED_SPREAD),
    "swapped": Viability(c.SWAPPED_ABOVE, c.SWAPPED_SPREAD),
    "gift": Viability(c.SWAPPED_ABOVE, c.SWAPPED_SPREAD),
}
_UNKNOWN = Viability(c.UNKNOWN_ABOVE, c.UNKNOWN_ORIGIN_SPREAD)


def initial_viability(
    origin: str | None, standard: float, *, standard_known: bool = True
) -> Viability:
    """Initial viability of a lot by where it came from.

    ``K ~ N(probit(standard) + above(origin), sd(origin))``; where the crop has no legal minimum
    the fallback widens sd in quadrature.

    Parameters: origin 'bought', 'saved', 'swapped', 'gift' or None; standard [fraction], the
    crop's minimum germination, strictly between 0 and 1.
    Returns: mean and sd of K [probits].
    Raises: OutOfRangeError.

    >>> initial_viability("bought", 0.5)
    Viability(mean=0.65, sd=0.4)

    Source: reasons beside each figure in ``constants``.
    """
    above = _ABOVE_STANDARD.get(origin or "", _UNKNOWN)
    sd = above.sd if standard_known else hypot(above.sd, c.NO_STANDARD_SPREAD)
    return Viability(probit(standard) + above.mean, sd)


def rate_spread(table_sd_ln: float, basis: str) -> float:
    """Spread of the lot's ageing rate: lots differ, and so do the tables of a crop.

    ``sd(ln theta) = min(sqrt(0.5^2 + sd_tables^2), 0.8)`` for a crop with its own figure

    Parameters: table_sd_ln [-], spread of ln years over independent tables; basis 'crop',
    'family', 'yours' or anything else for neither.
    Returns: sd of ln theta [-].

    >>> rate_spread(0.3, "crop")
    0.5830951894845301
    >>> rate_spread(0.0, "family")
    0.8

    Source: reasons beside each figure in ``constants``.
    """
    if basis in {"crop", "yours"}:
        return min(hypot(c.LOT_SPREAD, table_sd_ln), c.CROP_SPREAD_MOST)
    spread = c.FAMILY_SPREAD if basis == "family" else c.UNKNOWN_SPREAD
    return max(spread, min(hypot(c.LOT_SPREAD, table_sd_ln), c.UNKNOWN_SPREAD))


def lot_prior(viability: Viability, ln_rate_sd: float, *, primed: bool = False) -> Prior:
    """Prior of a lot; primed seed ages faster, by how much is uncertain.

    Parameters: viability [probits]; ln_rate_sd [-]; primed.
    Returns: Prior.

    >>> lot_prior(Viability(1.0, 0.4), 0.5)
    Prior(viability=1.0, viability_sd=0.4, ln_rate=0.0, ln_rate_sd=0.5)
    >>> round(lot_prior(Viability(1.0, 0.4), 0.5, primed=True).ln_rate_sd, 2)
    0.74

    Source: Tarquis & Bradford 1992 for primed seed, see ``constants.PRIMED_RATE``.
    """
    if not primed:
        return Prior(viability.mean, viability.sd, 0.0, ln_rate_sd)
    return Prior(
        viability.mean, viability.sd, log(c.PRIMED_RATE), hypot(ln_rate_sd, c.PRIMED_SPREAD)
    )
