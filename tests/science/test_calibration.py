"""Simulation-based calibration with fixed seeds; the bench prints larger ones of the same code.

Method: Talts, Betancourt, Simpson, Vehtari & Gelman 2018, arXiv:1804.06788. Tests scatter with the
intraclass correlation 0.04 that the model states (van Hintum & van Treuren 2012).
"""

from __future__ import annotations

import random

import pytest
from scipy import stats

from tests.bench.calibration import course_places, simulated_lots

LOTS = 900


@pytest.mark.parametrize("tests", [0, 1, 3])
def test_truths_fall_evenly_over_the_belief(tests: int) -> None:
    """Evenness by scipy.stats.kstest; nine truths in ten lie within the 90 % interval."""
    lots = simulated_lots(random.Random(100 + tests), LOTS, tests)
    assert stats.kstest([lot.place for lot in lots], "uniform").pvalue > 0.01
    inside = sum(0.05 <= lot.place <= 0.95 for lot in lots) / LOTS
    assert inside == pytest.approx(0.9, abs=0.03)  # three standard errors
    # Dead and perfect lots sit on the edge of the range shown, so it holds a little more than 90 %.
    assert 0.87 <= sum(lot.seen for lot in lots) / LOTS <= 0.97


def test_seeds_still_to_come_fall_evenly_over_what_is_expected() -> None:
    """The same of a running test: the number that did come among those thought possible."""
    places = course_places(random.Random(9), 600)
    assert stats.kstest(places, "uniform").pvalue > 0.01
