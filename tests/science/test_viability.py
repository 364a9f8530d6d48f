"""The viability equation's ratios against published values and a published rule of thumb."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox.science.errors import OutOfRangeError
from seedbox.science.probit import probit
from seedbox.science.viability import (
    days_per_probit,
    germination,
    log10_relative_life,
    relative_ageing,
)


def _times_longer(from_c: float, to_c: float) -> float:
    return 1.0 / relative_ageing(7.0, to_c, 7.0, from_c)


@pytest.mark.parametrize(
    ("from_c", "to_c", "times"), [(25, 20, 1.87), (20, 10, 2.97), (10, 0, 2.38)]
)
def test_temperature_factor(from_c: float, to_c: float, times: float) -> None:
    # Arithmetic on the constants of Dickie, Ellis, Kraak, Ryder & Tompsett 1990, Annals of Botany
    # 65:197-204.
    assert _times_longer(from_c, to_c) == pytest.approx(times, abs=0.01)


def test_chickpea_years_to_85_percent() -> None:
    # Open University and CGIAR genebank course: at 5 C and 6 / 8 / 10 / 12 % moisture 114 / 28 / 9
    # / 4 years, whole years; KE 8.901, CW 4.847. Ki = 1.50 makes the first point.
    for moisture, years in ((6, 114), (8, 28), (10, 9), (12, 4)):
        sigma = 10 ** (8.901 + log10_relative_life(moisture, 5.0, cw=4.847))
        found = sigma * (1.50 - probit(0.85)) / 365.25
        assert found == pytest.approx(years, abs=1.0), moisture


def test_harrington_rule_is_near_in_the_middle_of_its_range() -> None:
    # Harrington 1972, as widely quoted: 5 C cooler or one point drier doubles life. The equation
    # is no straight line; about 20 C and 8 to 10 % moisture it agrees within a quarter.
    assert _times_longer(25, 20) == pytest.approx(2.0, rel=0.25)
    drier = relative_ageing(9.0, 20.0, 8.0, 20.0)
    assert drier == pytest.approx(2.0, rel=0.25)
    both = relative_ageing(9.0, 25.0, 8.0, 20.0)
    assert both == pytest.approx(drier * _times_longer(25, 20), rel=1e-9)


def test_a_table_s_years_take_90_to_60_percent() -> None:
    start = probit(0.90)
    dose = 4.0 * 365.25 / days_per_probit(4.0)
    assert germination(start, 1.0, dose) == pytest.approx(0.60, abs=0.001)


def test_spread_of_half_viability_between_lots() -> None:
    # Carta 2025, abstract: initial viability from 85 to 99.9 % at equal rate spreads the
    # half-viability period threefold.
    assert probit(0.999) / probit(0.85) == pytest.approx(3.0, abs=0.05)


@given(st.floats(3, 20), st.floats(-20, 45), st.floats(3, 20), st.floats(-20, 45))
def test_ratios_turn_round(m1: float, t1: float, m2: float, t2: float) -> None:
    there, back = relative_ageing(m1, t1, m2, t2), relative_ageing(m2, t2, m1, t1)
    assert there * back == pytest.approx(1.0, rel=1e-9)


@given(st.floats(-3, 3), st.floats(0.1, 5), st.floats(0, 5), st.floats(0, 5))
def test_germination_never_rises_with_age(k: float, rate: float, dose: float, more: float) -> None:
    assert germination(k, rate, dose + more) <= germination(k, rate, dose)


@pytest.mark.parametrize("moisture", [0.0, -1.0, 70.0, math.nan])
def test_impossible_moisture_is_refused(moisture: float) -> None:
    with pytest.raises(OutOfRangeError, match="moisture"):
        log10_relative_life(moisture, 20.0)


@pytest.mark.parametrize("years", [0.0, -3.0])
def test_impossible_storage_life_is_refused(years: float) -> None:
    with pytest.raises(OutOfRangeError, match="storage life"):
        days_per_probit(years)
