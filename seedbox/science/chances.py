"""How likely one seed is to give a plant here, as a distribution: what the lot is worth, what the
place takes, and how trays of one lot scatter.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import ceil, exp, floor, lgamma, log

from seedbox.science.errors import require, require_inside
from seedbox.science.lattice import fractions
from seedbox.science.probit import normal_cdf, normal_density, probit

# The probit scale on which distributions are gathered, and on which trays scatter.
_PER_PROBIT = 16
_REACH = 8.0
_STEPS = int(2 * _REACH * _PER_PROBIT)
# The trapezium rule is exact to 1e-6 for a normal in steps of its own sd.
_STEP_PER_SD = 0.9
_WIDEST_STEP = 0.25
_LEAST_SCATTER = 0.002  # less is narrower than the scale can hold
_MANY_NODES = 400
_NO_MASS = 1e-10
_SMALL_MASS = 1e-7  # of a mixture: 257 of them move no probability by more than 3e-5
_LEAST_CHANCE = 1e-9


@dataclass(frozen=True, slots=True)
class Chances:
    """Chance that a seed gives a plant [fraction], each with its weight; weights sum to 1."""

    nodes: tuple[tuple[float, float], ...]

    def mean(self) -> float:
        """Mean chance [fraction]."""
        return sum(chance * weight for chance, weight in self.nodes)

    def average(self, probability: Callable[[float], float]) -> float:
        """A probability that depends on the chance, averaged over what is not known."""
        return sum(weight * probability(chance) for chance, weight in self.nodes)


@dataclass(frozen=True, slots=True)
class PlaceFactor:
    """Share of the living seed that comes up in a place: a beta distribution by mean and sd."""

    mean: float
    sd: float = 0.0


def certain(chance: float) -> Chances:
    """A chance that is known exactly.

    >>> certain(0.8).mean()
    0.8
    """
    require("chance", chance, 0.0, 1.0)
    return Chances(((chance, 1.0),))


def of_masses(masses: Sequence[float]) -> Chances:
    """Chances from a lot's distribution on the probit lattice, as ``Belief.masses`` gives it.

    Parameters: masses, one a lattice point, sum 1 (tiny negative ones from interpolation are
    left out).
    Returns: Chances.

    >>> from seedbox.science.lattice import POINTS
    >>> masses = [0.0] * POINTS
    >>> masses[POINTS // 2] = 1.0
    >>> of_masses(masses)
    Chances(nodes=((0.5, 1.0),))
    """
    kept = [
        (alive, mass)
        for (alive, _), mass in zip(fractions(0), masses, strict=True)
        if mass > _NO_MASS
    ]
    return _normalised(kept)


def in_place(chances: Chances, place: PlaceFactor) -> Chances:
    """Chances of plants where only a share of the living seed comes up.

    ``p = g F``, F ~ Beta with the place's mean and sd, independent of g

    Parameters: chances g; place, mean in (0, 1], sd below sqrt(mean (1 - mean)), 0 for a share
    that is known exactly.
    Returns: Chances p.
    Raises: OutOfRangeError.

    >>> in_place(certain(0.8), PlaceFactor(0.5)).nodes
    ((0.4, 1.0),)
    >>> round(in_place(certain(0.8), PlaceFactor(0.5, 0.1)).mean(), 6)
    0.4

    Source: definition; moments of the beta distribution.
    """
    require("share that comes up", place.mean, 0.0, 1.0)
    if place.sd == 0.0 or place.mean in (0.0, 1.0):
        return Chances(tuple((g * place.mean, weight) for g, weight in chances.nodes))
    require_inside("spread of the share", place.sd**2, 0.0, place.mean * (1.0 - place.mean))
    return with_shares(chances, _share_nodes(place))


def with_shares(chances: Chances, shares: Sequence[tuple[float, float]]) -> Chances:
    """The same for a place whose share is known as nodes (share [fraction], weight).

    >>> with_shares(certain(0.8), [(0.5, 0.5), (1.0, 0.5)]).nodes
    ((0.4, 0.5), (0.8, 0.5))
    """
    pairs = [(g * f, w * v) for g, w in chances.nodes for f, v in shares]
    return _gathered(pairs) if len(pairs) > _MANY_NODES else _normalised(pairs)


def scattered(chances: Chances, icc: float) -> Chances:
    """Chances for one tray, which scatter around the lot's own by more than luck.

    ``Y ~ Beta(p s, (1 - p) s)``, ``s = 1 / icc - 1``: seeds of one tray then come up
    beta-binomially, with intraclass correlation icc

    Parameters: chances p; icc [-], 0 (none) or from 0.002 to below 1.
    Returns: Chances Y, shared by all cells of the tray.
    Raises: OutOfRangeError.

    >>> round(scattered(certain(0.8), 0.04).mean(), 6)
    0.8
    >>> scattered(certain(0.8), 0.0) == certain(0.8)
    True

    Source: Skellam 1948, Journal of the Royal Statistical Society B 10:257-261.
    """
    if icc == 0.0:
        return chances
    require("overdispersion", icc, _LEAST_SCATTER, 0.999)
    size = 1.0 / icc - 1.0
    total: dict[float, float] = {}
    for chance, weight in chances.nodes:
        for share, mass in _scatter_nodes(chance, size):
            total[share] = total.get(share, 0.0) + weight * mass
    kept = [(share, weight) for share, weight in sorted(total.items()) if weight > _SMALL_MASS]
    return _normalised(kept)


def _normalised(nodes: Sequence[tuple[float, float]]) -> Chances:
    total = sum(weight for _, weight in nodes)
    require_inside("total mass", total, 0.0, float("inf"))
    return Chances(tuple((chance, weight / total) for chance, weight in nodes))


_Level = tuple[float, float, float, float]


def _level(probits: float) -> _Level:
    """(share, ln share, ln of the rest, density) at a point of the probit scale."""
    share, rest = normal_cdf(probits), normal_cdf(-probits)
    return share, log(share), log(rest), normal_density(probits)


@lru_cache(maxsize=1)
def _scale() -> tuple[_Level, ...]:
    return tuple(_level(-_REACH + i / _PER_PROBIT) for i in range(_STEPS + 1))


@lru_cache(maxsize=256)
def _share_nodes(place: PlaceFactor) -> tuple[tuple[float, float], ...]:
    """The place's share on a scale of its own, fine enough for its spread."""
    centre = probit(place.mean)
    step = min(_STEP_PER_SD * place.sd / normal_density(centre), _WIDEST_STEP)
    first, last = ceil((-_REACH - centre) / step), floor((_REACH - centre) / step)
    levels = [_level(centre + i * step) for i in range(first, last + 1)]
    size = place.mean * (1.0 - place.mean) / place.sd**2 - 1.0
    return tuple(_beta_nodes(place.mean, size, levels, step))


@lru_cache(maxsize=2048)
def _scatter_nodes(mean: float, size: float) -> tuple[tuple[float, float], ...]:
    if not _LEAST_CHANCE < mean < 1.0 - _LEAST_CHANCE:
        return ((mean, 1.0),)
    return tuple(_beta_nodes(mean, size, _scale(), 1.0 / _PER_PROBIT))


def _beta_nodes(
    mean: float, size: float, levels: Sequence[_Level], step: float
) -> list[tuple[float, float]]:
    """A beta distribution by the trapezium rule on the probit scale."""
    a, b = mean * size, (1.0 - mean) * size
    constant = lgamma(size) - lgamma(a) - lgamma(b) + log(step)
    masses = [
        (share, exp(constant + (a - 1.0) * ln_share + (b - 1.0) * ln_rest) * density)
        for share, ln_share, ln_rest, density in levels
    ]
    nodes = [(share, mass) for share, mass in masses if mass > _NO_MASS]
    missing = 1.0 - sum(mass for _, mass in nodes)
    if min(a, b) > 1.0 or missing <= _NO_MASS:
        return nodes
    # What lies beyond the scale is none or all of the seed.
    above = min(max(mean - sum(share * mass for share, mass in nodes), 0.0), missing)
    return [(0.0, missing - above), *nodes, (1.0, above)]


def _gathered(pairs: Sequence[tuple[float, float]]) -> Chances:
    """Many nodes gathered on the fine probit scale; each is split so that the mean is kept."""
    shares = [share for share, _, _, _ in _scale()]
    weights, last = [0.0] * len(shares), len(shares) - 2
    for chance, weight in pairs:
        low = min(max(bisect_right(shares, chance) - 1, 0), last)
        part = (chance - shares[low]) / (shares[low + 1] - shares[low])
        weights[low] += weight * (1.0 - part)
        weights[low + 1] += weight * part
    return _normalised([(s, w) for s, w in zip(shares, weights, strict=True) if w > _NO_MASS])
