"""A lot without tests: given the ageing rate, K is normal and everything has a closed form."""

from __future__ import annotations

from functools import lru_cache
from math import erfc, exp, floor, sqrt

from seedbox.science.lattice import LOWEST, PER_PROBIT, POINTS
from seedbox.science.prior import Prior
from seedbox.science.rates import prior_nodes

_STRIDE = 2  # every second lattice point resolves the prior's spread of K, 0.4 probits or more
_PHASES = 16
_REACH_SD = 4.0


class UntestedLot:
    """Belief in a lot of which only the prior is known."""

    def __init__(self, prior: Prior) -> None:
        self._prior = prior
        self._nodes = prior_nodes(prior)

    def probability_at_least(self, viability: float, dose: float) -> float:
        """P(g >= Phi(viability)) at an ageing dose [probits]."""
        return self._mean_cdf(self._prior.viability - viability, dose, self._prior.viability_sd)

    def mean(self, dose: float) -> float:
        """Mean germination [fraction]: E[Phi(K - theta D)] with K normal."""
        return self._mean_cdf(self._prior.viability, dose, sqrt(1.0 + self._prior.viability_sd**2))

    def _mean_cdf(self, start: float, dose: float, sd: float) -> float:
        """E[Phi((start - theta D) / sd)] over the ageing rate; Phi written out for speed."""
        scale = sqrt(0.5) / sd
        start, fall = start * scale, dose * scale
        return 0.5 * sum([weight * erfc(rate * fall - start) for rate, weight in self._nodes])

    def masses(self, dose: float) -> list[float]:
        """Distribution of K - theta D on the probit lattice; sums to 1."""
        shapes = _normal_shapes(self._prior.viability_sd)
        per = PER_PROBIT / _STRIDE
        points = [0.0] * (POINTS // _STRIDE + 1)
        start = (self._prior.viability - LOWEST) * per
        for rate, weight in self._nodes:
            place = start - rate * dose * per
            index = floor(place)
            first, shape = shapes[int((place - index) * _PHASES)]
            _add(points, index + first, shape, weight)
        spread = [0.0] * POINTS
        spread[::_STRIDE] = points
        return spread

    def centre(self) -> tuple[float, float]:
        """Means of K [probits] and of ln theta [-]."""
        return self._prior.viability, self._prior.ln_rate


def _add(points: list[float], index: int, shape: tuple[float, ...], weight: float) -> None:
    """Add weight times a shape that begins at a point; what lies beyond an end falls on it."""
    end = index + len(shape)
    if end <= 0:
        points[0] += weight
    elif index < 0 or end > len(points):
        last = len(points) - 1
        for i, mass in enumerate(shape, index):
            points[min(max(i, 0), last)] += weight * mass
    else:
        for i, mass in enumerate(shape, index):
            points[i] += weight * mass


@lru_cache(maxsize=64)
def _normal_shapes(sd: float) -> tuple[tuple[int, tuple[float, ...]], ...]:
    """A normal of this sd sampled on the coarse lattice, for each phase of its mean in a cell."""
    per = PER_PROBIT / _STRIDE
    reach = int(_REACH_SD * sd * per) + 1
    shapes = []
    for phase in range(_PHASES):
        centre = (phase + 0.5) / _PHASES
        logs = [((i - centre) / per / sd) ** 2 for i in range(-reach, reach + 2)]
        sampled = [exp(-0.5 * value) for value in logs]
        total = sum(sampled)
        shapes.append((-reach, tuple(value / total for value in sampled)))
    return tuple(shapes)
