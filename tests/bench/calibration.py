"""Calibration of germination tests: lots after 0, 1 and 3 tests, running tests, early stopping.

Method: Talts, Betancourt, Simpson, Vehtari & Gelman 2018, arXiv:1804.06788, with the exact
posterior probability of the truth in place of its rank among draws.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable, Iterator
from itertools import pairwise
from math import exp, log, sqrt
from typing import NamedTuple

from seedbox.science.germination_indices import Count
from seedbox.science.likelihood import LotTest
from seedbox.science.posterior import lot_belief
from seedbox.science.predictive import predictive_interval
from seedbox.science.prior import Prior
from seedbox.science.probit import normal_cdf, probit
from seedbox.science.sequential import (
    SequentialPlan,
    Verdict,
    decide,
    operating_characteristics,
)
from seedbox.science.time_course import course_prior, time_course

LOTS = 4000
COURSES = 3000
TESTS = 20_000
BINS = 10
SEED = 20261124
SIZE = 24.0  # 1 / 0.04 - 1, van Hintum & van Treuren 2012: samples of one lot scatter
PLAN = SequentialPlan(0.5, 0.8, 0.1, 0.1)
WALD = (1,) * 60
BATCHES = (("seed by seed", WALD), ("10, then 10", (10, 10)), ("10", (10,)), ("20", (20,)))


class SimulatedLot(NamedTuple):
    """Where a lot's truth falls in the belief, 0 to 1, and whether a further sample of it came
    within the range that is shown.
    """

    place: float
    seen: bool


def report() -> Iterator[str]:
    """Lines of the report."""
    yield f"Belief in a lot after its tests, {LOTS} lots a line (truth drawn from the prior)"
    for tests in (0, 1, 3):
        lots = simulated_lots(random.Random(SEED), LOTS, tests)
        seen = sum(lot.seen for lot in lots) / LOTS
        yield (
            f"  after {tests} tests: {_evenness([lot.place for lot in lots])}"
            f"; what is seen {seen:.1%}"
        )
    yield f"What is still to come in a running test, {COURSES} courses"
    yield f"  {_evenness(course_places(random.Random(SEED), COURSES))}"
    yield f"Sequential test, poor 0.5, good 0.8, errors 0.1 asked for, {TESTS} tests a figure"
    for name, batches in BATCHES:
        yield f"  {name:<13} " + "; ".join(_errors(batches, scatter) for scatter in (False, True))


def _evenness(places: list[float]) -> str:
    counts = Counter(min(int(place * BINS), BINS - 1) for place in places)
    expected = len(places) / BINS
    chi = sum((counts[i] - expected) ** 2 / expected for i in range(BINS))
    mean = sum(places) / len(places)
    spread = sqrt(sum((place - 0.5) ** 2 for place in places) / len(places))
    inside = sum(0.05 <= place <= 0.95 for place in places) / len(places)
    return (
        f"truth at mean {mean:.3f} (0.500), spread {spread:.3f} (0.289), chi-square {chi:4.1f}"
        f" on 9 (95 %: 16.9), inside the 90 % interval {inside:.1%}"
    )


def simulated_lots(rng: random.Random, lots: int, tests: int) -> list[SimulatedLot]:
    """Lots drawn from the prior, each believed in after so many tests."""
    return [_simulated_lot(rng, tests) for _ in range(lots)]


def _simulated_lot(rng: random.Random, tests: int) -> SimulatedLot:
    prior = Prior(rng.uniform(1.0, 2.0), rng.choice((0.4, 0.7)), 0.0, rng.choice((0.55, 0.8)))
    viability = rng.gauss(prior.viability, prior.viability_sd)
    rate = exp(rng.gauss(0.0, prior.ln_rate_sd))
    belief = lot_belief(prior, [_test(rng, viability, rate) for _ in range(tests)])
    dose = rng.uniform(0.0, 4.0)
    truth = viability - rate * dose
    low, high = predictive_interval(belief.masses(dose))
    seen = low <= _share(rng, normal_cdf(truth)) <= high
    return SimulatedLot(1.0 - belief.probability_at_least(truth, dose), seen)


def _test(rng: random.Random, viability: float, rate: float) -> LotTest:
    dose, seeds = rng.uniform(0.0, 3.0), rng.choice((10, 20, 50, 200))
    share = _share(rng, normal_cdf(viability - rate * dose))
    return LotTest(dose, seeds, _came(rng, seeds, share))


def _share(rng: random.Random, germination: float) -> float:
    """Share of one sample of a lot that germinates: beta around the lot's own fraction."""
    a, b = germination * SIZE, (1.0 - germination) * SIZE
    return float(a > b) if min(a, b) < 1e-6 else rng.betavariate(a, b)


def _came(rng: random.Random, seeds: int, share: float) -> int:
    return sum(rng.random() < share for _ in range(seeds))


def course_places(rng: random.Random, courses: int) -> list[float]:
    """Where the number that did come falls in the belief, at irregular looks with days missed."""
    places = []
    for _ in range(courses):
        first = rng.uniform(2.0, 10.0)
        prior = course_prior(first, first * rng.uniform(1.5, 4.0))
        seeds = rng.choice((10, 20, 50, 100))
        median = rng.gauss(prior.ln_median, prior.ln_median_sd)
        spread = exp(rng.gauss(prior.ln_spread, prior.ln_spread_sd))
        top = normal_cdf((log(prior.horizon) - median) / spread)
        come = rng.randint(0, seeds)
        shares = [max(rng.random(), 1e-9) * top for _ in range(come)]
        days = [exp(median + spread * probit(min(share, 1 - 1e-12))) for share in shares]
        looks = sorted({rng.uniform(0.1, 0.95) * prior.horizon for _ in range(rng.randint(1, 6))})
        counts = [
            Count(right, sum(left < day <= right for day in days))
            for left, right in pairwise([0.0, *looks])
        ]
        course = time_course(prior, seeds, counts, looks[-1])
        more = come - course.germinated
        places.append(sum(course.more[:more]) + rng.random() * course.more[more])
    return places


def _errors(batches: tuple[int, ...], scatter: bool) -> str:
    rng = random.Random(SEED)
    share: Callable[[float], float] = (lambda g: _share(rng, g)) if scatter else (lambda g: g)
    wrong, seeds = [], []
    for germination, mistake in ((PLAN.poor, Verdict.GOOD), (PLAN.good, Verdict.POOR)):
        ended = [_one_test(rng, share(germination), batches) for _ in range(TESTS)]
        wrong.append(sum(verdict is mistake for verdict, _ in ended) / TESTS)
        seeds.append(sum(used for _, used in ended) / TESTS)
    text = f"errors {wrong[0]:.3f}, {wrong[1]:.3f} with {seeds[0]:.1f}, {seeds[1]:.1f} seeds"
    if scatter:
        return f"samples that scatter (icc 0.04): {text}"
    exact = [operating_characteristics(PLAN, batches, g) for g in (PLAN.poor, PLAN.good)]
    return f"{text} (exact {exact[0].called_good:.3f}, {exact[1].called_poor:.3f})"


def _one_test(rng: random.Random, share: float, batches: tuple[int, ...]) -> tuple[Verdict, int]:
    laid = came = 0
    verdict = Verdict.OPEN
    for number, batch in enumerate(batches, 1):
        laid += batch
        came += _came(rng, batch, share)
        verdict = decide(PLAN, laid, came, 0, last_batch=number == len(batches)).verdict
        if verdict is not Verdict.OPEN:
            break
    return verdict, laid
