"""The isotherm against published pairs of humidity and moisture."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox.science.errors import OutOfRangeError
from seedbox.science.moisture import (
    equilibrium_humidity,
    equilibrium_moisture,
    lowest_useful_moisture,
)


def test_chickpea_at_15_percent_humidity() -> None:
    # Open University and CGIAR genebank course: oil 5 %, 15 % RH and 15 C gives 6 % moisture.
    assert equilibrium_moisture(0.15, 15.0, 0.05) == pytest.approx(6.0, abs=0.2)


def test_maize_at_13_percent_moisture() -> None:
    # Elsevier/CRC drying text, abstract: maize (oil 5 %) at 13 %, 25 C stands at about 65 % RH.
    assert 100 * equilibrium_humidity(13.0, 25.0, 0.05) == pytest.approx(65.0, abs=1.5)


@pytest.mark.parametrize(("temperature_c", "humidity"), [(0.0, 49), (21.1, 62), (32.2, 68)])
def test_dent_maize_at_15_percent_dry_basis(temperature_c: float, humidity: float) -> None:
    # Modified Henderson equation with ASAE D245 constants; 15 % dry basis is 13.04 % fresh weight.
    fresh = 100 * 15 / 115
    found = 100 * equilibrium_humidity(fresh, temperature_c, 0.05)
    assert found == pytest.approx(humidity, abs=2.5)


@pytest.mark.parametrize(("oil", "moisture"), [(0.40, 4.0), (0.0, 7.0)])
def test_orthodox_seed_at_15_percent_humidity(oil: float, moisture: float) -> None:
    # Royal Botanic Gardens Kew, post-harvest advice, as quoted: 4 % (oil 40 %) to 7 % (no oil).
    assert equilibrium_moisture(0.15, 15.0, oil) == pytest.approx(moisture, abs=0.8)


@given(st.floats(0.01, 0.95), st.floats(-20, 45), st.floats(0, 0.5))
def test_both_directions_agree(humidity: float, temperature_c: float, oil: float) -> None:
    moisture = equilibrium_moisture(humidity, temperature_c, oil)
    assert equilibrium_humidity(moisture, temperature_c, oil) == pytest.approx(humidity, abs=1e-9)


@given(st.floats(0.01, 0.9), st.floats(-20, 45), st.floats(0, 0.5))
def test_damper_air_wetter_seed_and_oil_holds_less(rh: float, temp: float, oil: float) -> None:
    assert equilibrium_moisture(rh + 0.05, temp, oil) > equilibrium_moisture(rh, temp, oil)
    assert equilibrium_moisture(rh, temp, oil + 0.05) < equilibrium_moisture(rh, temp, oil)


@given(st.floats(0, 0.5))
def test_lowest_useful_moisture_stands_at_10_6_percent(oil: float) -> None:
    # Ellis, Hong & Roberts 1989, Annals of Botany 63:601-611, abstract: 10.6 % RH.
    moisture = lowest_useful_moisture(oil)
    assert equilibrium_humidity(moisture, 20.0, oil) == pytest.approx(0.106, abs=1e-9)


@pytest.mark.parametrize(
    "arguments", [(1.0, 20, 0.1), (-0.1, 20, 0.1), (0.5, 200, 0.1), (0.5, 20, 0.9), (0.5, 20, -0.2)]
)
def test_outside_the_range_is_refused(arguments: tuple[float, float, float]) -> None:
    with pytest.raises(OutOfRangeError, match="must lie between"):
        equilibrium_moisture(*arguments)
