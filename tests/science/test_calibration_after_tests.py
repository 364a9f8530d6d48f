"""Calibration after exactly 0, 1 and 3 tests, fixed seed; the bench prints a larger one.

Method: Talts, Betancourt, Simpson, Vehtari & Gelman 2018, arXiv:1804.06788. Tests scatter with the
intraclass correlation 0.04 that the model states (van Hintum & van Treuren 2012).
"""

from __future__ import annotations

import random
from math import exp

import pytest
from scipy import stats

from seedbox.science.likelihood import LotTest
from seedbox.science.posterior import lot_belief
from seedbox.science.prior import Prior
from seedbox.science.probit import normal_cdf

LOTS = 700
SIZE = 1 / 0.04 - 1


def _test(rng: random.Random, viability: float, rate: float) -> LotTest:
    dose, seeds = rng.uniform(0.0, 3.0), rng.choice((10, 20, 50))
    alive = normal_cdf(viability - rate * dose)
    share = rng.betavariate(max(alive * SIZE, 1e-6), max((1 - alive) * SIZE, 1e-6))
    return LotTest(dose, seeds, sum(rng.random() < share for _ in range(seeds)))


@pytest.mark.parametrize("tests", [0, 1, 3])
def test_truths_fall_evenly_over_the_belief(tests: int) -> None:
    rng = random.Random(100 + tests)
    places = []
    for _ in range(LOTS):
        prior = Prior(rng.uniform(1.0, 2.0), rng.choice((0.4, 0.7)), 0.0, rng.choice((0.55, 0.8)))
        viability = rng.gauss(prior.viability, prior.viability_sd)
        rate = exp(rng.gauss(0.0, prior.ln_rate_sd))
        seen = [_test(rng, viability, rate) for _ in range(tests)]
        dose = rng.uniform(0.0, 4.0)
        above = lot_belief(prior, seen).probability_at_least(viability - rate * dose, dose)
        places.append(1.0 - above)
    assert stats.kstest(places, "uniform").pvalue > 0.01
    inside = sum(0.05 <= place <= 0.95 for place in places) / LOTS
    assert inside == pytest.approx(0.9, abs=0.035)  # three standard errors
