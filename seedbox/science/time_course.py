"""What is still likely to come: a log-normal time course, learnt while the test runs.

Seeds that come by the final count day do so at log-normal times, cut off at that day. Median and
spread are uncertain, with a prior from the count days of the rules; counts are known only to lie
between two looks. How many come in all is uncertain too, and is summed over exactly.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from math import exp, inf, lgamma, log, sqrt

from seedbox.science import testing_constants as c
from seedbox.science.errors import require_inside
from seedbox.science.germination_indices import Count, check_counts
from seedbox.science.probit import normal_cdf

_STEPS = tuple(4.0 * i / 7 for i in range(-7, 8))  # of one sd, out to four
_MOST_PASSES = 10
_SHRINK = 0.4
_IMPOSSIBLE = -1e300


@dataclass(frozen=True, slots=True)
class CoursePrior:
    """Independent normals on ln median day and on ln spread; `horizon` [d] is the final count.

    `ln_spread` is the log of the sd of ln day.
    """

    ln_median: float
    ln_median_sd: float
    ln_spread: float
    ln_spread_sd: float
    horizon: float


def course_prior(first_count_day: float | None, final_count_day: float) -> CoursePrior:
    """Prior of a time course from the count days of the rules.

    ``median = first count``, ``spread = ln(final / first) / 2.326``, so that 99 in 100 have come
    by the final count

    Parameters: first_count_day [d] or None when the rules give none (a third of the final one is
    taken); final_count_day [d].
    Returns: CoursePrior.
    Raises: OutOfRangeError unless 0 < first < final.

    >>> prior = course_prior(6, 14)
    >>> round(exp(prior.ln_median), 1), round(exp(prior.ln_spread), 2)
    (6.0, 0.36)

    Source: Seedbox's own reading of the count days; reasons in ``testing_constants``. Log-normal
    germination times: Scott, Jones & Williams 1984, Crop Science 24:1192-1199.
    """
    require_inside("final count day", final_count_day, 0.0, inf, "days")
    first = final_count_day * c.FIRST_OF_FINAL if first_count_day is None else first_count_day
    require_inside("first count day", first, 0.0, final_count_day, "days")
    spread = max(log(final_count_day / first) / c.COME_BY_FINAL_Z, c.NARROWEST_COURSE)
    return CoursePrior(
        log(first), c.MEDIAN_SPREAD, log(spread), c.SPREAD_SPREAD, float(final_count_day)
    )


@dataclass(frozen=True, slots=True)
class _Node:
    """One time course and its weight; `open` is the share of comers that come after today."""

    ln_median: float
    ln_spread: float
    weight: float
    open: float


@dataclass(frozen=True)
class TimeCourse:
    """Belief in the rest of a test.

    `more[m]` is the probability that m more seeds come by the final count day.
    """

    seeds: int
    germinated: int
    day: float
    horizon: float
    more: tuple[float, ...]
    nodes: tuple[_Node, ...]

    @cached_property
    def expected_more(self) -> float:
        """Seeds still to come, in the mean."""
        return sum(m * p for m, p in enumerate(self.more))

    @property
    def expected_germination(self) -> float:
        """Final germination in the mean [fraction of the seeds laid]."""
        return (self.germinated + self.expected_more) / self.seeds

    def more_at_most(self, probability: float = c.SURE_OF_COURSE) -> int:
        """Seeds still to come that are not passed with at least this probability."""
        total = 0.0
        for m, p in enumerate(self.more):
            total += p
            if total >= probability - 1e-12:
                return m
        return len(self.more) - 1

    def interval(self, probability: float = 0.9) -> tuple[float, float]:
        """Final germination between its equal tails [fraction, fraction]."""
        tail = 0.5 * (1.0 - probability)
        low, high = self.more_at_most(tail), self.more_at_most(1.0 - tail)
        return (self.germinated + low) / self.seeds, (self.germinated + high) / self.seeds

    def come_by(self, day: float) -> float:
        """Share of the seeds that come at all which have come by a day [fraction], in the mean."""
        return sum(node.weight * _share(day, self.horizon, node) for node in self.nodes)

    @cached_property
    def spread(self) -> float:
        """Spread of ln day [-], by its geometric mean."""
        return exp(sum(node.weight * node.ln_spread for node in self.nodes))


def time_course(
    prior: CoursePrior,
    seeds: int,
    counts: Sequence[Count],
    day: float,
    final_prior: Sequence[float] | None = None,
) -> TimeCourse:
    """Belief in a test as it stands on a day.

    ``p(m, median, spread | counts) ~ prior x P(K = k + m) (k + m)! / m! x
    prod (G(t_i) - G(t_i-1))^n_i x (1 - G(day))^m``, G the log-normal share cut off at the horizon

    Parameters: prior; seeds laid [seeds]; counts so far, in order of days; day [d] of the last
    look, at or after the last count; final_prior, probability of each final number 0 to seeds
    before the test, all equal when None (``testing_worth.outcome_masses`` gives a packet's own).
    Returns: TimeCourse. After the final count day nothing more comes.
    Raises: OutOfRangeError, see ``germination_indices.check_counts``.

    >>> early = time_course(course_prior(6, 14), 20, [Count(6, 7)], 6)
    >>> late = time_course(course_prior(6, 14), 20, [Count(6, 7), Count(10, 3)], 12)
    >>> early.expected_more > late.expected_more
    True
    >>> time_course(course_prior(6, 14), 20, [Count(14, 12)], 14).expected_germination
    0.6

    Source: Bayes' rule for interval-censored times; Onofri, Mesgaran, Tei & Cousens 2011, Weed
    Research 51:516-524, for counts as censored times.
    """
    check_counts(counts, seeds)
    looked = max(day, counts[-1].day if counts else 0.0)
    horizon = max(prior.horizon, counts[-1].day if counts else 0.0)
    came = sum(count.new for count in counts)
    weights = _final_weights(seeds, came, final_prior)
    looks = _Looks(tuple(counts), looked, horizon, weights)
    nodes = _posterior(prior, looks)
    return TimeCourse(seeds, came, looked, horizon, _more(nodes, weights), nodes)


@dataclass(frozen=True, slots=True)
class _Looks:
    counts: tuple[Count, ...]
    day: float
    horizon: float
    weights: tuple[float, ...]


def _final_weights(seeds: int, came: int, final_prior: Sequence[float] | None) -> tuple[float, ...]:
    """P(K = came + m) (came + m)! / m! for each m, up to a factor."""
    logs = [
        (log(p) if p > 0.0 else -inf) + lgamma(came + m + 1) - lgamma(m + 1)
        for m, p in enumerate((final_prior or [1.0] * (seeds + 1))[came:])
    ]
    peak = max(logs)
    if peak == -inf:  # the prior had ruled out what has come: fall back on an even one
        return _final_weights(seeds, came, None)
    return tuple(exp(value - peak) for value in logs)


@dataclass(frozen=True, slots=True)
class _Frame:
    """Centre and axes of a grid: ``ln median + wide a``, ``ln spread + tilt a + narrow b``."""

    ln_median: float
    ln_spread: float
    wide: float
    tilt: float
    narrow: float


def _posterior(prior: CoursePrior, looks: _Looks) -> tuple[_Node, ...]:
    """Grid over median and spread, moved and turned to where the mass is, until it fits."""
    frame = _Frame(prior.ln_median, prior.ln_spread, prior.ln_median_sd, 0.0, prior.ln_spread_sd)
    nodes = _grid(prior, looks, frame)
    for _ in range(_MOST_PASSES):
        following = _fitted(frame, nodes)
        settled = _close(following.wide, frame.wide) and _close(following.narrow, frame.narrow)
        frame = following
        nodes = _grid(prior, looks, frame)
        if settled:
            break
    return nodes


def _close(a: float, b: float) -> bool:
    return abs(a - b) < 0.2 * b


def _fitted(frame: _Frame, nodes: Sequence[_Node]) -> _Frame:
    """The frame of the mass on a grid; it shrinks slowly, as mass between nodes is not seen."""
    a = sum(node.weight * node.ln_median for node in nodes)
    b = sum(node.weight * node.ln_spread for node in nodes)
    var_a = sum(node.weight * (node.ln_median - a) ** 2 for node in nodes)
    var_b = sum(node.weight * (node.ln_spread - b) ** 2 for node in nodes)
    both = sum(node.weight * (node.ln_median - a) * (node.ln_spread - b) for node in nodes)
    slope = both / var_a if var_a > 0.0 else frame.tilt / frame.wide
    wide = max(sqrt(var_a), _SHRINK * frame.wide)
    narrow = max(sqrt(max(var_b - slope * both, 0.0)), _SHRINK * frame.narrow)
    return _Frame(a, b, wide, slope * wide, narrow)


def _grid(prior: CoursePrior, looks: _Looks, frame: _Frame) -> tuple[_Node, ...]:
    found = []
    for a in _STEPS:
        ln_median = frame.ln_median + a * frame.wide
        off = (ln_median - prior.ln_median) / prior.ln_median_sd
        for b in _STEPS:
            ln_spread = frame.ln_spread + a * frame.tilt + b * frame.narrow
            out = (ln_spread - prior.ln_spread) / prior.ln_spread_sd
            log_weight, open_share = _log_likelihood(ln_median, ln_spread, looks)
            found.append((ln_median, ln_spread, log_weight - 0.5 * (off**2 + out**2), open_share))
    peak = max(log_weight for _, _, log_weight, _ in found)
    masses = [exp(log_weight - peak) for _, _, log_weight, _ in found]
    total = sum(masses)
    return tuple(
        _Node(median, spread, mass / total, open_share)
        for (median, spread, _, open_share), mass in zip(found, masses, strict=True)
        if mass > 1e-9 * total
    )


def _log_likelihood(ln_median: float, ln_spread: float, looks: _Looks) -> tuple[float, float]:
    """Log-likelihood of the counts, and the share of comers that is still to come."""
    scale = exp(-ln_spread)
    all_by = normal_cdf((log(looks.horizon) - ln_median) * scale)
    if all_by <= 0.0:
        return _IMPOSSIBLE, 1.0
    log_p, before = 0.0, 0.0
    for count in looks.counts:
        by = normal_cdf((log(count.day) - ln_median) * scale)
        if count.new:
            share = (by - before) / all_by
            if share <= 0.0:
                return _IMPOSSIBLE, 1.0
            log_p += count.new * log(share)
        before = by
    by = normal_cdf((log(looks.day) - ln_median) * scale) if looks.day > 0.0 else 0.0
    open_share = max(1.0 - by / all_by, 0.0)
    return log_p + log(_power_sum(looks.weights, open_share)), open_share


def _power_sum(weights: Sequence[float], x: float) -> float:
    """``sum of w_m x^m`` (Horner), kept above zero."""
    total = 0.0
    for weight in reversed(weights):
        total = total * x + weight
    return max(total, 1e-300)


def _more(nodes: Sequence[_Node], weights: Sequence[float]) -> tuple[float, ...]:
    """Probability of each number still to come, over all courses."""
    found = [0.0] * len(weights)
    for node in nodes:
        factor = node.weight / _power_sum(weights, node.open)
        for m, weight in enumerate(weights):
            found[m] += factor * weight
            factor *= node.open
            if factor == 0.0:
                break
    total = sum(found)
    return tuple(p / total for p in found)


def _share(day: float, horizon: float, node: _Node) -> float:
    if day >= horizon:
        return 1.0
    if day <= 0.0:
        return 0.0
    scale = exp(-node.ln_spread)
    all_by = normal_cdf((log(horizon) - node.ln_median) * scale)
    return normal_cdf((log(day) - node.ln_median) * scale) / all_by if all_by > 0.0 else 0.0
