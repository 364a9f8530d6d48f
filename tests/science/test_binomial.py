"""Intervals for a germination test beside published values and beside reference libraries."""

from __future__ import annotations

from math import isnan

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from statsmodels.stats.proportion import proportion_confint

from seedbox.science.binomial import (
    INTERVALS,
    agresti_coull,
    clopper_pearson,
    interval,
    jeffreys,
    wilson,
)
from seedbox.science.errors import OutOfRangeError
from seedbox.science.incomplete_beta import beta_cdf, beta_quantile

# 95 % intervals printed by the R package binom (binom.confint), as kept in the statsmodels test
# results file results_proportion.py. Left out are the methods that Seedbox does not offer, and of
# `bayes` (Jeffreys' prior) the rows at k = 0, k = n and n = 30 and the one that came out as NaN:
# the source's own search for the interval did not converge there.
PUBLISHED = """
18 20 agresti-coull 0.6867561125596077 0.984343760998137
18 20 bayes 0.716146742695748 0.97862751197755
18 20 exact 0.6830172859809176 0.9876514728297052
18 20 wilson 0.6989663547715128 0.972133518786232
4 20 agresti-coull 0.0749115102767071 0.4217635845549845
4 20 bayes 0.07152005247873425 0.4082257625169254
4 20 exact 0.05733399705003284 0.436614002996668
4 20 wilson 0.0806576625797981 0.4160174322518935
4 200 agresti-coull 0.005991954548218395 0.0520995587739575
4 200 bayes 0.00678759879519299 0.0468465669668423
4 200 exact 0.005475565879556443 0.05041360908989634
4 200 wilson 0.00780442641634947 0.05028708690582643
190 200 agresti-coull 0.909307307911624 0.973731898348837
190 200 exact 0.9099724622986486 0.975765834527891
190 200 wilson 0.910421851861224 0.972617354399236
1 30 agresti-coull -0.008305484 0.18091798
1 30 exact 0.0008435709 0.17216946
1 30 wilson 0.00590859 0.16670391
29 30 agresti-coull 0.819082 1.0083055
29 30 exact 0.8278305 0.9991564
29 30 wilson 0.8332961 0.9940914
0 30 agresti-coull 0.0 0.1347117
0 30 exact 0.0 0.11570331
0 30 wilson 0.0 0.11351339
30 30 agresti-coull 0.8652883 1.0
30 30 exact 0.8842967 1.0
30 30 wilson 0.8864866 1.0
"""
ROWS = [line.split() for line in PUBLISHED.strip().splitlines()]
BY_THEIR_NAME = {
    "agresti-coull": agresti_coull,
    "bayes": jeffreys,
    "exact": clopper_pearson,
    "wilson": wilson,
}

counts = st.integers(1, 400).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))
confidences = st.floats(0.5, 0.999)


@pytest.mark.parametrize(("k", "n", "method", "low", "high"), ROWS)
def test_published_intervals(k: str, n: str, method: str, low: str, high: str) -> None:
    """An interval that leaves 0 to 1 in the source is cut there, as no share lies outside."""
    found = BY_THEIR_NAME[method](int(k), int(n))
    assert found.low == pytest.approx(max(float(low), 0.0), abs=1e-6)
    assert found.high == pytest.approx(min(float(high), 1.0), abs=1e-6)


@pytest.mark.parametrize(("k", "low", "high"), [(9, 0.60, 0.98), (7, 0.40, 0.89)])
def test_what_ten_seeds_say(k: int, low: float, high: float) -> None:
    """95 % Wilson of 9 and 7 of 10, computed by hand from Wilson 1927."""
    found = wilson(k, 10)
    assert (round(found.low, 2), round(found.high, 2)) == (low, high)


@given(counts, confidences)
def test_against_statsmodels(count: tuple[int, int], confidence: float) -> None:
    """statsmodels.stats.proportion.proportion_confint, equal-tailed methods."""
    k, n = count
    theirs = {
        "wilson": "wilson",
        "clopper-pearson": "beta",
        "jeffreys": "jeffreys",
        "agresti-coull": "agresti_coull",
    }
    assert set(theirs) == set(INTERVALS)
    for ours, name in theirs.items():
        found = interval(k, n, confidence, ours)
        low, high = proportion_confint(k, n, 1 - confidence, name)
        low, high = (0.0 if isnan(low) else low), (1.0 if isnan(high) else high)
        if ours == "jeffreys":  # the ends that Brown, Cai & DasGupta 2001 set, section 3.2
            low, high = (0.0 if k == 0 else low), (1.0 if k == n else high)
        assert found.low == pytest.approx(low, abs=1e-9)
        assert found.high == pytest.approx(high, abs=1e-9)


@given(counts, confidences)
def test_order_and_mirror(count: tuple[int, int], confidence: float) -> None:
    """The share lies inside; what is dead has the mirrored interval."""
    k, n = count
    for method in INTERVALS:
        found, mirror = interval(k, n, confidence, method), interval(n - k, n, confidence, method)
        assert 0.0 <= found.low <= found.high <= 1.0
        assert found.low == pytest.approx(1.0 - mirror.high, abs=1e-9)
        if method != "jeffreys":
            assert found.low - 1e-12 <= k / n <= found.high + 1e-12


shapes = st.floats(0.05, 2000.0)


@given(st.floats(0.0, 1.0), shapes, shapes)
def test_incomplete_beta_against_scipy(x: float, a: float, b: float) -> None:
    """scipy.stats.beta.cdf."""
    assert beta_cdf(x, a, b) == pytest.approx(stats.beta.cdf(x, a, b), abs=1e-9)


@given(st.floats(1e-6, 1.0 - 1e-6), st.floats(0.5, 2000.0), st.floats(0.5, 2000.0))
def test_inverse_against_scipy(probability: float, a: float, b: float) -> None:
    """scipy.stats.beta.ppf."""
    assert beta_quantile(probability, a, b) == pytest.approx(
        stats.beta.ppf(probability, a, b), abs=1e-9
    )


@pytest.mark.parametrize(
    ("k", "n", "confidence"), [(-1, 5, 0.9), (6, 5, 0.9), (1, 0, 0.9), (1, 2, 1)]
)
def test_impossible_counts_are_refused(k: int, n: int, confidence: float) -> None:
    for method in INTERVALS:
        with pytest.raises(OutOfRangeError):
            interval(k, n, confidence, method)
