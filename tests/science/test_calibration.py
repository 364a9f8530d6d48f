"""Simulation-based calibration with a fixed seed: truths fall evenly over their posteriors.

Method: Talts, Betancourt, Simpson, Vehtari & Gelman 2018, arXiv:1804.06788.
"""

from __future__ import annotations

import random
from math import exp

from scipy import stats

from seedbox.science.likelihood import LotTest
from seedbox.science.posterior import lot_belief
from seedbox.science.predictive import predictive_interval
from seedbox.science.prior import Prior
from seedbox.science.probit import normal_cdf

LOTS = 1200


def _share(rng: random.Random, viability: float) -> float:
    alive, dead = 24 * normal_cdf(viability), 24 * normal_cdf(-viability)
    if min(alive, dead) < 1e-6:
        return float(alive > dead)
    return rng.betavariate(alive, dead)


def test_truths_are_uniform_in_their_posteriors_and_intervals_hold() -> None:
    rng = random.Random(41)
    places, held = [], 0
    for _ in range(LOTS):
        prior = Prior(rng.uniform(1, 2), rng.choice([0.4, 0.7]), 0.0, rng.choice([0.55, 0.8]))
        viability, rate = (
            rng.gauss(prior.viability, prior.viability_sd),
            exp(rng.gauss(0.0, prior.ln_rate_sd)),
        )
        tests = []
        for _ in range(rng.randint(0, 2)):
            dose, seeds = rng.uniform(0, 3), rng.choice([10, 50, 200])
            share = _share(rng, viability - rate * dose)
            tests.append(LotTest(dose, seeds, sum(rng.random() < share for _ in range(seeds))))
        dose = rng.uniform(0.0, 3.0)
        belief, truth = lot_belief(prior, tests), viability - rate * dose
        places.append(1.0 - belief.probability_at_least(truth, dose))
        low, high = predictive_interval(belief.masses(dose))
        held += low <= _share(rng, truth) <= high
    assert stats.kstest(places, "uniform").pvalue > 0.01
    # Dead and perfect lots sit on the edge of their interval, so it holds a little more than 90 %.
    assert 0.88 <= held / LOTS <= 0.96
