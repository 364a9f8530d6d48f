"""The five pieces of advice, and how many seeds a test takes."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox.science.advice import Advice, advise, seeds_worth_testing, thick_factor
from seedbox.science.errors import OutOfRangeError

SHARES = st.floats(0, 1)


@pytest.mark.parametrize(
    ("now", "next_year", "floor", "expected"),
    [
        (0.75, 0.75, 1.0, Advice.SOW),
        (0.75, 0.74, 1.0, Advice.USE_UP),
        (0.74, 0.70, 0.75, Advice.SOW_THICK),
        (0.50, 0.40, 0.74, Advice.TEST),
        (0.00, 0.00, 0.11, Advice.TEST),
        (0.00, 0.00, 0.10, Advice.SPENT),
    ],
)
def test_thresholds(now: float, next_year: float, floor: float, expected: Advice) -> None:
    assert advise(now, next_year, floor, 0.75) is expected


@given(SHARES, SHARES, SHARES, st.floats(0.5, 0.95))
def test_there_is_always_an_advice(now: float, later: float, floor: float, sure: float) -> None:
    assert advise(now, min(now, later), max(now, floor), sure) in Advice


def test_words_are_the_five_of_the_trade() -> None:
    assert sorted(Advice) == ["sow", "sow thick", "spent", "test", "use up"]


@given(st.floats(0.4, 0.95), st.floats(0.2, 0.95))
def test_thick_sowing_makes_up_for_what_is_dead(standard: float, assured: float) -> None:
    factor = thick_factor(standard, assured)
    assert factor >= 1.1
    assert factor * assured >= standard - 1e-6
    assert factor == 1.1 or (factor - 0.1) * assured < standard + 1e-6


def test_nothing_assured_has_no_factor() -> None:
    with pytest.raises(OutOfRangeError):
        thick_factor(0.8, 0.0)


@given(
    st.floats(-3, 2),
    st.floats(0.2, 2),
    st.floats(0.1, 0.6),
    st.floats(0.5, 0.95),
    st.floats(0, 1e5),
)
def test_never_more_than_a_quarter_of_the_packet(
    viability: float, sd: float, floor: float, sure: float, left: float
) -> None:
    seeds = seeds_worth_testing(viability, sd, floor, sure, left)
    if seeds is None:
        assert left < 20
    else:
        assert 5 <= seeds <= min(left / 4, 50)


def test_a_packet_not_counted_may_be_tested() -> None:
    assert seeds_worth_testing(-0.3, 0.9, 0.35, 0.75, None) in {10, 20, 25, 50}
