"""A tested lot: quadrature over (K, ln theta).

For each node of ln theta the distribution of K is kept on a lattice of its own, centred where its
mass is. Any later dose only shifts those lattices, so one posterior answers for every date.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, exp, floor, log, sqrt
from typing import Protocol

from seedbox.science.conditional import NEGLIGIBLE, ConditionalViability, Row
from seedbox.science.lattice import LOWEST, PER_PROBIT, POINTS
from seedbox.science.likelihood import Evidence
from seedbox.science.predictive import mean_fraction
from seedbox.science.prior import Prior
from seedbox.science.rates import REACH_SD, rate_step
from seedbox.science.untested import UntestedLot

_SCAN_NODES = 7
_ENOUGH_NODES = 3  # a scan that finds the mass on so many nodes has seen its shape
_SCAN_NEGLIGIBLE = 6.4  # just less than the prior falls at its reach, 3.6^2 / 2 log units
_MOST_NODES = 96
_MOST_SCANS = 12


class Belief(Protocol):
    """Joint distribution of initial viability and ageing rate, asked at any ageing dose."""

    def probability_at_least(self, viability: float, dose: float) -> float:
        """P(g >= Phi(viability)) when a typical lot has aged by `dose` [probits]."""
        ...

    def mean(self, dose: float) -> float:
        """Mean germination [fraction]."""
        ...

    def masses(self, dose: float) -> list[float]:
        """Distribution of K - theta D on the probit lattice; sums to 1."""
        ...

    def centre(self) -> tuple[float, float]:
        """Means of K [probits] and of ln theta [-]."""
        ...


def lot_belief(prior: Prior, tests: Sequence[Evidence]) -> Belief:
    """Belief in a lot after its tests.

    ``p(K, ln theta | tests) ~ N(K) N(ln theta) prod BetaBinomial(k | n, Phi(K - theta D))``

    Parameters: prior; tests (``LotTest``, ``TrayTest``), each with its dose [probits].
    Returns: Belief, good to 0.005 in mean, quantiles and probabilities.

    >>> from seedbox.science.likelihood import LotTest
    >>> prior = Prior(1.5, 0.4, 0.0, 0.6)
    >>> round(lot_belief(prior, []).probability_at_least(0.0, 1.0), 2)
    0.71
    >>> round(lot_belief(prior, [LotTest(1.0, 20, 11)]).probability_at_least(0.0, 1.0), 2)
    0.75

    Source: Bayes' rule; the model is germination = Phi(K - theta D), see ``viability``.
    """
    return TestedLot(prior, tests) if tests else UntestedLot(prior)


class TestedLot:
    """Belief in a lot after one test or more."""

    __test__ = False  # not a test class, whatever its name starts with

    def __init__(self, prior: Prior, tests: Sequence[Evidence]) -> None:
        conditional = ConditionalViability(prior, tests)
        self._per_probit = conditional.per_probit
        rows = _rows(prior, conditional, ConditionalViability(prior, tests, coarse=True))
        peak = max(mass for _, mass in rows)
        weighted = [(row, exp(mass - peak)) for row, mass in rows if mass > peak - NEGLIGIBLE]
        total = sum(weight for _, weight in weighted)
        self._rows = [(row, weight / total) for row, weight in weighted]

    def probability_at_least(self, viability: float, dose: float) -> float:
        """P(g >= Phi(viability)) at an ageing dose [probits]."""
        per_probit = self._per_probit
        below = 0.0
        for row, weight in self._rows:
            place = (viability + row.rate * dose - row.low) * per_probit + 1.5
            if place <= 1.0:
                continue
            cell = int(place)
            cumulative = row.cumulative
            if cell >= len(cumulative) - 2:
                below += weight
                continue
            # The cell's own density with the slope of its neighbours (third order).
            t = place - cell
            before, start, end, after = cumulative[cell - 1 : cell + 3]
            bend = after - end - start + before
            below += weight * (start + t * (end - start) + bend * (0.25 * t * (t - 1.0) + 1 / 48))
        return 1.0 - below

    def mean(self, dose: float) -> float:
        """Mean germination [fraction]."""
        return mean_fraction(self.masses(dose))

    def masses(self, dose: float) -> list[float]:
        """Distribution of K - theta D on the probit lattice; sums to 1."""
        spread = [0.0] * POINTS
        phases = self._per_probit // PER_PROBIT
        for row, weight in self._rows:
            place = (row.low - row.rate * dose - LOWEST) * PER_PROBIT
            for phase in range(phases):
                _deposit(spread, place + phase / phases, row.shares[phase::phases], weight)
        return spread

    def centre(self) -> tuple[float, float]:
        """Means of K [probits] and of ln theta [-]."""
        viability = sum(weight * _mean_of(row, self._per_probit) for row, weight in self._rows)
        return viability, sum(weight * log(row.rate) for row, weight in self._rows)


def _deposit(spread: list[float], place: float, shares: list[float], weight: float) -> None:
    """Add shares that lie one lattice step apart, from a place between lattice points.

    Each is split over the four points beside it by Lagrange's cubic weights, which keep mean,
    variance and skewness.
    """
    index = floor(place)
    if index + len(shares) + 2 <= 0:
        spread[0] += weight * sum(shares)
        return
    t = place - index
    w0 = -weight * t * (t - 1.0) * (t - 2.0) / 6.0
    w1 = weight * (t + 1.0) * (t - 1.0) * (t - 2.0) / 2.0
    w2 = -weight * (t + 1.0) * t * (t - 2.0) / 2.0
    w3 = weight * (t + 1.0) * t * (t - 1.0) / 6.0
    padded = [0.0, 0.0, 0.0, *shares, 0.0, 0.0, 0.0]
    added = [
        w0 * d + w1 * c + w2 * b + w3 * a
        for a, b, c, d in zip(padded, padded[1:], padded[2:], padded[3:], strict=False)
    ]
    index -= 1
    if index >= 0 and index + len(added) <= POINTS:
        for i, share in enumerate(added, index):
            spread[i] += share
        return
    for i, share in enumerate(added, index):
        spread[min(max(i, 0), POINTS - 1)] += share


def _mean_of(row: Row, per_probit: int) -> float:
    return row.low + sum(i * share for i, share in enumerate(row.shares)) / per_probit


def _rows(
    prior: Prior, conditional: ConditionalViability, coarse: ConditionalViability
) -> list[tuple[Row, float]]:
    """Rows with the log of their mass: a scan finds the mass, a second pass resolves it."""
    low = prior.ln_rate - REACH_SD * prior.ln_rate_sd
    high = prior.ln_rate + REACH_SD * prior.ln_rate_sd
    for _ in range(_MOST_SCANS):
        scan = _pass(prior, coarse, low, high, _SCAN_NODES)
        step = (high - low) / (_SCAN_NODES - 1)
        peak = max(mass for _, mass in scan)
        kept = [i for i, (_, mass) in enumerate(scan) if mass > peak - _SCAN_NEGLIGIBLE]
        weighted = [(low + i * step, exp(scan[i][1] - peak)) for i in kept]
        spilled_low, spilled_high = kept[0] == 0, kept[-1] == _SCAN_NODES - 1
        high = low + (kept[-1] + (3 if spilled_high else 1)) * step
        low = low + (kept[0] - (3 if spilled_low else 1)) * step
        if len(kept) >= _ENOUGH_NODES:
            break
    sd = max(_spread(weighted), 0.5 * step)
    # A row holds the mass down to NEGLIGIBLE log units, that is sqrt(2 x 7) sd on both sides.
    at_peak = max(scan, key=lambda found: found[1])[0]
    row_sd = (at_peak.high - at_peak.low) / (2.0 * sqrt(2.0 * NEGLIGIBLE))
    wanted = ceil((high - low) / rate_step(sd, max(row_sd, conditional.narrowest))) + 1
    return _pass(prior, conditional, low, high, min(max(wanted, _SCAN_NODES), _MOST_NODES))


def _pass(
    prior: Prior, conditional: ConditionalViability, low: float, high: float, nodes: int
) -> list[tuple[Row, float]]:
    step = (high - low) / (nodes - 1)
    rows: list[tuple[Row, float]] = []
    row: Row | None = None
    for i in range(nodes):
        ln_rate = low + i * step
        row = conditional.row(exp(ln_rate), row)
        off = (ln_rate - prior.ln_rate) / prior.ln_rate_sd
        rows.append((row, row.log_mass - 0.5 * off * off))
    return rows


def _spread(weighted: list[tuple[float, float]]) -> float:
    total = sum(weight for _, weight in weighted)
    mean = sum(x * weight for x, weight in weighted) / total
    return sqrt(sum((x - mean) ** 2 * weight for x, weight in weighted) / total)
