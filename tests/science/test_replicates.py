"""Replicates by the official table, and by an exact test beside scipy."""

from __future__ import annotations

import random
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from seedbox.science.errors import OutOfRangeError
from seedbox.science.replicates import (
    Replicate,
    average_percent,
    probability_as_unlike,
    replicates_agree,
    two_tests_agree,
)
from seedbox.science.testing_constants import UNLIKE_BELOW

small = st.lists(
    st.integers(1, 9).flatmap(lambda n: st.builds(Replicate, st.just(n), st.integers(0, n))),
    min_size=2,
    max_size=4,
)


def of_100(*germinated: int) -> list[Replicate]:
    return [Replicate(100, k) for k in germinated]


def test_by_the_table() -> None:
    """7 CFR 201.55(a): at an average of 84 % four replicates of 100 may differ by 14 points."""
    assert average_percent(of_100(77, 83, 85, 91)) == 84.0
    assert replicates_agree(of_100(77, 83, 85, 91), 14).agree
    worse = replicates_agree(of_100(76, 83, 85, 92), 14)
    assert (worse.agree, worse.range_points, worse.limit_points) == (False, 16.0, 14)
    assert worse.probability is None


def test_small_replicates_are_not_judged_by_the_table() -> None:
    found = replicates_agree([Replicate(10, 8), Replicate(10, 6)], 14)
    assert (found.agree, found.limit_points, found.range_points) == (True, None, 20.0)
    assert found.probability is not None


@settings(max_examples=60)
@given(small)
def test_exact_probability_against_every_deal(replicates: list[Replicate]) -> None:
    """scipy.stats.multivariate_hypergeom, with Pearson's chi-square computed in numpy."""
    n = np.array([each.seeds for each in replicates])
    k = np.array([each.germinated for each in replicates])
    if k.sum() in (0, n.sum()):
        assert probability_as_unlike(replicates) == 1.0
        return
    expected = n * k.sum() / n.sum()

    def chi_square(deal: np.ndarray) -> float:
        dead = n - deal
        return float(
            ((deal - expected) ** 2 / expected).sum()
            + ((dead - (n - expected)) ** 2 / (n - expected)).sum()
        )

    deals = [d for d in product(*(range(each + 1) for each in n)) if sum(d) == k.sum()]
    law = stats.multivariate_hypergeom(n, int(k.sum()))
    unlike = sum(law.pmf(d) for d in deals if chi_square(np.array(d)) >= chi_square(k) - 1e-9)
    assert probability_as_unlike(replicates) == pytest.approx(unlike, abs=1e-9)


@settings(max_examples=60)
@given(st.integers(1, 60), st.data())
def test_two_equal_replicates_are_fishers_exact_test(seeds: int, data: st.DataObject) -> None:
    """scipy.stats.fisher_exact, two-sided: with equal sizes both order the tables alike."""
    first, second = data.draw(st.integers(0, seeds)), data.draw(st.integers(0, seeds))
    table = [[first, seeds - first], [second, seeds - second]]
    ours = probability_as_unlike([Replicate(seeds, first), Replicate(seeds, second)])
    assert ours == pytest.approx(stats.fisher_exact(table).pvalue, rel=1e-6)


def test_like_replicates_are_seldom_refused() -> None:
    """Simulated replicates of one lot: refused in at most 1 test in 40, as stated."""
    rng = random.Random(5)
    runs, refused = 3000, 0
    for _ in range(runs):
        share = rng.uniform(0.2, 0.95)
        counts = [sum(rng.random() < share for _ in range(10)) for _ in range(3)]
        refused += not replicates_agree([Replicate(10, k) for k in counts]).agree
    assert refused / runs <= UNLIKE_BELOW + 2 * (UNLIKE_BELOW / runs) ** 0.5
    assert refused > 0


def test_two_tests() -> None:
    """The two-test table of 7 CFR 201.63: 6 points at 87 to 90 %, for tests of 400 seeds."""
    assert two_tests_agree(Replicate(400, 346), Replicate(400, 370), 6).agree
    assert not two_tests_agree(Replicate(400, 342), Replicate(400, 370), 6).agree
    home = two_tests_agree(Replicate(10, 9), Replicate(20, 11), 9)
    assert home.limit_points is None
    assert home.probability is not None


def test_impossible_counts_are_refused() -> None:
    for bad in ([Replicate(10, 3)], [Replicate(10, 11), Replicate(10, 3)], of_100(*[50] * 11)):
        with pytest.raises(OutOfRangeError):
            replicates_agree(bad)
