"""The beta distribution: its cumulative probability and the inverse of it."""

from __future__ import annotations

from math import exp, lgamma, log, log1p, sqrt

from seedbox.science.errors import require, require_inside
from seedbox.science.probit import probit

_TINY = 1e-300
_CONVERGED = 1e-15
_MOST_TERMS = 20_000
_MOST_STEPS = 200


def beta_cdf(x: float, a: float, b: float) -> float:
    """Regularised incomplete beta function, P(X <= x) for X of a beta distribution.

    ``I_x(a, b) = x^a (1 - x)^b / (a B(a, b)) / (1 + d1 / (1 + d2 / (1 + ...)))``

    Parameters: x [fraction]; a, b [-], above 0.
    Returns: probability [-], good to about 1e-12.
    Range: 0 <= x <= 1.
    Raises: OutOfRangeError.

    >>> round(beta_cdf(0.5, 2.0, 2.0), 12)
    0.5
    >>> round(beta_cdf(0.2, 1.0, 3.0), 12)
    0.488

    Source: NIST Digital Library of Mathematical Functions 8.17.22; evaluated by the method of
    Lentz as given by Thompson & Barnett 1986, Journal of Computational Physics 64:490-509.
    """
    require("x", x, 0.0, 1.0)
    require_inside("a", a, 0.0, float("inf"))
    require_inside("b", b, 0.0, float("inf"))
    if x in (0.0, 1.0):
        return x
    if x > (a + 1.0) / (a + b + 2.0):
        return 1.0 - _lower_part(1.0 - x, b, a, log(x), log1p(-x))
    return _lower_part(x, a, b, log1p(-x), log(x))


def beta_density(x: float, a: float, b: float) -> float:
    """Density of a beta distribution, 0 < x < 1.

    >>> round(beta_density(0.5, 2.0, 2.0), 12)
    1.5
    """
    return exp((a - 1.0) * log(x) + (b - 1.0) * log1p(-x) - _log_beta(a, b))


def beta_quantile(probability: float, a: float, b: float) -> float:
    """The x that a beta variable stays below with the given probability.

    ``I_x(a, b) = p``, solved by Newton's steps kept inside a shrinking bracket.

    Parameters: probability p [-]; a, b [-], above 0.
    Returns: x [fraction], good to 1e-10.
    Range: 0 <= p <= 1.
    Raises: OutOfRangeError.

    >>> round(beta_quantile(0.488, 1.0, 3.0), 10)
    0.2

    Source: definition; Newton's method with bisection as the fallback.
    """
    require("probability", probability, 0.0, 1.0)
    if probability in (0.0, 1.0):
        return probability
    low, high, x = 0.0, 1.0, _first_guess(probability, a, b)
    for _ in range(_MOST_STEPS):
        off = beta_cdf(x, a, b) - probability
        low, high = (low, x) if off > 0.0 else (x, high)
        step = off / max(beta_density(x, a, b), _TINY)
        following = x - step if low < x - step < high else 0.5 * (low + high)
        if abs(following - x) <= 1e-14 * following:
            return following
        x = following
        if not 0.0 < x < 1.0:
            return x
    return x


def _first_guess(probability: float, a: float, b: float) -> float:
    """Normal approximation around the mean, kept inside (0, 1)."""
    mean = a / (a + b)
    sd = sqrt(mean * (1.0 - mean) / (a + b + 1.0))
    return min(max(mean + sd * probit(probability), 0.1 * mean), 1.0 - 0.1 * (1.0 - mean))


def _log_beta(a: float, b: float) -> float:
    return lgamma(a) + lgamma(b) - lgamma(a + b)


def _lower_part(x: float, a: float, b: float, ln_not_x: float, ln_x: float) -> float:
    front = exp(a * ln_x + b * ln_not_x - _log_beta(a, b)) / a
    return front * _continued_fraction(x, a, b)


def _continued_fraction(x: float, a: float, b: float) -> float:
    """1 / (1 + d1 / (1 + d2 / ...)) from the front, by Lentz's ratio of convergents."""
    upper, lower, value = 1.0, 0.0, 1.0
    for term in range(1, _MOST_TERMS):
        d = _coefficient(term, x, a, b)
        lower = 1.0 / _away_from_zero(1.0 + d * lower)
        upper = _away_from_zero(1.0 + d / upper)
        change = upper * lower
        value *= change
        if abs(change - 1.0) < _CONVERGED:
            break
    return 1.0 / value


def _coefficient(term: int, x: float, a: float, b: float) -> float:
    m, odd = divmod(term, 2)
    if odd:
        return -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
    return m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))


def _away_from_zero(value: float) -> float:
    return value if abs(value) > _TINY else _TINY
