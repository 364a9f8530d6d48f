"""Dose over storage: seasons, sealed seed, lower limit, and what is not supported."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate

from seedbox.science.ageing import (
    Climate,
    bounded,
    open_store_rate,
    sealed_store_rate,
    store_rate,
    unsupported,
)
from seedbox.science.errors import OutOfRangeError
from seedbox.science.moisture import equilibrium_moisture

HUMIDITIES = st.floats(0.05, 0.95)
TEMPERATURES = st.floats(-20, 45)
OILS = st.floats(0, 0.5)


@given(TEMPERATURES, TEMPERATURES, st.floats(0.15, 0.7))
def test_seasonal_rate_is_the_mean_over_the_year(a: float, b: float, humidity: float) -> None:
    # Oracle: scipy's adaptive quadrature over a cosine year.
    middle, swing = (a + b) / 2, abs(a - b) / 2

    def rate(turn: float) -> float:
        temperature = middle + swing * math.cos(2 * math.pi * turn)
        return open_store_rate(humidity, temperature, temperature, 0.2)

    expected, _ = integrate.quad(rate, 0, 1, epsabs=0, epsrel=1e-7)
    found = open_store_rate(humidity, min(a, b), max(a, b), 0.2)
    assert found == pytest.approx(expected, rel=0.005)


@given(st.floats(0.0, 0.105), TEMPERATURES, OILS)
def test_no_gain_from_drying_below_the_limit(humidity: float, temp: float, oil: float) -> None:
    # Ellis, Hong & Roberts 1989, Annals of Botany 63:601-611: none below 10.6 % RH.
    moisture = equilibrium_moisture(humidity, 20.0, oil)
    limit = equilibrium_moisture(0.106, 20.0, oil)
    assert sealed_store_rate(moisture, temp, temp, oil) == sealed_store_rate(limit, temp, temp, oil)


@given(st.floats(0.15, 0.9), TEMPERATURES, OILS)
def test_damper_or_warmer_ages_faster(humidity: float, temp: float, oil: float) -> None:
    here = open_store_rate(humidity, temp, temp, oil)
    assert open_store_rate(humidity + 0.05, temp, temp, oil) > here
    moisture = equilibrium_moisture(humidity, temp, oil)
    sealed = sealed_store_rate(moisture, temp, temp, oil)
    assert sealed_store_rate(moisture, temp + 5, temp + 5, oil) > sealed


def test_swinging_temperature_ages_more_than_its_mean() -> None:
    assert open_store_rate(0.5, 5, 25, 0.1) > open_store_rate(0.5, 15, 15, 0.1)


@pytest.mark.parametrize(
    ("climate", "word"),
    [
        (Climate(-40, -18, moisture=5.0), "colder than -20 °C"),
        (Climate(20, 46, 0.5), "hotter than 45 °C"),
        (Climate(20, 20, 0.71), "damper than 70 %"),
        (Climate(20, 20, moisture=18.0), "damper than 70 %"),
    ],
)
def test_what_is_unsupported_says_why(climate: Climate, word: str) -> None:
    assert word in unsupported(climate, 0.1)


@pytest.mark.parametrize(
    "climate", [Climate(-20, 45, 0.70), Climate(4, 4, moisture=6.0), Climate(20, 20, 0.0)]
)
def test_the_edges_are_supported(climate: Climate) -> None:
    assert unsupported(climate, 0.1) == ""


@given(st.floats(-200, 200), st.floats(-200, 200), st.floats(0, 1), st.floats(0, 100), OILS)
def test_every_bounded_climate_has_a_rate(
    a: float, b: float, humidity: float, moisture: float, oil: float
) -> None:
    low, high = min(a, b), max(a, b)
    for climate in (Climate(low, high, humidity), Climate(low, high, moisture=moisture)):
        rate = store_rate(bounded(climate), oil)
        assert 0 < rate < math.inf
        assert isinstance(unsupported(climate, oil), str)


@given(TEMPERATURES, HUMIDITIES)
def test_inside_the_range_bounds_change_nothing(temperature_c: float, humidity: float) -> None:
    climate = Climate(temperature_c, temperature_c, humidity)
    assert bounded(climate) == climate


def test_open_store_without_humidity_is_refused() -> None:
    with pytest.raises(OutOfRangeError):
        store_rate(Climate(20, 20), 0.1)
