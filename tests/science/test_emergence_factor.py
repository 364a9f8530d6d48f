"""Learning how much comes up in a place, beside scipy and by simulation."""

from __future__ import annotations

import random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from seedbox.science.emergence_factor import (
    EmergenceFactor,
    Tray,
    TrayTest,
    learn,
    prior_factor,
    tray_log_likelihood_table,
)
from seedbox.science.errors import OutOfRangeError
from seedbox.science.lattice import LOWEST, PER_PROBIT, POINTS
from seedbox.science.likelihood import LotTest, independent_seeds, log_likelihood_table
from seedbox.science.posterior import lot_belief
from seedbox.science.prior import Prior

TRAY_SIZE = 1 / 0.10 - 1
LATTICE = LOWEST + np.arange(POINTS) / PER_PROBIT
BELIEF = lot_belief(Prior(1.3, 0.4, 0.0, 0.5), [])
MASSES = BELIEF.masses(0.3)


@pytest.mark.parametrize(("mean", "strength"), [(0.85, 8.0), (0.5, 4.0), (0.7, 30.0)])
def test_prior_is_a_beta(mean: float, strength: float) -> None:
    """scipy.stats.beta: mean and quantiles."""
    ours, law = prior_factor(mean, strength), stats.beta(mean * strength, (1 - mean) * strength)
    assert ours.mean() == pytest.approx(mean, abs=0.002)
    for probability in (0.05, 0.5, 0.95):
        assert ours.quantile(probability) == pytest.approx(law.ppf(probability), abs=0.006)


def test_the_stated_spread_of_the_prior() -> None:
    """Nine tenths between 0.61 and 0.99, as the constants say (scipy.stats.beta)."""
    law = stats.beta(0.85 * 8, 0.15 * 8)
    assert (round(law.ppf(0.05), 2), round(law.ppf(0.95), 2)) == (0.61, 0.99)


def test_learning_against_a_dense_grid() -> None:
    """2000 cells of the factor, scipy.stats.betabinom over the lattice of germination."""
    trays = [Tray(20, 9, MASSES), Tray(12, 8, MASSES), Tray(40, 21, MASSES)]
    factor = (np.arange(2000) + 0.5) / 2000
    weight = stats.beta(0.85 * 8, 0.15 * 8).pdf(factor)
    alive = stats.norm.cdf(LATTICE)
    for tray in trays:
        share = np.clip(np.outer(factor, alive), 1e-12, 1 - 1e-12)
        p = stats.betabinom.pmf(tray.emerged, tray.sown, share * TRAY_SIZE, (1 - share) * TRAY_SIZE)
        weight = weight * (p @ np.array(MASSES))
    weight /= weight.sum()
    ours = learn(prior_factor(), trays)
    assert ours.mean() == pytest.approx(float((factor * weight).sum()), abs=0.003)
    assert ours.quantile(0.95) == pytest.approx(
        float(factor[np.searchsorted(np.cumsum(weight), 0.95)]), abs=0.01
    )


@pytest.mark.parametrize("fineness", [0, 1, 2])
@pytest.mark.parametrize(("emerged", "sown"), [(0, 10), (6, 10), (30, 40), (40, 40)])
def test_tray_likelihood_against_scipy(emerged: int, sown: int, fineness: int) -> None:
    """scipy.stats.betabinom mixed over 2000 cells of a Beta(6.8, 1.2)."""
    points = LOWEST + np.arange(16 * (PER_PROBIT << fineness) + 1) / (PER_PROBIT << fineness)
    factor = (np.arange(2000) + 0.5) / 2000
    weight = stats.beta(0.85 * 8, 0.15 * 8).pdf(factor) / 2000
    share = np.clip(np.outer(stats.norm.cdf(points), factor), 1e-12, 1 - 1e-12)
    p = stats.betabinom.pmf(emerged, sown, share * TRAY_SIZE, (1 - share) * TRAY_SIZE) @ weight
    ours = np.exp(tray_log_likelihood_table(emerged, sown, prior_factor(), fineness))
    assert len(ours) == len(points)
    assert ours / ours.max() == pytest.approx(p / p.max(), abs=0.02)


def test_a_tray_is_weaker_evidence_than_paper() -> None:
    """The same count says less: no seed count in a tray outweighs ten seeds on paper."""
    tray = TrayTest(0.3, 40, 24, prior_factor())
    assert tray.weight < 10 < independent_seeds(40)
    widths = []
    for table in (tray.log_table(0), log_likelihood_table(24, 40, 0)):
        p = np.exp(np.array(table) - max(table)) * stats.norm.pdf(LATTICE, 1.0, 0.7)
        p /= p.sum()
        mean = (p * LATTICE).sum()
        widths.append(float(np.sqrt((p * (LATTICE - mean) ** 2).sum())))
    assert widths[0] > 1.25 * widths[1]


def test_a_poor_tray_blames_place_and_packet() -> None:
    """One tray that came up badly lowers both beliefs; a packet tested on paper clears itself."""
    paper = lot_belief(Prior(1.3, 0.4, 0.0, 0.5), [LotTest(0.3, 50, 46)]).masses(0.3)
    doubtful, cleared = (
        learn(prior_factor(), [Tray(40, 16, masses)]).mean() for masses in (MASSES, paper)
    )
    assert cleared < doubtful < 0.85


def test_learnt_factors_are_calibrated() -> None:
    """Factors drawn from the prior and trays from the model fall evenly over the belief.

    Method: Talts et al. 2018, arXiv:1804.06788.
    """
    rng = random.Random(11)
    alive = stats.norm.cdf(LATTICE)
    places = []
    for _ in range(150):
        factor = rng.betavariate(0.85 * 8, 0.15 * 8)
        trays = []
        for _ in range(rng.randint(1, 4)):
            g = rng.choices(alive, [max(m, 0.0) for m in MASSES])[0]
            share = min(max(g * factor, 1e-6), 1 - 1e-6)
            y = rng.betavariate(share * TRAY_SIZE, (1 - share) * TRAY_SIZE)
            sown = rng.choice((10, 20, 40))
            trays.append(Tray(sown, sum(rng.random() < y for _ in range(sown)), MASSES))
        places.append(_place(learn(prior_factor(), trays), factor))
    assert stats.kstest(places, "uniform").pvalue > 0.01


def _place(belief: EmergenceFactor, factor: float) -> float:
    cells = len(belief.weights)
    cell = min(int(factor * cells), cells - 1)
    return sum(belief.weights[:cell]) + belief.weights[cell] * (factor * cells - cell)


@settings(max_examples=40)
@given(
    st.lists(
        st.integers(1, 60).flatmap(lambda n: st.tuples(st.just(n), st.integers(0, n))), max_size=5
    )
)
def test_it_stays_a_distribution(counts: list[tuple[int, int]]) -> None:
    belief = learn(prior_factor(), [Tray(sown, emerged, MASSES) for sown, emerged in counts])
    assert sum(belief.weights) == pytest.approx(1.0)
    assert 0.0 < belief.quantile(0.05) <= belief.quantile(0.95) <= 1.0


def test_impossible_counts_are_refused() -> None:
    with pytest.raises(OutOfRangeError):
        learn(prior_factor(), [Tray(10, 11, MASSES)])
    with pytest.raises(OutOfRangeError):
        tray_log_likelihood_table(-1, 10, prior_factor(), 0)
    with pytest.raises(OutOfRangeError):
        prior_factor(1.0)
