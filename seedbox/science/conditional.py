"""Initial viability given the ageing rate: one row of the quadrature."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate
from math import exp, floor, log, sqrt
from typing import NamedTuple

from seedbox.science.lattice import LOWEST, PER_PROBIT
from seedbox.science.likelihood import Evidence
from seedbox.science.prior import Prior

NEGLIGIBLE = 7.0  # log units below the peak: 1 in 1,000 of it
_MARGIN = 0.375  # probits added on both sides when the mass may have moved on
_WIDEN = 2.0
_REACH_SD = 5.0
# Information on a probit in one independent seed: at most phi(0)^2 / (1/2 * 1/2) = 2 / pi.
_INFORMATION_PER_SEED = 0.637


class Row(NamedTuple):
    """Distribution of K at one ageing rate.

    `low`, `high` are the first and last node of K [probits], `shares` the mass of each node, and
    `cumulative` the mass below each cell's lower edge, with one empty cell added at both ends.
    `log_mass` is the log of the mass of the whole row.
    """

    rate: float
    low: float
    high: float
    shares: list[float]
    cumulative: list[float]
    log_mass: float


class ConditionalViability:
    """Rows for one lot. The lattice is as fine as the tests make the answer narrow.

    With `coarse` every second node is left out and rows hold no shares: enough to find the mass.
    """

    def __init__(self, prior: Prior, tests: Sequence[Evidence], *, coarse: bool = False) -> None:
        self._prior = prior
        information = prior.viability_sd**-2 + sum(
            _INFORMATION_PER_SEED * test.weight for test in tests
        )
        self.narrowest = 1.0 / sqrt(information)
        fineness = _fineness(self.narrowest)
        self._coarse = coarse
        stride = 2 if coarse else 1
        self.per_probit = (PER_PROBIT << fineness) // stride
        # The lattice of K is laid on the table of the most telling test, so that this one is
        # read without interpolation.
        ordered = sorted(tests, key=lambda test: (test.weight, test.dose))
        tables = [(test.dose, test.log_table(fineness)[::stride]) for test in ordered]
        self._anchor_dose, self._anchor = tables[-1]
        self._others = tables[:-1]
        self._precision = 0.5 / prior.viability_sd**2
        self._steps = [i / self.per_probit for i in range(64)]

    def row(self, rate: float, near: Row | None = None) -> Row:
        """The row at `rate`; `near` is a row at a close rate, which says where to look."""
        if near is None:
            reach = _REACH_SD * self._prior.viability_sd
            low, high = self._prior.viability - reach, self._prior.viability + reach
        else:
            low, high = near.low - _MARGIN, near.high + _MARGIN
        while True:
            first, logs = self._log_masses(rate, low, high)
            peak = max(logs)
            least = peak - NEGLIGIBLE
            begin = 0
            while logs[begin] < least:
                begin += 1
            end = len(logs)
            while logs[end - 1] < least:
                end -= 1
            if begin > 0 and end < len(logs):
                return self._finish(rate, first + begin / self.per_probit, logs[begin:end], peak)
            low -= _WIDEN if begin == 0 else 0.0
            high += _WIDEN if end == len(logs) else 0.0

    def _finish(self, rate: float, first: float, logs: list[float], peak: float) -> Row:
        masses = [exp(value - peak) for value in logs]
        total = sum(masses)
        last = first + (len(logs) - 1) / self.per_probit
        if self._coarse:
            return Row(rate, first, last, [], [], peak + log(total))
        shares = [mass / total for mass in masses]
        cumulative = [0.0, *accumulate(shares, initial=0.0), 1.0]
        return Row(rate, first, last, shares, cumulative, peak + log(total))

    def _log_masses(self, rate: float, low: float, high: float) -> tuple[float, list[float]]:
        """First node of K, and the log of prior times likelihood at it and those after it."""
        per_probit, precision = self.per_probit, self._precision
        shift = rate * self._anchor_dose + LOWEST
        index = floor((low - shift) * per_probit)
        count = floor((high - low) * per_probit) + 2
        first = shift + index / per_probit
        while len(self._steps) < count:
            self._steps.append(len(self._steps) / per_probit)
        off = first - self._prior.viability
        logs = [
            value - precision * (off + step) * (off + step)
            for value, step in zip(_window(self._anchor, index, count), self._steps, strict=False)
        ]
        for dose, table in self._others:
            place = (first - rate * dose - LOWEST) * per_probit
            between = _interpolated(table, place, count)
            logs = [value + more for value, more in zip(logs, between, strict=True)]
        return first, logs


def _fineness(narrowest: float) -> int:
    fineness = 0
    while narrowest * (PER_PROBIT << fineness) < 1.2 and fineness < 4:
        fineness += 1
    return fineness


def _window(table: tuple[float, ...], index: int, count: int) -> Sequence[float]:
    """`count` values from `index` on; beyond its ends a table stays level (all dead, all alive)."""
    if index >= 0 and index + count <= len(table):
        return table[index : index + count]
    before = min(max(-index, 0), count)
    after = min(max(index + count - len(table), 0), count)
    inside = table[index + before : index + count - after]
    return [*[table[0]] * before, *inside, *[table[-1]] * after]


def _interpolated(table: tuple[float, ...], place: float, count: int) -> list[float]:
    """`count` values at unit steps from a place between lattice points (cubic, Lagrange)."""
    index = floor(place)
    t = place - index
    values = _window(table, index - 1, count + 3)
    w0 = -t * (t - 1.0) * (t - 2.0) / 6.0
    w1 = (t + 1.0) * (t - 1.0) * (t - 2.0) / 2.0
    w2 = -(t + 1.0) * t * (t - 2.0) / 2.0
    w3 = (t + 1.0) * t * (t - 1.0) / 6.0
    return [
        w0 * a + w1 * b + w2 * c + w3 * d
        for a, b, c, d in zip(values, values[1:], values[2:], values[3:], strict=False)
    ]
