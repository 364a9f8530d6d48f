"""Probability that at least k of n come up."""

from __future__ import annotations

from math import exp, lgamma, log, log1p

from seedbox.science.errors import require

_NEGLIGIBLE = 1e-17


def at_least(successes: int, trials: int, chance: float) -> float:
    """Upper tail of a binomial.

    ``P(X >= k) = sum over j >= k of C(n, j) p^j (1 - p)^(n - j)``, summed from k away from the
    mean, so that terms only fall

    Parameters: successes k, trials n [counts], 0 or more; chance p [-].
    Returns: probability [-], good to 1e-12.
    Raises: OutOfRangeError.

    >>> round(at_least(2, 3, 0.5), 12)
    0.5

    Source: definition.
    """
    require("trials", trials, 0, float("inf"))
    require("chance", chance, 0.0, 1.0)
    if successes <= 0:
        return 1.0
    if successes > trials or chance == 0.0:
        return 0.0
    if chance == 1.0:
        return 1.0
    if successes > trials * chance:
        return min(_upwards(successes, trials, chance), 1.0)
    return max(1.0 - _upwards(trials - successes + 1, trials, 1.0 - chance), 0.0)


def _upwards(start: int, trials: int, chance: float) -> float:
    if start > trials:
        return 0.0
    odds = chance / (1.0 - chance)
    term = exp(
        lgamma(trials + 1)
        - lgamma(start + 1)
        - lgamma(trials - start + 1)
        + start * log(chance)
        + (trials - start) * log1p(-chance)
    )
    total = 0.0
    for j in range(start, trials + 1):
        total += term
        if term <= _NEGLIGIBLE * total:
            break
        term *= odds * (trials - j) / (j + 1)
    return total
