"""Plans for trays, modules and rows: limits said, counts as the science has them."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from seedbox.science.chances import Chances, certain
from seedbox.science.emergence_factor import prior_factor
from seedbox.science.likelihood import LotTest
from seedbox.science.posterior import lot_belief
from seedbox.science.prior import Prior
from seedbox.science.sowing_rate import assurance_of_tray, seeds_for_plants
from seedbox.science.testing_constants import TRAY_ICC
from seedbox.season.sowing.desk import few_nodes
from seedbox.season.sowing.how_many import Aim, chances_here, modules, row, tray

LOT = lot_belief(Prior(1.5, 0.4, 0.0, 0.6), [LotTest(0.0, 50, 40)])


@pytest.fixture(scope="module")
def tested_lot() -> Chances:
    """A lot of which 40 of 50 seeds germinated, in a place of which nothing is known."""
    return chances_here(LOT.masses(0.0))


def test_a_point_gives_the_computed_table() -> None:
    # seeds_for_plants.csv (computed): 12 plants, chance 0.7, 90 %: 21 seeds.
    found = tray(certain(0.7), 12, aim=Aim.SEED)
    assert (found.cells, found.per_cell, found.seeds) == (21, 1, 21)
    assert found.sentence == "21 cells of 1 seed: 12 plants or more, 93 % sure"


def test_the_place_and_the_scatter_of_trays_ask_for_more(tested_lot: Chances) -> None:
    uncertain, mean = tray(tested_lot, 12, aim=Aim.SEED), tested_lot.mean()
    assert mean == pytest.approx(LOT.mean(0.0) * prior_factor().mean(), rel=0.001)
    assert uncertain.seeds > seeds_for_plants(certain(mean), 12, 0.9)
    assert uncertain.assurance >= 0.9


# Seeds in the packet and what is saved, and up to which share of the sowings give their plants: a
# whole number of cells of three gives a little more than is asked for.
PLANNED = {(10_000, Aim.SEED): 0.92, (10_000, Aim.USUAL): 0.94, (130, Aim.USUAL): 0.94}


def test_over_many_lots_the_assurance_is_kept() -> None:
    # The whole way by simulation, in numpy: lots drawn from the prior, tested, planned by what the
    # test tells, sown in places and trays that scatter as is said. Of the sowings planned at 90 %,
    # 88 % or more must give their plants.
    rng = np.random.default_rng(20270320)
    prior, lots, trays = Prior(1.2, 0.5, 0.0, 0.6), 400, 200
    factor, size = prior_factor(), 1.0 / TRAY_ICC - 1.0
    shares, weights = (np.array(each) for each in zip(*factor.nodes(), strict=True))
    kept: dict[tuple[int, Aim], list[float]] = {planned: [] for planned in PLANNED}
    for _ in range(lots):
        alive = stats.norm.cdf(rng.normal(1.2, 0.5) - np.exp(rng.normal(0.0, 0.6)) * 0.4)
        tested = rng.beta(alive * 24.0, (1.0 - alive) * 24.0)  # icc 0.04, as of germination tests
        test = LotTest(0.4, 50, int(rng.binomial(50, tested)))
        chances = few_nodes(chances_here(lot_belief(prior, [test]).masses(0.4)))
        chance = alive * rng.choice(shares, trays, p=weights / weights.sum())
        in_tray = rng.beta(chance * size, (1.0 - chance) * size)
        for left, aim in PLANNED:
            plan = tray(chances, 12, aim=aim, seeds_left=left)
            if not plan.falls_short:
                filled = rng.binomial(plan.cells, 1.0 - (1.0 - in_tray) ** plan.per_cell)
                kept[left, aim].append(float((filled >= 12).mean()))
    for planned, most in PLANNED.items():
        assert len(kept[planned]) > 0.9 * lots
        assert 0.88 <= float(np.mean(kept[planned])) <= most


def test_warmth_that_kills_asks_for_more() -> None:
    masses = LOT.masses(0.0)
    cool, warm = chances_here(masses), chances_here(masses, share=0.5)
    assert warm.mean() == pytest.approx(0.5 * cool.mean(), rel=0.01)
    assert tray(warm, 12).seeds > 1.5 * tray(cool, 12).seeds


def test_saving_seed_or_saving_cells(tested_lot: Chances) -> None:
    seed, cells = (tray(tested_lot, 12, aim=aim) for aim in (Aim.SEED, Aim.CELLS))
    assert seed.seeds < cells.seeds
    assert cells.cells < seed.cells
    bounded = tray(tested_lot, 12, aim=Aim.CELLS, seeds_left=cells.seeds - 1)
    assert cells.cells < bounded.cells < seed.cells
    assert (bounded.falls_short, bounded.seeds < cells.seeds) == (False, True)


def test_as_usual_cells_are_few_while_seed_is_plenty(tested_lot: Chances) -> None:
    seed, few = tray(tested_lot, 12, aim=Aim.SEED), tray(tested_lot, 12, seeds_left=200)
    assert (few.per_cell, seed.per_cell) == (3, 1)
    assert few.cells < 0.7 * seed.cells
    assert few.seeds <= 50
    some = tray(tested_lot, 12, seeds_left=4 * few.seeds - 1)
    assert (some.per_cell, some.falls_short) == (2, False)
    scarce = tray(tested_lot, 12, seeds_left=seed.seeds + 5)
    assert (scarce.seeds, scarce.per_cell) == (seed.seeds, 1)
    uncounted = tray(tested_lot, 12)
    assert (uncounted.cells, uncounted.per_cell) == (few.cells, few.per_cell)


def test_as_usual_clusters_go_two_to_a_cell(tested_lot: Chances) -> None:
    chard = tray(tested_lot, 12, crop_id="chard", seeds_left=1_000)
    assert chard.per_cell == 2


@settings(max_examples=60)
@given(st.floats(0.2, 0.99), st.integers(1, 30), st.none() | st.integers(0, 400))
def test_as_usual_never_takes_more_than_a_quarter_to_save_cells(
    chance: float, plants: int, left: int | None
) -> None:
    found = tray(certain(chance), plants, seeds_left=left)
    thrifty = tray(certain(chance), plants, aim=Aim.SEED, seeds_left=left)
    assert found.per_cell <= 3 or found == thrifty
    assert found.cells <= thrifty.cells or thrifty.per_cell > 3
    assert found == thrifty or left is None or found.seeds <= left / 4
    assert found.plants >= thrifty.plants


def test_a_small_tray_or_packet_says_what_it_gives(tested_lot: Chances) -> None:
    small = tray(tested_lot, 12, most_cells=6)
    assert small.falls_short
    assert small.cells <= 6
    assert "give no more" in small.sentence
    packet = tray(tested_lot, 12, seeds_left=8)
    assert packet.seeds == 8
    assert 0 < packet.plants < 12
    assert packet.assurance >= 0.9
    assert "only 8 seeds are left" in packet.sentence
    empty = tray(tested_lot, 12, seeds_left=0)
    assert (empty.seeds, empty.plants) == (0, 0)
    assert "nothing to sow" in empty.sentence


def test_a_lot_that_may_be_dead_is_to_be_tested() -> None:
    half_dead = Chances(((0.0, 0.3), (0.8, 0.7)))
    for found in (tray(half_dead, 5), modules(half_dead, 8, 4), row(half_dead, 2.0, 5.0)):
        assert found.seeds == 0
        assert "test the packet" in found.sentence


def test_clusters_are_to_be_thinned() -> None:
    beet = tray(certain(0.8), 6, crop_id="beetroot")
    # Two and a half seeds a fruit, 0.8 of fruits give any: 2.5 (1 - 0.2^(1/2.5)) / 0.8.
    assert beet.seedlings_per_unit == pytest.approx(2.5 * (1 - 0.2**0.4) / 0.8)
    assert "so thin" in beet.sentence
    assert tray(certain(0.8), 6, crop_id="kale").seedlings_per_unit == 1.0


def test_modules_and_rows_within_the_packet() -> None:
    whole = modules(certain(0.8), 20, 4)
    assert (whole.cells, whole.per_cell) == (5, 6)
    part = modules(certain(0.8), 20, 4, seeds_left=20)
    assert (part.cells, part.seeds) == (3, 18)
    assert part.falls_short
    long = row(certain(0.5), 2.0, 5.0)
    assert (long.seeds, long.per_metre) == (92, 46.0)
    short = row(certain(0.5), 2.0, 5.0, seeds_left=40)
    assert short.seeds == 40
    assert 0 < short.plants < 20


@settings(max_examples=60)
@given(
    st.floats(0.1, 0.99),
    st.integers(1, 30),
    st.integers(1, 40),
    st.one_of(st.none(), st.integers(0, 80)),
    st.sampled_from(list(Aim)),
)
def test_no_plan_promises_more_than_it_keeps(
    chance: float, plants: int, most_cells: int, left: int | None, aim: Aim
) -> None:
    found = tray(certain(chance), plants, aim=aim, most_cells=most_cells, seeds_left=left)
    assert found.plants <= plants
    assert found.cells <= most_cells
    assert left is None or found.seeds <= left
    if found.plants:
        kept = assurance_of_tray(certain(chance), found.plants, found.cells, found.per_cell)
        assert kept >= 0.9 - 1e-9
        assert kept == pytest.approx(found.assurance)
