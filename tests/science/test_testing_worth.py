"""What a test is worth, beside the same decision worked out in numpy and scipy."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from seedbox.science.errors import OutOfRangeError
from seedbox.science.lattice import LOWEST, PER_PROBIT, POINTS
from seedbox.science.likelihood import LotTest
from seedbox.science.posterior import lot_belief
from seedbox.science.prior import Prior
from seedbox.science.testing_constants import (
    FRESH_GERMINATION,
    MOST_SOWINGS_SERVED,
    SOWING_RATES,
)
from seedbox.science.testing_worth import (
    Costs,
    outcome_masses,
    sizes_to_weigh,
    sowing_loss,
    sowings_served,
    worth_of_test,
)

SIZE = 1 / 0.04 - 1
LATTICE = LOWEST + np.arange(POINTS) / PER_PROBIT
ALIVE = stats.norm.cdf(LATTICE)
PACKETS = [
    ([], 0.5),
    ([], 1.5),
    ([], 2.5),
    ([LotTest(1.9, 25, 10)], 2.0),
    ([LotTest(0.0, 200, 180)], 1.2),
]
PRIOR = Prior(1.5, 0.5, 0.0, 0.7)


def masses_of(tests: list[LotTest], dose: float) -> list[float]:
    return lot_belief(PRIOR, tests).masses(dose)


def outcomes(seeds: int) -> np.ndarray:
    """scipy.stats.betabinom at each lattice point, a row a count."""
    share = np.clip(ALIVE, 1e-12, 1 - 1e-12)
    return np.array(
        [stats.betabinom.pmf(k, seeds, share * SIZE, (1 - share) * SIZE) for k in range(seeds + 1)]
    )


def exact_loss(plants: int, seeds: int, share: float, costs: Costs) -> float:
    """Expected loss over scipy.stats.betabinom, no normal approximation."""
    share = min(max(share, 1e-9), 1 - 1e-9)
    k = np.arange(seeds + 1)
    p = stats.betabinom.pmf(k, seeds, share * SIZE, (1 - share) * SIZE)
    short = np.maximum(plants - k, 0)
    return float(
        (p * (costs.missing_plant * short + costs.wasted_seed * (seeds - plants + short))).sum()
    )


@given(st.integers(1, 40), st.floats(1.0, 6.0), st.floats(0.0, 1.0))
@settings(max_examples=80)
def test_sowing_loss_against_the_beta_binomial(plants: int, rate: float, share: float) -> None:
    """Normal against exact (scipy.stats.betabinom): within 2.5 % of the plants, or 0.25 of one."""
    seeds = int(np.ceil(plants * rate))
    exact = exact_loss(plants, seeds, share, Costs())
    assert sowing_loss(plants, seeds, share) == pytest.approx(exact, abs=max(0.025 * plants, 0.25))


@pytest.mark.parametrize(("tests", "dose"), PACKETS)
@pytest.mark.parametrize("seeds", [10, 25])
def test_outcomes_against_scipy(tests: list[LotTest], dose: float, seeds: int) -> None:
    """scipy.stats.betabinom mixed over the belief."""
    masses = masses_of(tests, dose)
    expected = outcomes(seeds) @ np.array(masses)
    assert outcome_masses(masses, seeds) == pytest.approx(list(expected), abs=0.002)


def independent_worth(
    masses: list[float], plants: int, left: int, costs: Costs, sowings: float
) -> dict[int, float]:
    """Net worth of each size, every action at every lattice point, exact losses."""
    weight = np.array(masses)
    emergence = 0.85

    def losses(available: int) -> np.ndarray:
        wanted = {int(np.ceil(plants * rate)) for rate in SOWING_RATES}
        sown = sorted({min(each, available) for each in wanted})
        rows = [[exact_loss(plants, s, g * emergence, costs) for g in ALIVE] for s in sown]
        fresh = [
            exact_loss(plants, s, FRESH_GERMINATION * emergence, costs) for s in sorted(wanted)
        ]
        return np.array([*rows, [costs.new_packet + min(fresh)] * POINTS])

    now = (losses(left) @ weight).min()
    found = {0: 0.0}
    for seeds in sizes_to_weigh(left):
        joint = outcomes(seeds) * weight
        after = (joint @ losses(left - seeds).T).min(axis=1).sum()
        cost = costs.work_of_test + seeds * costs.wasted_seed
        found[seeds] = sowings * (now - after) - cost
    return found


@pytest.mark.parametrize(("tests", "dose"), PACKETS)
@pytest.mark.parametrize(("plants", "left"), [(10, 45), (20, 120)])
@pytest.mark.parametrize("sowings", [1.0, 3.0])
def test_worth_against_an_independent_decision(
    tests: list[LotTest], dose: float, plants: int, left: int, sowings: float
) -> None:
    """The size is within a fifth of a plant a sowing of the best by exact losses (numpy, scipy)."""
    masses = masses_of(tests, dose)
    nets = independent_worth(masses, plants, left, Costs(), sowings)
    found = worth_of_test(masses, plants, left, sowings=sowings)
    assert nets[found.seeds] >= max(nets.values()) - 0.2 * sowings
    assert found.net == pytest.approx(nets[found.seeds], abs=0.2 * sowings)


def test_an_answer_that_serves_longer_is_worth_more() -> None:
    """Arithmetic: twice the sowings lose twice as much; the test is paid for once."""
    masses = masses_of([], 1.5)
    once, twice = (worth_of_test(masses, 20, 400, sowings=m) for m in (1.0, 2.0))
    assert twice.loss_now == pytest.approx(2.0 * once.loss_now)
    assert twice.sow_now == once.sow_now
    assert twice.net >= 2.0 * once.net > 0.0


@given(st.one_of(st.none(), st.floats(0.0, 1e5)), st.integers(1, 1000))
def test_sowings_served_is_within_its_limits(left: float | None, plants: int) -> None:
    assert 1.0 <= sowings_served(left, plants) <= MOST_SOWINGS_SERVED


@settings(max_examples=40, deadline=None)
@given(
    st.floats(0.0, 4.0),
    st.integers(1, 60),
    st.one_of(st.none(), st.integers(0, 600)),
    st.floats(0.1, 3.0),
    st.floats(0.1, 20.0),
)
def test_bounds(dose: float, plants: int, left: int | None, work: float, new_packet: float) -> None:
    """Never above a quarter of the packet, never a loss, never worth more than the loss itself."""
    costs = Costs(work_of_test=work, new_packet=new_packet)
    found = worth_of_test(masses_of([], dose), plants, left, costs)
    assert left is None or found.seeds <= left / 4
    assert 0.0 <= found.net <= found.loss_now
    assert (found.seeds == 0) == (found.net == 0.0)
    assert left is None or found.sow_now <= left


def test_a_small_packet_is_not_tested_away() -> None:
    masses = masses_of([], 1.5)
    assert worth_of_test(masses, 20, 19).seeds == 0
    assert worth_of_test(masses, 20, 20).seeds in (0, 5)


def test_what_is_known_is_not_tested() -> None:
    sure = [0.0] * POINTS
    for place in (20, POINTS // 2 + 8):  # dead, and 84 % alive
        masses = sure.copy()
        masses[place] = 1.0
        assert worth_of_test(masses, 20, 400).seeds == 0


def test_dearer_seed_and_work_make_fewer_tests() -> None:
    masses = masses_of([], 1.5)
    assert worth_of_test(masses, 20, 400).seeds > 0
    assert worth_of_test(masses, 20, 400, Costs(work_of_test=5.0)).seeds == 0
    assert worth_of_test(masses, 20, 400, Costs(wasted_seed=0.5)).seeds == 0


def test_no_plants_wanted_is_refused() -> None:
    with pytest.raises(OutOfRangeError):
        worth_of_test([0.0] * POINTS, 0, 100)
