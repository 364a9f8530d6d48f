"""What is believed before any test."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox.science.errors import OutOfRangeError
from seedbox.science.prior import Viability, initial_viability, lot_prior, rate_spread
from seedbox.science.probit import normal_cdf, probit


@given(st.floats(0.3, 0.95))
def test_bought_seed_starts_above_the_standard(standard: float) -> None:
    bought = initial_viability("bought", standard)
    assert bought.mean == pytest.approx(probit(standard) + 0.65)
    assert bought.sd == pytest.approx(0.4)


@pytest.mark.parametrize("origin", ["saved", "swapped", "gift", None, "", "heirloom"])
def test_other_seed_starts_lower_and_less_sure(origin: str | None) -> None:
    bought, other = initial_viability("bought", 0.75), initial_viability(origin, 0.75)
    assert other.mean < bought.mean
    assert other.sd > bought.sd


def test_no_standard_widens() -> None:
    known = initial_viability("bought", 0.65)
    guessed = initial_viability("bought", 0.65, standard_known=False)
    assert guessed.mean == known.mean
    assert guessed.sd > known.sd


@given(st.floats(0, 3))
def test_spread_of_the_rate_stays_in_its_range(spread: float) -> None:
    crop, family, unknown = (rate_spread(spread, basis) for basis in ("crop", "family", "all"))
    assert 0.5 <= crop <= 0.8 <= family <= unknown <= 0.9
    assert rate_spread(spread, "yours") == crop


def test_primed_seed_ages_up_to_six_times_faster() -> None:
    # Tarquis & Bradford 1992, abstract: up to 84 % of mean life lost, 1 / (1 - 0.84) = 6.
    primed = lot_prior(Viability(1.5, 0.4), 0.0, primed=True)
    low, high = (math.exp(primed.ln_rate + z * primed.ln_rate_sd) for z in (-1.645, 1.645))
    assert low == pytest.approx(1.0, abs=0.02)
    assert high == pytest.approx(1 / (1 - 0.84), abs=0.3)


def test_impossible_standard_is_refused() -> None:
    with pytest.raises(OutOfRangeError):
        initial_viability("bought", 1.0)


def test_bought_seed_of_a_crop_at_75_percent_starts_near_90() -> None:
    # Germination typical of fresh commercial seed: common practice, no source.
    assert normal_cdf(initial_viability("bought", 0.75).mean) == pytest.approx(0.9, abs=0.02)
