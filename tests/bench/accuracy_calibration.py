"""Simulation-based calibration: truths drawn from the prior must fall evenly over the posterior.

Method: Talts, Betancourt, Simpson, Vehtari & Gelman 2018, arXiv:1804.06788, with the exact
posterior probability of the truth in place of its rank among draws.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterator
from math import exp, sqrt

from seedbox.science.likelihood import LotTest
from seedbox.science.posterior import lot_belief
from seedbox.science.predictive import predictive_interval
from seedbox.science.prior import Prior
from seedbox.science.probit import normal_cdf

RUNS = 4000
BINS = 10
SEED = 20261124
SIZE = 24.0  # 1 / 0.04 - 1


def report() -> Iterator[str]:
    yield f"Simulation-based calibration, {RUNS} lots a line (truth drawn from the prior)"
    for name, most in (("no test", 0), ("one test", 1), ("up to four tests", 4)):
        places, seen = _run(random.Random(SEED), RUNS, most)
        counts = Counter(min(int(place * BINS), BINS - 1) for place in places)
        expected = RUNS / BINS
        chi = sum((counts[i] - expected) ** 2 / expected for i in range(BINS))
        mean = sum(places) / RUNS
        spread = sqrt(sum((place - 0.5) ** 2 for place in places) / RUNS)
        inside = sum(0.05 <= place <= 0.95 for place in places) / RUNS
        yield (
            f"  {name:<18} truth at mean {mean:.3f} (0.500), spread {spread:.3f} (0.289),"
            f" chi-square {chi:4.1f} on 9 (95 %: 16.9);"
            f" inside 90 %: lot {inside:.1%}, what is seen {seen:.1%}"
        )


def _run(rng: random.Random, runs: int, most_tests: int) -> tuple[list[float], float]:
    places, seen = [], 0
    for _ in range(runs):
        prior = Prior(rng.uniform(1.0, 2.0), rng.choice((0.4, 0.7)), 0.0, rng.choice((0.55, 0.8)))
        viability = rng.gauss(prior.viability, prior.viability_sd)
        rate = exp(rng.gauss(prior.ln_rate, prior.ln_rate_sd))
        tests = []
        for _ in range(rng.randint(1, most_tests) if most_tests else 0):
            dose, seeds = rng.uniform(0.0, 3.0), rng.choice((10, 20, 50, 200))
            share = draw_share(rng, viability - rate * dose)
            tests.append(LotTest(dose, seeds, sum(rng.random() < share for _ in range(seeds))))
        dose = rng.uniform(0.0, 4.0)
        belief = lot_belief(prior, tests)
        truth = viability - rate * dose
        places.append(1.0 - belief.probability_at_least(truth, dose))
        low, high = predictive_interval(belief.masses(dose))
        seen += low <= draw_share(rng, truth) <= high
    return places, seen / runs


def draw_share(rng: random.Random, viability: float) -> float:
    """Share of one sample of a lot that lives: beta around the lot's own fraction."""
    alive, dead = normal_cdf(viability) * SIZE, normal_cdf(-viability) * SIZE
    if alive < 1e-6:
        return 0.0
    return 1.0 if dead < 1e-6 else rng.betavariate(alive, dead)
