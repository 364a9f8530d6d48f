"""The predictive interval of one lot is a beta distribution: against scipy."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from seedbox.science.errors import OutOfRangeError
from seedbox.science.lattice import POINTS, fractions
from seedbox.science.predictive import mean_fraction, predictive_interval, predictive_quantile


def _certain(point: int) -> list[float]:
    return [float(i == point) for i in range(POINTS)]


@settings(deadline=None)
@given(st.integers(44, 84), st.floats(0.02, 0.98))
def test_quantile_of_a_known_lot_is_the_beta_quantile(point: int, probability: float) -> None:
    alive, dead = fractions(0)[point]
    expected = stats.beta.ppf(probability, 24 * alive, 24 * dead)
    assert predictive_quantile(_certain(point), probability) == pytest.approx(expected, abs=0.005)


def test_dead_and_perfect_lots() -> None:
    assert predictive_interval(_certain(0)) == (0.0, 0.0)
    assert predictive_interval(_certain(POINTS - 1)) == (1.0, 1.0)
    assert mean_fraction(_certain(0)) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("probability", [0.0, 1.0, 0.001, -1.0])
def test_probabilities_out_of_range_are_refused(probability: float) -> None:
    with pytest.raises(OutOfRangeError):
        predictive_quantile(_certain(64), probability)
