"""How much of the seed that germinates on paper comes up in the trays of one place.

The factor is learnt from the grower's own trays, and turns a counted tray into evidence on the
packet: weaker than a test on paper, because the factor is uncertain and trays differ.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from math import exp, lgamma, log

from seedbox.science import testing_constants as c
from seedbox.science.errors import require, require_inside
from seedbox.science.incomplete_beta import beta_cdf
from seedbox.science.lattice import fractions

_CELLS = 40
_NODES = 7  # of equal probability, enough for a likelihood as flat as a tray's
_TRAY_SIZE = 1.0 / c.TRAY_ICC - 1.0
_LEAST = 1e-12
_SHARE_STEPS = 512
_MOST_SEEDS = 100_000


@dataclass(frozen=True, slots=True)
class EmergenceFactor:
    """Belief in the factor of a place: `weights` of equal cells from 0 to 1, sum 1."""

    weights: tuple[float, ...]

    def mean(self) -> float:
        """Mean factor [fraction]."""
        return sum(f * w for f, w in self.nodes())

    def nodes(self) -> list[tuple[float, float]]:
        """(factor, weight), the middle of each cell."""
        cells = len(self.weights)
        return [((i + 0.5) / cells, weight) for i, weight in enumerate(self.weights)]

    def quantile(self, probability: float) -> float:
        """Factor not exceeded with a probability [fraction], straight within a cell."""
        require("probability", probability, 0.0, 1.0)
        total = 0.0
        for i, weight in enumerate(self.weights):
            if weight > 0.0 and total + weight >= probability:
                return (i + (probability - total) / weight) / len(self.weights)
            total += weight
        return 1.0


@dataclass(frozen=True, slots=True)
class Tray:
    """`emerged` of `sown` seeds; `masses` what was believed of the lot's germination then.

    `masses` is a distribution on the probit lattice, as ``Belief.masses`` gives it.
    """

    sown: int
    emerged: int
    masses: Sequence[float]


@dataclass(frozen=True, slots=True)
class TrayTest:
    """A counted tray as evidence on its packet: `emerged` of `sown` at an ageing dose [probits].

    `factor` is what is believed of the place without this packet's own trays, lest they are
    used twice.
    """

    dose: float
    sown: int
    emerged: int
    factor: EmergenceFactor

    @property
    def weight(self) -> float:
        """Independent seeds on paper that would tell at most as much [seeds]."""
        return self.sown / (1.0 + (self.sown - 1) * c.TRAY_ICC)

    def log_table(self, fineness: int) -> tuple[float, ...]:
        """Log-likelihood at each point of the probit lattice, see ``lattice.fractions``."""
        return tray_log_likelihood_table(self.emerged, self.sown, self.factor, fineness)


@lru_cache(maxsize=8)
def prior_factor(
    mean: float = c.EMERGENCE_MEAN, strength: float = c.EMERGENCE_STRENGTH
) -> EmergenceFactor:
    """Belief in the factor before any tray was counted.

    ``f ~ Beta(mean x strength, (1 - mean) x strength)``

    Parameters: mean [fraction], in (0, 1); strength [seeds], above 0.
    Returns: EmergenceFactor.
    Raises: OutOfRangeError.

    >>> round(prior_factor().mean(), 2)
    0.85

    Source: Seedbox's own prior, reasons in ``testing_constants``.
    """
    require_inside("mean emergence factor", mean, 0.0, 1.0)
    require_inside("strength of the prior", strength, 0.0, float("inf"), "seeds")
    a, b = mean * strength, (1.0 - mean) * strength
    below = [beta_cdf(i / _CELLS, a, b) for i in range(_CELLS + 1)]
    return EmergenceFactor(tuple(high - low for low, high in pairwise(below)))


def learn(factor: EmergenceFactor, trays: Iterable[Tray]) -> EmergenceFactor:
    """Belief in the factor after counted trays.

    ``p(f | trays) ~ p(f) x prod over trays of sum over g of p(g) BetaBinomial(k | n, g f)``

    Parameters: factor, the belief before; trays, of different lots or dates. What is believed of a
    lot is taken as independent from tray to tray.
    Returns: EmergenceFactor.
    Raises: OutOfRangeError for impossible counts.

    >>> sure = [0.0] * 129
    >>> sure[64 + 12] = 1.0  # 93 % germinate on paper
    >>> learn(prior_factor(), [Tray(40, 20, sure)] * 3).mean() < 0.7
    True

    Source: Bayes' rule.
    """
    weights = list(factor.weights)
    for tray in trays:
        found = _tray_likelihoods(tray, [f for f, _ in factor.nodes()])
        weights = [w * likelihood for w, likelihood in zip(weights, found, strict=True)]
        total = sum(weights)
        weights = [w / total for w in weights]
    return EmergenceFactor(tuple(weights))


def _tray_likelihoods(tray: Tray, factors: Sequence[float]) -> list[float]:
    """Likelihood of a tray at each factor, its lot averaged out, up to a constant."""
    _check(tray.emerged, tray.sown)
    by_share = _by_share(tray.emerged, tray.sown)
    known = [(alive, m) for (alive, _), m in zip(fractions(0), tray.masses, strict=True) if m > 0.0]
    return [sum([m * _read(by_share, alive * f) for alive, m in known]) for f in factors]


def tray_log_likelihood_table(
    emerged: int, sown: int, factor: EmergenceFactor, fineness: int
) -> tuple[float, ...]:
    """Log-likelihood of a tray at each point of the probit lattice, up to a constant.

    ``ln sum over f of p(f) BetaBinomial(k | n, Phi(z) f; icc 0.10)``

    Parameters: emerged k, sown n [seeds]; factor of the place; fineness of the lattice.
    Returns: one value a point, as ``likelihood.log_likelihood_table``.
    Raises: OutOfRangeError.

    >>> len(tray_log_likelihood_table(3, 10, prior_factor(), 0))
    129

    Source: beta-binomial as in ``likelihood``, mixed over the factor.
    """
    _check(emerged, sown)
    table = _coarse_table(emerged, sown, factor)
    for _ in range(fineness):
        table = _halved(table)
    return table


@lru_cache(maxsize=1024)
def _coarse_table(emerged: int, sown: int, factor: EmergenceFactor) -> tuple[float, ...]:
    nodes = _few_nodes(factor)
    return tuple(_mixed(emerged, sown, alive, nodes) for alive, _ in fractions(0))


def _mixed(emerged: int, sown: int, alive: float, nodes: Sequence[float]) -> float:
    by_share = _by_share(emerged, sown)
    return log(sum([_read(by_share, alive * f) for f in nodes]) / len(nodes))


@lru_cache(maxsize=256)
def _few_nodes(factor: EmergenceFactor) -> tuple[float, ...]:
    return tuple(factor.quantile((i + 0.5) / _NODES) for i in range(_NODES))


@lru_cache(maxsize=1024)
def _by_share(emerged: int, sown: int) -> tuple[float, ...]:
    """Likelihood of a tray at equal steps of the share that comes up, its peak 1.

    A tray sees shares no finer than its scatter, and near none and all the likelihood runs
    straight, so it is read straight between the steps: weights of the factor keep to 0.001.
    """
    logs = [_log_p(emerged, sown, i / _SHARE_STEPS) for i in range(_SHARE_STEPS + 1)]
    peak = max(logs)
    found = [exp(value - peak) for value in logs]
    return (*found, found[-1])


def _read(by_share: tuple[float, ...], share: float) -> float:
    place = share * _SHARE_STEPS
    cell = int(place)
    return by_share[cell] + (place - cell) * (by_share[cell + 1] - by_share[cell])


def _log_p(emerged: int, sown: int, share: float) -> float:
    """Log of the beta-binomial of a tray, without ln C(n, k)."""
    share = min(max(share, _LEAST), 1.0 - _LEAST)
    a, b = share * _TRAY_SIZE, (1.0 - share) * _TRAY_SIZE
    return (
        (lgamma(emerged + a) - lgamma(a))
        + (lgamma(sown - emerged + b) - lgamma(b))
        - (lgamma(sown + _TRAY_SIZE) - lgamma(_TRAY_SIZE))
    )


def _halved(table: tuple[float, ...]) -> tuple[float, ...]:
    """The same table with a point added between each two (cubic, level beyond the ends)."""
    padded = [table[0], *table, table[-1]]
    found = []
    for before, left, right, after in zip(padded, padded[1:], padded[2:], padded[3:], strict=False):
        found += [left, (9.0 * (left + right) - before - after) / 16.0]
    return (*found, table[-1])


def _check(emerged: int, sown: int) -> None:
    require("seeds sown", sown, 1, _MOST_SEEDS)
    require("seedlings emerged", emerged, 0, sown)
