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
from seedbox.science.likelihood import LotTest
from seedbox.science.predictive import mean_fraction
from seedbox.science.prior import Prior
from seedbox.science.rates import REACH_SD, rate_step
from seedbox.science.untested import UntestedLot

_SCAN_NODES = 13
_ENOUGH_NODES = 4  # a scan that finds the mass on so many nodes has seen its shape
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


def lot_belief(prior: Prior, tests: Sequence[LotTest]) -> Belief:
    """Belief in a lot after its tests.

    ``p(K, ln theta | tests) ~ N(K) N(ln theta) prod BetaBinomial(k | n, Phi(K - theta D))``

    Parameters: prior; tests, each with its dose [probits].
    Returns: Belief, good to 0.005 in mean, quantiles and probabilities.

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

    def __init__(self, prior: Prior, tests: Sequence[LotTest]) -> None:
        conditional = ConditionalViability(prior, tests)
        self._per_probit = conditional.per_probit
        rows = _rows(prior, conditional)
        peak = max(mass for _, mass in rows)
        weighted = [(row, exp(mass - peak)) for row, mass in rows if mass > peak - NEGLIGIBLE]
        total = sum(weight for _, weight in weighted)
        self._rows = [(row, weight / total) for row, weight in weighted]

    def probability_at_least(self, viability: float, dose: float) -> float:
        """P(g >= Phi(viability)) at an ageing dose [probits]."""
        per_probit = self._per_probit
        below = 0.0
        for row, weight in self._rows:
            place = (viability + row.rate * dose - row.edge) * per_probit
            if place <= 0.0:
                continue
            cell = int(place)
            cumulative = row.cumulative
            if cell >= len(cumulative) - 1:
                below += weight
                continue
            start = cumulative[cell]
            below += weight * (start + (place - cell) * (cumulative[cell + 1] - start))
        return 1.0 - below

    def mean(self, dose: float) -> float:
        """Mean germination [fraction]."""
        return mean_fraction(self.masses(dose))

    def masses(self, dose: float) -> list[float]:
        """Distribution of K - theta D on the probit lattice; sums to 1."""
        spread = [0.0] * POINTS
        step = self._per_probit // PER_PROBIT
        for row, weight in self._rows:
            cumulative = row.cumulative[::step]
            if cumulative[-1] < 1.0:
                cumulative += (1.0,)
            centre = row.edge + 0.5 / PER_PROBIT - row.rate * dose
            _deposit(spread, (centre - LOWEST) * PER_PROBIT, cumulative, weight)
        return spread

    def centre(self) -> tuple[float, float]:
        """Means of K [probits] and of ln theta [-]."""
        viability = sum(weight * _mean_of(row) for row, weight in self._rows)
        return viability, sum(weight * log(row.rate) for row, weight in self._rows)


def _deposit(
    spread: list[float], place: float, cumulative: tuple[float, ...], weight: float
) -> None:
    """Add a row's cells, each split between the two lattice points beside its centre."""
    index = floor(place)
    near = (1.0 - place + index) * weight
    far = weight - near
    left = 0.0
    begin = cumulative[0]
    shares = []
    for end in cumulative[1:]:
        cell = end - begin
        shares.append(near * cell + far * left)
        left, begin = cell, end
    shares.append(far * left)
    if index >= 0 and index + len(shares) <= POINTS:
        for i, share in enumerate(shares, index):
            spread[i] += share
        return
    for i, share in enumerate(shares, index):
        spread[min(max(i, 0), POINTS - 1)] += share


def _mean_of(row: Row) -> float:
    cells = len(row.cumulative) - 1
    width = (row.high - row.low) / max(cells - 1, 1)
    # Mean of a distribution from its cumulative shares: upper end less the area below it.
    return row.high + 0.5 * width - width * (sum(row.cumulative) - 0.5)


def _rows(prior: Prior, conditional: ConditionalViability) -> list[tuple[Row, float]]:
    """Rows with the log of their mass: a scan finds the mass, a second pass resolves it."""
    low = prior.ln_rate - REACH_SD * prior.ln_rate_sd
    high = prior.ln_rate + REACH_SD * prior.ln_rate_sd
    for _ in range(_MOST_SCANS):
        scan = _pass(prior, conditional, low, high, _SCAN_NODES)
        step = (high - low) / (_SCAN_NODES - 1)
        peak = max(mass for _, mass in scan)
        kept = [i for i, (_, mass) in enumerate(scan) if mass > peak - NEGLIGIBLE]
        new_low = low + (kept[0] - 1) * step
        new_high = low + (kept[-1] + 1) * step
        spilled = kept[0] == 0 or kept[-1] == _SCAN_NODES - 1
        low, high = new_low, new_high
        if len(kept) >= _ENOUGH_NODES and not spilled:
            break
    sd = _spread([(low + (i + 1) * step, exp(scan[k][1] - peak)) for i, k in enumerate(kept)])
    wanted = ceil((high - low) / rate_step(max(sd, 0.5 * step), conditional.narrowest)) + 1
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
