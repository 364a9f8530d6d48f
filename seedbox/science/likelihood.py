"""How likely a germination test is at each viability: a beta-binomial, tabulated once a result."""

from __future__ import annotations

from functools import lru_cache
from math import lgamma
from typing import NamedTuple, Protocol

from seedbox.science.constants import BETA_SIZE, TEST_ICC
from seedbox.science.errors import require
from seedbox.science.lattice import fractions

MOST_SEEDS = 100_000


class Evidence(Protocol):
    """What tells of a lot's viability at one ageing dose [probits]: a test, or a counted tray."""

    @property
    def dose(self) -> float:
        """Ageing dose at which it was seen [probits]."""
        ...

    @property
    def weight(self) -> float:
        """Independent seeds of a simple test that would tell as much, or a little more [seeds]."""
        ...

    def log_table(self, fineness: int) -> tuple[float, ...]:
        """Log-likelihood at each point of the probit lattice, up to a constant."""
        ...


class LotTest(NamedTuple):
    """A test at a known ageing dose: `alive` of `seeds` (germinated and hard seed together).

    `icc` is how much repeat tests of one lot scatter beyond chance: more for a test that is only
    reported.
    """

    dose: float
    seeds: int
    alive: int
    icc: float = TEST_ICC

    @property
    def weight(self) -> float:
        """Independent seeds that would tell as much [seeds]."""
        return independent_seeds(self.seeds, self.icc)

    def log_table(self, fineness: int) -> tuple[float, ...]:
        """Log-likelihood at each point of the probit lattice."""
        return log_likelihood_table(self.alive, self.seeds, fineness, self.icc)


def beta_binomial_log_likelihood(alive: int, seeds: int, fraction: float) -> float:
    """Log-likelihood of a test of a lot whose repeat tests scatter more than binomially.

    ``ln L = ln B(k + g s, n - k + (1 - g) s) - ln B(g s, (1 - g) s)``, ``s = 1 / icc - 1``

    Parameters: alive k, seeds n [seeds], 0 <= k <= n; fraction g [-], strictly inside (0, 1).
    Returns: log-likelihood without the constant ln C(n, k).
    Raises: OutOfRangeError.

    >>> round(beta_binomial_log_likelihood(8, 10, 0.8), 3)
    -5.184

    Source: Skellam 1948, Journal of the Royal Statistical Society B 10:257-261; icc from
    van Hintum & van Treuren 2012, see ``constants.TEST_ICC``.
    """
    require("seeds tested", seeds, 1, MOST_SEEDS)
    require("seeds alive", alive, 0, seeds)
    a = fraction * BETA_SIZE
    b = (1.0 - fraction) * BETA_SIZE
    return (
        (lgamma(alive + a) - lgamma(a))
        + (lgamma(seeds - alive + b) - lgamma(b))
        - (lgamma(seeds + BETA_SIZE) - lgamma(BETA_SIZE))
    )


def independent_seeds(seeds: int, icc: float = TEST_ICC) -> float:
    """Seeds of a simple binomial test that would tell as much as this one.

    ``n_eff = n / (1 + (n - 1) icc)``

    Parameters: seeds n [seeds], 1 or more; icc [-], 0 to 1.
    Returns: effective number [seeds]; never above 1 / icc, 25 for a test of one's own.

    >>> round(independent_seeds(200), 1)
    22.3

    Source: design effect of cluster samples, Kish 1965, Survey Sampling.
    """
    return seeds / (1.0 + (seeds - 1) * icc)


def seeds_of_own_test(seeds: int, icc: float) -> float:
    """Seeds of a test with the usual scatter that would tell as much as this one with `icc`.

    ``n' = e (1 - icc') / (1 - e icc')``, the inverse of ``independent_seeds`` for icc' = TEST_ICC,
    where ``e = n / (1 + (n - 1) icc)``

    Parameters: seeds n [seeds], 1 or more; icc [-], TEST_ICC to 1.
    Returns: number of seeds [seeds], not whole.

    >>> round(seeds_of_own_test(20, 0.10), 1), round(seeds_of_own_test(20, TEST_ICC), 1)
    (9.1, 20.0)

    Source: as ``independent_seeds``.
    """
    require("icc", icc, TEST_ICC, 1.0)
    effective = independent_seeds(seeds, icc)
    return effective * (1.0 - TEST_ICC) / (1.0 - effective * TEST_ICC)


@lru_cache(maxsize=4096)
def log_likelihood_table(
    alive: int, seeds: int, fineness: int, icc: float = TEST_ICC
) -> tuple[float, ...]:
    """The same log-likelihood at each point of the probit lattice, up to a constant."""
    require("seeds tested", seeds, 1, MOST_SEEDS)
    require("seeds alive", alive, 0, seeds)
    dead = seeds - alive
    return tuple(
        [
            lgamma(alive + a) + lgamma(dead + b) - base
            for a, b, base in _beta_parameters(fineness, icc)
        ]
    )


@lru_cache(maxsize=16)
def _beta_parameters(fineness: int, icc: float) -> tuple[tuple[float, float, float], ...]:
    size = 1.0 / icc - 1.0
    parameters = ((p * size, q * size) for p, q in fractions(fineness))
    return tuple((a, b, lgamma(a) + lgamma(b)) for a, b in parameters)
