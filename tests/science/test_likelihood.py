"""The beta-binomial against scipy, and its spread against published repeat tests."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from seedbox.science.constants import BETA_SIZE, REPORTED_ICC, TEST_ICC
from seedbox.science.errors import OutOfRangeError
from seedbox.science.likelihood import (
    LotTest,
    beta_binomial_log_likelihood,
    independent_seeds,
    log_likelihood_table,
    seeds_of_own_test,
)
from seedbox.science.probit import normal_cdf


@given(st.integers(1, 1000), st.floats(0, 1), st.floats(0.001, 0.999))
def test_likelihood_agrees_with_scipy(seeds: int, share: float, fraction: float) -> None:
    alive = round(share * seeds)
    found = beta_binomial_log_likelihood(alive, seeds, fraction)
    at_half = beta_binomial_log_likelihood(alive, seeds, 0.5)
    expected = stats.betabinom.logpmf(alive, seeds, 24 * fraction, 24 * (1 - fraction))
    expected_at_half = stats.betabinom.logpmf(alive, seeds, 12, 12)
    assert found - at_half == pytest.approx(expected - expected_at_half, abs=1e-6)


def test_repeat_tests_of_a_lot_at_80_percent() -> None:
    # van Hintum & van Treuren 2012, Plant Genetic Resources 10:134-136: 95 % of repeat tests,
    # usually of 200 seeds, fall between 63 and 97 %: a width of 34 points. Theirs lies evenly
    # about 80 %, a beta-binomial leans to the low side, so the widths are compared.
    lot = stats.betabinom(200, 24 * 0.8, 24 * 0.2)
    width = (lot.ppf(0.975) - lot.ppf(0.025)) / 200
    assert width == pytest.approx(0.97 - 0.63, abs=0.03)
    assert abs(BETA_SIZE - 24.0) < 1e-9


@pytest.mark.parametrize(("alive", "seeds"), [(0, 1), (1, 1), (7, 10), (0, 1000), (1000, 1000)])
@pytest.mark.parametrize("fineness", [0, 2])
def test_table_is_the_likelihood_up_to_a_constant(alive: int, seeds: int, fineness: int) -> None:
    table = log_likelihood_table(alive, seeds, fineness)
    per_probit = 8 << fineness
    assert len(table) == 16 * per_probit + 1
    middle = 8 * per_probit
    for z in (-2, -1, 1, 2):
        expected = beta_binomial_log_likelihood(
            alive, seeds, normal_cdf(z)
        ) - beta_binomial_log_likelihood(alive, seeds, 0.5)
        assert table[middle + z * per_probit] - table[middle] == pytest.approx(expected, abs=1e-9)


def test_more_seeds_tell_more_but_never_more_than_25() -> None:
    told = [independent_seeds(n) for n in (1, 10, 50, 200, 400, 100_000)]
    assert told == sorted(told)
    assert told[0] == 1.0
    assert told[-1] < 25.0


@given(st.integers(1, 1000), st.floats(0, 1), st.floats(0.04, 0.5))
def test_a_wider_scatter_agrees_with_scipy(seeds: int, share: float, icc: float) -> None:
    alive, size = round(share * seeds), 1 / icc - 1
    table = LotTest(0.0, seeds, alive, icc).log_table(0)
    for z in (-1.5, 0.5, 2.0):
        fraction, place = normal_cdf(z), round((z + 8) * 8)
        expected = stats.betabinom.logpmf(alive, seeds, size * fraction, size * (1 - fraction))
        expected -= stats.betabinom.logpmf(alive, seeds, size / 2, size / 2)
        assert table[place] - table[64] == pytest.approx(expected, abs=1e-6)


def test_a_reported_test_weighs_less_than_ones_own_and_never_more_than_ten() -> None:
    for seeds in (2, 10, 20, 100, 400):
        own, theirs = LotTest(0.0, seeds, 1), LotTest(0.0, seeds, 1, REPORTED_ICC)
        assert theirs.weight < min(own.weight, 10.0)
        equal = seeds_of_own_test(seeds, REPORTED_ICC)
        assert equal / (1 + (equal - 1) * TEST_ICC) == pytest.approx(theirs.weight)
        assert seeds_of_own_test(seeds, TEST_ICC) == pytest.approx(seeds)
    assert seeds_of_own_test(1, REPORTED_ICC) == pytest.approx(1.0)
    with pytest.raises(OutOfRangeError, match="icc"):
        seeds_of_own_test(20, 0.01)


@pytest.mark.parametrize(("alive", "seeds"), [(-1, 10), (11, 10), (0, 0), (0, 1_000_000)])
def test_impossible_tests_are_refused(alive: int, seeds: int) -> None:
    with pytest.raises(OutOfRangeError):
        log_likelihood_table(alive, seeds, 0)
