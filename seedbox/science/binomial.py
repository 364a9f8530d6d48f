"""How sure k seedlings of n seeds make us: intervals for the germination of what was tested.

They treat the seeds as independent draws. The forecast of a lot is wider, see ``likelihood``.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import sqrt

from seedbox.science.errors import require, require_inside
from seedbox.science.incomplete_beta import beta_quantile
from seedbox.science.probit import probit


@dataclass(frozen=True, slots=True)
class Interval:
    """Both ends of an interval for a fraction [-]."""

    low: float
    high: float


def wilson(germinated: int, seeds: int, confidence: float = 0.95) -> Interval:
    """Score interval of a proportion (Wilson).

    ``(p + z^2/2n -+ z sqrt(p (1 - p) / n + z^2/4n^2)) / (1 + z^2/n)``

    Parameters: germinated k, seeds n [seeds], 0 <= k <= n, n >= 1; confidence [-], in (0, 1).
    Returns: Interval [fraction].
    Raises: OutOfRangeError.

    >>> found = wilson(9, 10)
    >>> round(found.low, 2), round(found.high, 2)
    (0.6, 0.98)

    Source: Wilson 1927, Journal of the American Statistical Association 22:209-212.
    """
    z = _half_width(germinated, seeds, confidence)
    share, pull = germinated / seeds, z * z / seeds
    centre = share + 0.5 * pull
    reach = z * sqrt(share * (1.0 - share) / seeds + 0.25 * pull / seeds)
    low = 0.0 if germinated == 0 else (centre - reach) / (1.0 + pull)
    high = 1.0 if germinated == seeds else (centre + reach) / (1.0 + pull)
    return Interval(low, high)


def agresti_coull(germinated: int, seeds: int, confidence: float = 0.95) -> Interval:
    """Wald's interval after adding z^2 seeds, half of them germinated; cut at 0 and 1.

    ``p~ -+ z sqrt(p~ (1 - p~) / n~)``, ``n~ = n + z^2``, ``p~ = (k + z^2/2) / n~``

    Parameters, returns, raises: as ``wilson``.

    >>> round(agresti_coull(18, 20).low, 4)
    0.6868

    Source: Agresti & Coull 1998, The American Statistician 52:119-126.
    """
    z = _half_width(germinated, seeds, confidence)
    size = seeds + z * z
    share = (germinated + 0.5 * z * z) / size
    reach = z * sqrt(share * (1.0 - share) / size)
    return Interval(max(share - reach, 0.0), min(share + reach, 1.0))


def clopper_pearson(germinated: int, seeds: int, confidence: float = 0.95) -> Interval:
    """Exact interval: covers at least as often as it says, mostly more often.

    ``low = Beta^-1(alpha/2; k, n - k + 1)``, ``high = Beta^-1(1 - alpha/2; k + 1, n - k)``

    Parameters, returns, raises: as ``wilson``.

    >>> round(clopper_pearson(18, 20).low, 4)
    0.683

    Source: Clopper & Pearson 1934, Biometrika 26:404-413.
    """
    tail = _tail(germinated, seeds, confidence)
    dead = seeds - germinated
    low = beta_quantile(tail, germinated, dead + 1.0) if germinated else 0.0
    high = 1.0 - beta_quantile(tail, dead, germinated + 1.0) if dead else 1.0
    return Interval(low, high)


def jeffreys(germinated: int, seeds: int, confidence: float = 0.95) -> Interval:
    """Equal-tailed posterior interval under Jeffreys' prior, Beta(1/2, 1/2).

    ``Beta^-1(alpha/2 and 1 - alpha/2; k + 1/2, n - k + 1/2)``; 0 is in it when k = 0, 1 when k = n

    Parameters, returns, raises: as ``wilson``.

    >>> round(jeffreys(9, 10).low, 2)
    0.62

    Source: Brown, Cai & DasGupta 2001, Statistical Science 16:101-133.
    """
    tail = _tail(germinated, seeds, confidence)
    a, b = germinated + 0.5, seeds - germinated + 0.5
    low = beta_quantile(tail, a, b) if germinated else 0.0
    high = 1.0 - beta_quantile(tail, b, a) if germinated < seeds else 1.0
    return Interval(low, high)


INTERVALS: dict[str, Callable[[int, int, float], Interval]] = {
    "wilson": wilson,
    "clopper-pearson": clopper_pearson,
    "jeffreys": jeffreys,
    "agresti-coull": agresti_coull,
}


def interval(germinated: int, seeds: int, confidence: float, method: str = "wilson") -> Interval:
    """An interval by the name of its method, one of the keys of ``INTERVALS``.

    >>> interval(7, 10, 0.95) == wilson(7, 10, 0.95)
    True
    """
    return INTERVALS[method](germinated, seeds, confidence)


def _tail(germinated: int, seeds: int, confidence: float) -> float:
    require("seeds", seeds, 1, float("inf"))
    require("germinated seeds", germinated, 0, seeds)
    require_inside("confidence", confidence, 0.0, 1.0)
    return 0.5 * (1.0 - confidence)


def _half_width(germinated: int, seeds: int, confidence: float) -> float:
    return -probit(_tail(germinated, seeds, confidence))
