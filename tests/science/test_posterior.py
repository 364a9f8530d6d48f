"""The quadrature against a dense grid in numpy and scipy: within 0.005 everywhere."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import optimize

from seedbox.science.likelihood import LotTest
from seedbox.science.posterior import lot_belief
from seedbox.science.predictive import mean_fraction, predictive_quantile
from seedbox.science.prior import Prior
from seedbox.science.probit import probit

TOLERANCE = 0.005
PRIORS = st.builds(
    Prior,
    viability=st.floats(0.3, 2.5),
    viability_sd=st.floats(0.4, 0.9),
    ln_rate=st.sampled_from([0.0, 0.9]),
    ln_rate_sd=st.floats(0.5, 1.0),
)


@st.composite
def _tests(draw: st.DrawFn) -> LotTest:
    seeds = draw(st.sampled_from([1, 2, 10, 25, 100, 400, 1000]))
    alive = draw(st.one_of(st.just(0), st.just(seeds), st.integers(0, seeds)))
    return LotTest(draw(st.floats(0, 10)), seeds, alive)


def _compare(grid: Any, prior: Prior, tests: list[LotTest], dose: float) -> None:
    belief = lot_belief(prior, tests)
    dense = grid(
        (prior.viability, prior.viability_sd, prior.ln_rate, prior.ln_rate_sd),
        [(test.dose, test.seeds, test.alive) for test in tests],
    ).at(dose)
    masses = belief.masses(dose)
    assert sum(masses) == pytest.approx(1.0, abs=1e-9)
    assert belief.mean(dose) == pytest.approx(dense.mean, abs=TOLERANCE)
    assert mean_fraction(masses) == pytest.approx(dense.mean, abs=TOLERANCE)
    for share in (0.35, 0.5, 0.65, 0.8, 0.9):
        found = belief.probability_at_least(probit(share), dose)
        assert found == pytest.approx(dense.at_least(probit(share)), abs=TOLERANCE), share
    for probability in (0.05, 0.95):
        expected = _quantile(dense.predictive_below, probability)
        assert predictive_quantile(masses, probability) == pytest.approx(expected, abs=TOLERANCE)


def _quantile(below: Callable[[float], float], probability: float) -> float:
    low, high = 1e-9, 1 - 1e-12
    if below(low) >= probability:
        return 0.0
    if below(high) <= probability:
        return 1.0
    return float(optimize.brentq(lambda y: below(y) - probability, low, high, xtol=1e-5))


@settings(max_examples=8, deadline=None, derandomize=True)
@given(PRIORS, st.lists(_tests(), max_size=3), st.floats(0, 12))
def test_agrees_with_a_dense_grid(
    dense_grid: Any, prior: Prior, tests: list[LotTest], dose: float
) -> None:
    _compare(dense_grid, prior, tests, dose)


BOUGHT = Prior(1.69, 0.4, 0.0, 0.6)
SAVED = Prior(1.1, 0.7, 0.0, 0.8)


@pytest.mark.parametrize(
    ("prior", "tests", "dose"),
    [
        pytest.param(BOUGHT, [], 0.0, id="new, no test"),
        pytest.param(BOUGHT, [], 8.0, id="very old, no test"),
        pytest.param(BOUGHT, [LotTest(0.0, 1, 0)], 0.5, id="one seed, dead"),
        pytest.param(BOUGHT, [LotTest(6.0, 1000, 1000)], 6.5, id="old, yet all alive"),
        pytest.param(BOUGHT, [LotTest(0.05, 1000, 0)], 0.1, id="new, yet all dead"),
        pytest.param(SAVED, [LotTest(0.3, 10, 10), LotTest(4.0, 10, 9)], 6.0, id="both good"),
        pytest.param(SAVED, [LotTest(1.0, 50, 49), LotTest(1.2, 50, 5)], 1.5, id="contradiction"),
        pytest.param(BOUGHT, [LotTest(1.0, 100, 80)] * 6, 2.0, id="six tests"),
        pytest.param(
            BOUGHT, [LotTest(0.2 * i, 50, 48 - 3 * i) for i in range(6)], 3.0, id="a falling lot"
        ),
    ],
)
def test_hard_cases(dense_grid: Any, prior: Prior, tests: list[LotTest], dose: float) -> None:
    _compare(dense_grid, prior, tests, dose)


@settings(max_examples=50, deadline=None)
@given(PRIORS, st.lists(_tests(), max_size=4), st.floats(0, 30), st.floats(0, 10))
def test_age_never_helps(prior: Prior, tests: list[LotTest], dose: float, more: float) -> None:
    belief = lot_belief(prior, tests)
    now, later = (belief.probability_at_least(0.4, d) for d in (dose, dose + more))
    assert -1e-9 <= later <= now + 0.002 <= 1.002 + 1e-9


@settings(max_examples=30, deadline=None)
@given(PRIORS, st.integers(2, 200), st.floats(0, 5))
def test_a_better_test_never_lowers_the_forecast(prior: Prior, seeds: int, dose: float) -> None:
    means = [
        lot_belief(prior, [LotTest(dose, seeds, alive)]).mean(dose)
        for alive in (0, seeds // 2, seeds)
    ]
    assert means == sorted(means)


def test_the_order_of_tests_does_not_matter() -> None:
    tests = [LotTest(0.1, 20, 18), LotTest(1.0, 50, 30), LotTest(2.0, 10, 5)]
    one, other = lot_belief(BOUGHT, tests), lot_belief(BOUGHT, tests[::-1])
    assert one.mean(2.5) == pytest.approx(other.mean(2.5), abs=1e-6)
