"""Sowing arithmetic: computed tables, scipy, published worked examples, and simulation."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from seedbox.science.binomial_tail import at_least
from seedbox.science.chances import (
    Chances,
    PlaceFactor,
    certain,
    in_place,
    of_masses,
    scattered,
)
from seedbox.science.errors import OutOfRangeError
from seedbox.science.lattice import POINTS, fractions
from seedbox.science.likelihood import LotTest
from seedbox.science.posterior import lot_belief
from seedbox.science.prior import Prior
from seedbox.science.seed_worth import bulk_seed, pure_live_seed, seedlings_per_cluster
from seedbox.science.sowing_rate import (
    assurance_of_seeds,
    assurance_of_tray,
    cell_filled,
    cells_for_plants,
    drill_without_gaps,
    fewest_cells,
    fewest_cells_for_seeds,
    fewest_seeds,
    multi_sown,
    plants_assured,
    seeds_for_plants,
    seeds_per_cell,
    seeds_per_metre,
    within_packet,
)

# --- Computed tables: smallest whole numbers by the binomial, p known exactly ------------------
# Columns: chance of a plant, seeds to a cell for 80, 90, 95 and 99 %.
SEEDS_PER_CELL = """
0.3 5 7 9 13
0.4 4 5 6 10
0.5 3 4 5 7
0.55 3 3 4 6
0.6 2 3 4 6
0.65 2 3 3 5
0.7 2 2 3 4
0.75 2 2 3 4
0.8 1 2 2 3
0.85 1 2 2 3
0.9 1 1 2 2
0.95 1 1 1 2
"""


def test_seeds_per_cell_equal_the_table() -> None:
    for line in SEEDS_PER_CELL.split("\n")[1:-1]:
        chance, *counts = line.split()
        for assurance, seeds in zip((0.8, 0.9, 0.95, 0.99), counts, strict=True):
            assert seeds_per_cell(certain(float(chance)), assurance) == int(seeds), line


def test_seeds_for_plants_equal_the_table() -> None:
    # data/seeds_for_plants.csv was computed beforehand by another program, by exact binomials.
    path = Path(__file__).parent / "data" / "seeds_for_plants.csv"
    with path.open(newline="", encoding="utf-8") as file:
        seeds_table = list(csv.DictReader(file))
    assert len(seeds_table) > 200
    for row in seeds_table:
        chances, plants = certain(float(row["p_emerge"])), int(row["plants_wanted"])
        seeds = seeds_for_plants(chances, plants, float(row["assurance"]))
        assert seeds == int(row["seeds_needed"]), row
        achieved = assurance_of_seeds(chances, plants, seeds)
        assert achieved == pytest.approx(float(row["achieved_prob"]), abs=6e-6)


def test_published_worked_examples() -> None:
    # A gardening article's example of 72 cells: 1 - (1 - p)^k with p = 0.9, k = 3; and the mean
    # number of filled cells, 64.8 (printed 65).
    assert cell_filled(0.9, 3) == pytest.approx(0.999)
    assert 72 * cell_filled(0.9, 1) == pytest.approx(64.8)
    # Pure live seed, as percent: Rangelands Gateway glossary 87.36; Penn State fact sheet 73.6
    # and 51.0 and 89.1; University of Georgia 81.0; Texas DOT 63.75; with 5 % hard seed 95.06.
    for purity, germination, percent in (
        (0.91, 0.96, 87.36),
        (0.92, 0.80, 73.6),
        (0.85, 0.60, 51.0),
        (0.99, 0.90, 89.1),
        (0.90, 0.90, 81.0),
        (0.85, 0.75, 63.75),
        (0.98, 0.92 + 0.05, 95.06),
    ):
        assert 100 * pure_live_seed(purity, germination) == pytest.approx(percent, abs=0.005)
    # Bulk seed for one pound of pure live seed: Penn State 1.4 and 2, Texas DOT 1.56, 3 pounds
    # at 95.06 % 3.16, all as printed.
    assert bulk_seed(1.0, 0.74) == pytest.approx(1.351, abs=5e-4)
    assert bulk_seed(1.0, 0.51) == pytest.approx(1.961, abs=5e-4)
    assert bulk_seed(1.0, 0.64) == pytest.approx(1.5625)
    assert bulk_seed(3.0, 0.9506) == pytest.approx(3.156, abs=5e-4)


# --- scipy --------------------------------------------------------------------------------------
@given(st.integers(0, 400), st.integers(0, 400), st.floats(0, 1))
def test_binomial_tail_equals_scipy(successes: int, trials: int, chance: float) -> None:
    expected = stats.binom.sf(successes - 1, trials, chance)
    assert at_least(successes, trials, chance) == pytest.approx(expected, abs=1e-11)


@settings(max_examples=60)
@given(st.integers(1, 60), st.integers(1, 150), st.floats(0.02, 0.98), st.floats(0.01, 0.3))
def test_overdispersed_seeds_equal_scipy_s_beta_binomial(
    plants: int, seeds: int, chance: float, icc: float
) -> None:
    size = 1.0 / icc - 1.0
    expected = stats.betabinom.sf(plants - 1, seeds, chance * size, (1.0 - chance) * size)
    found = assurance_of_seeds(scattered(certain(chance), icc), plants, seeds)
    assert found == pytest.approx(expected, abs=2e-4)


@settings(max_examples=40)
@given(st.floats(0.05, 1.0), st.floats(0.2, 0.95), st.floats(0.02, 0.15))
def test_a_place_s_share_keeps_its_mean_and_spread(
    germination: float, mean: float, sd: float
) -> None:
    found = in_place(certain(germination), PlaceFactor(mean, sd))
    assert found.mean() == pytest.approx(germination * mean, rel=1e-4)
    variance = found.average(lambda p: (p - germination * mean) ** 2)
    assert math.sqrt(variance) == pytest.approx(germination * sd, rel=0.03)


def test_a_lot_s_masses_become_chances() -> None:
    belief = lot_belief(Prior(1.5, 0.4, 0.0, 0.6), [LotTest(0.5, 50, 40)])
    masses = belief.masses(1.0)
    chances = of_masses(masses)
    alive = [a for a, _ in fractions(0)]
    assert chances.mean() == pytest.approx(float(np.dot(masses, alive)), abs=1e-6)
    assert sum(weight for _, weight in chances.nodes) == pytest.approx(1.0)


# --- Simulation ---------------------------------------------------------------------------------
LOTS = st.builds(
    lambda viability, sd, mean, spread, icc: (viability, sd, mean, spread, icc),
    st.floats(-0.5, 1.8),
    st.floats(0.15, 0.8),
    st.floats(0.5, 0.95),
    st.floats(0.02, 0.12),
    st.sampled_from([0.0, 0.02, 0.04, 0.1]),
)


def _normal_masses(viability: float, sd: float) -> list[float]:
    points = np.linspace(-8, 8, POINTS)
    density = stats.norm.pdf(points, viability, sd)
    return [float(mass) for mass in density / density.sum()]


@settings(max_examples=25, deadline=None)
@given(LOTS, st.integers(1, 40), st.integers(1, 4), st.integers(0, 2**32 - 1))
def test_simulated_trays_reach_the_assurance_that_is_said(
    lot: tuple[float, float, float, float, float], plants: int, per_cell: int, seed: int
) -> None:
    viability, sd, mean, spread, icc = lot
    chances = scattered(
        in_place(of_masses(_normal_masses(viability, sd)), PlaceFactor(mean, spread)), icc
    )
    plan = cells_for_plants(chances, plants, per_cell, 0.9)
    rng = np.random.default_rng(seed)
    trays = 20_000
    alive = stats.norm.cdf(rng.normal(viability, sd, trays))
    size = mean * (1 - mean) / spread**2 - 1
    chance = alive * rng.beta(mean * size, (1 - mean) * size, trays)
    if icc:
        s = 1 / icc - 1
        chance = rng.beta(np.maximum(chance * s, 1e-12), np.maximum((1 - chance) * s, 1e-12))
    filled = rng.binomial(plan.cells, 1 - (1 - chance) ** per_cell)
    reached = float((filled >= plants).mean())
    # Five standard errors of 20,000 trays, and the rule itself: at least 90 %, one cell fewer not.
    assert reached == pytest.approx(plan.assurance, abs=0.011)
    assert plan.assurance >= 0.9 - 1e-9
    if plan.cells > plants:
        assert assurance_of_tray(chances, plants, plan.cells - 1, per_cell) < 0.9


def test_the_stated_assurance_is_met_without_waste() -> None:
    # 88 to 92 % at 90 %, where the number of seeds is large enough for whole seeds not to matter.
    chances = scattered(in_place(of_masses(_normal_masses(0.8, 0.4)), PlaceFactor(0.8, 0.1)), 0.04)
    for plants in (12, 24, 60):
        assert 0.90 <= cells_for_plants(chances, plants, 1, 0.9).assurance <= 0.92


def test_over_a_mean_the_assurance_would_be_a_promise_not_kept() -> None:
    chances = in_place(of_masses(_normal_masses(0.8, 0.6)), PlaceFactor(0.8, 0.12))
    by_mean = seeds_for_plants(certain(chances.mean()), 24, 0.9)
    assert assurance_of_seeds(chances, 24, by_mean) < 0.8


# --- Rules --------------------------------------------------------------------------------------
POINT = st.floats(0.1, 0.99).map(certain)


@settings(max_examples=50)
@given(POINT, st.integers(1, 30), st.integers(1, 3), st.sampled_from([0.8, 0.9, 0.95]))
def test_more_plants_or_more_assurance_never_take_fewer_cells(
    chances: Chances, plants: int, per_cell: int, assurance: float
) -> None:
    plan = cells_for_plants(chances, plants, per_cell, assurance)
    assert cells_for_plants(chances, plants + 1, per_cell, assurance).cells > plan.cells - 1
    assert cells_for_plants(chances, plants, per_cell, 0.97).cells >= plan.cells
    assert plants_assured(chances, plan.cells, per_cell, assurance) >= plants


@settings(max_examples=50)
@given(POINT, st.integers(1, 20), st.integers(0, 30))
def test_whole_tray_optima(chances: Chances, plants: int, spare: int) -> None:
    most = plants + spare
    try:
        thrifty = fewest_seeds(chances, plants, 0.9, most)
    except OutOfRangeError:
        assert assurance_of_tray(chances, plants, most, 5) < 0.9
        return
    small = fewest_cells(chances, plants, 0.9, most)
    every = [
        (cells, per_cell)
        for cells in range(plants, most + 1)
        for per_cell in range(1, 6)
        if assurance_of_tray(chances, plants, cells, per_cell) >= 0.9 - 1e-9
    ]
    assert (thrifty.seeds, thrifty.cells) == min((c * k, c) for c, k in every)
    assert (small.cells, small.seeds) == min((c, c * k) for c, k in every)


@settings(max_examples=50)
@given(POINT, st.integers(1, 20), st.integers(0, 30), st.integers(1, 4), st.integers(0, 120))
def test_fewest_cells_for_seeds_to_spare(
    chances: Chances, plants: int, spare: int, most_per_cell: int, seeds: int
) -> None:
    most = plants + spare
    found = fewest_cells_for_seeds(
        chances, plants, 0.9, most, most_per_cell=most_per_cell, most_seeds=seeds
    )
    every = [
        (cells, cells * per_cell)
        for cells in range(plants, most + 1)
        for per_cell in range(1, most_per_cell + 1)
        if cells * per_cell <= seeds
        and assurance_of_tray(chances, plants, cells, per_cell) >= 0.9 - 1e-9
    ]
    assert (found is None) == (not every)
    if found is not None:
        assert (found.cells, found.seeds) == min(every)


@given(POINT, st.integers(1, 30), st.integers(0, 60))
def test_a_short_packet_gives_what_it_can(chances: Chances, plants: int, seeds: int) -> None:
    wanted = cells_for_plants(chances, plants, 2, 0.9)
    plan = within_packet(chances, wanted, seeds, 0.9)
    assert plan.seeds <= max(seeds, 0)
    assert plan.plants <= plants
    if plan.plants:
        assert plan.assurance >= 0.9 - 1e-9
    if plan.plants < plants:
        assert assurance_of_seeds(chances, plan.plants + 1, plan.seeds) < 0.9


def test_rows_modules_and_clusters() -> None:
    # 20 plants in a metre at 5 cm: the same arithmetic as 20 plants of any kind (scipy).
    seeds, per_metre = seeds_per_metre(certain(0.6), 5.0, 1.0, 0.9)
    assert stats.binom.sf(19, seeds, 0.6) >= 0.9 > stats.binom.sf(19, seeds - 1, 0.6)
    assert per_metre == seeds
    # A longer row evens out.
    assert seeds_per_metre(certain(0.6), 5.0, 10.0, 0.9)[1] < per_metre
    # Gaps: a Poisson count in each spacing.
    rate = drill_without_gaps(certain(0.6), 5.0, 0.9)
    assert stats.poisson.sf(0, rate * 0.05 * 0.6) == pytest.approx(0.9, abs=0.001)
    plan = multi_sown(certain(0.7), 24, 6, 0.9)
    assert plan.cells == 4
    assert stats.binom.sf(23, plan.seeds, 0.7) >= 0.9
    # Two seeds to a fruit, each alive with 0.5: 3 fruits in 4 give at least one seedling, and on
    # average a fruit gives one.
    assert seedlings_per_cluster(1 - 0.5**2, 2) == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("chances", "plants", "assurance"),
    [(certain(0.0), 1, 0.9), (certain(0.5), 0, 0.9), (certain(0.5), 1, 1.0)],
)
def test_what_cannot_be_assured_is_refused(chances: Chances, plants: int, assurance: float) -> None:
    with pytest.raises(OutOfRangeError):
        seeds_for_plants(chances, plants, assurance)


def test_a_lot_that_may_be_dead_cannot_be_assured_by_any_number() -> None:
    half_dead = Chances(((0.0, 0.15), (0.8, 0.85)))
    with pytest.raises(OutOfRangeError, match="assurance"):
        seeds_for_plants(half_dead, 1, 0.9)
    assert plants_assured(half_dead, 100, 1, 0.9) == 0
