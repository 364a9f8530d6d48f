"""Against scipy.special, which has its own algorithms for both directions."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import special

from seedbox.science.errors import OutOfRangeError
from seedbox.science.probit import normal_cdf, normal_density, probit


@given(st.floats(-8, 8))
def test_cdf_agrees_with_scipy(z: float) -> None:
    assert normal_cdf(z) == pytest.approx(special.ndtr(z), abs=1e-13)


@given(st.floats(1e-300, 1 - 1e-16))
def test_probit_agrees_with_scipy(fraction: float) -> None:
    assert probit(fraction) == pytest.approx(special.ndtri(fraction), rel=1e-9, abs=1e-12)


@given(st.floats(-6, 6))
def test_density_is_the_slope_of_the_cdf(z: float) -> None:
    slope = (normal_cdf(z + 1e-5) - normal_cdf(z - 1e-5)) / 2e-5
    assert normal_density(z) == pytest.approx(slope, abs=1e-8)


@pytest.mark.parametrize("fraction", [0.0, 1.0, -0.1, 1.2, float("nan")])
def test_outside_the_open_interval_is_refused_with_the_range(fraction: float) -> None:
    with pytest.raises(OutOfRangeError, match="between 0 and 1") as caught:
        probit(fraction)
    assert (caught.value.low, caught.value.high) == (0.0, 1.0)
