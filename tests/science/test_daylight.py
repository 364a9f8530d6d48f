"""Daylight against an ephemeris, light sums against their definition, growth in short days."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox.science.daylength import daylight_hours, short_days
from seedbox.science.errors import OutOfRangeError
from seedbox.science.light import Light, daily_light, hours_for, light_for_seedlings
from seedbox.science.maturity import days_before_to_grow, days_until_grown, growth_rate

# Sunrise to sunset in 2027 by the package astral 3.2 (another algorithm: Meeus' solar position
# with the equation of time; upper limb, refraction), longitude 0.
EPHEMERIS = [
    (-52, 1, 15, 16.165),
    (-52, 3, 20, 12.192),
    (-52, 6, 21, 7.729),
    (0, 6, 21, 12.120),
    (52, 8, 10, 14.969),
    (52, 10, 30, 9.743),
    (58, 8, 10, 15.753),
    (58, 10, 30, 9.136),
]


def _day(month: int, day: int) -> int:
    return date(2027, month, day).timetuple().tm_yday


@pytest.mark.parametrize(("latitude", "month", "day", "hours"), EPHEMERIS)
def test_daylight_agrees_with_an_ephemeris(
    latitude: float, month: int, day: int, hours: float
) -> None:
    assert daylight_hours(latitude, _day(month, day)) == pytest.approx(hours, abs=0.10)


def test_daylight_at_the_solstices_in_london() -> None:
    # Longest and shortest day at 51.5 N, 16 h 38 min and 7 h 50 min, as almanacs give them (from
    # memory).
    assert daylight_hours(51.5, 172) == pytest.approx(16 + 38 / 60, abs=0.1)
    assert daylight_hours(51.5, 355) == pytest.approx(7 + 50 / 60, abs=0.1)


def test_polar_day_and_night() -> None:
    assert daylight_hours(70.0, 172) == 24.0
    assert daylight_hours(70.0, 355) == 0.0
    assert daylight_hours(-90.0, 355) == 24.0
    assert daylight_hours(90.0, 355) == 0.0


def test_days_shorter_than_ten_hours() -> None:
    # By astral 3.2, as above: at 52 N the first such day of 2027 is 26 October, the last of the
    # winter 15 February.
    short = short_days(52.0)
    assert short is not None
    assert abs(short.first - _day(10, 26)) <= 1
    assert abs(short.last - _day(2, 15)) <= 1


def test_short_days_in_the_south_lie_in_the_middle_of_the_year() -> None:
    short = short_days(-45.0)
    assert short is not None
    assert 100 < short.first < 172 < short.last < 240


def test_places_without_short_days_and_without_long_ones() -> None:
    assert short_days(0.0) is None
    short = short_days(10.0, hours=23.0)
    assert short is not None
    assert (short.first, short.last) == (1, 365)


@given(st.floats(-60, 60), st.integers(1, 365))
def test_every_day_and_its_opposite_make_a_whole(latitude: float, day: int) -> None:
    # Daylight at L and at -L add up to 24 h and what bending and the sun's disc add on both sides.
    both = daylight_hours(latitude, day) + daylight_hours(-latitude, day)
    assert 24.0 <= both <= 24.8


@pytest.mark.parametrize(("latitude", "day"), [(91.0, 1), (52.0, 0), (52.0, 367)])
def test_impossible_places_and_days_are_refused(latitude: float, day: int) -> None:
    with pytest.raises(OutOfRangeError):
        daylight_hours(latitude, day)


def test_daily_light_and_its_verdicts() -> None:
    # DLI = PPFD x hours x 0.0036; seedlings 8 to 14 (University of New Hampshire Extension);
    # young plants poorer below 10 (Michigan State University Extension).
    assert daily_light(100, 10) == pytest.approx(3.6)
    verdicts = [light_for_seedlings(dli) for dli in (7.9, 8.0, 9.9, 10.0, 14.0, 14.1)]
    assert verdicts == [
        Light.TOO_LITTLE,
        Light.POORER,
        Light.POORER,
        Light.GOOD,
        Light.GOOD,
        Light.MORE_THAN_NEEDED,
    ]


@given(st.floats(1, 2500), st.floats(0, 20))
def test_hours_of_lamp_give_the_light_wanted(ppfd: float, dli: float) -> None:
    hours = hours_for(ppfd, dli)
    if hours is None:
        assert daily_light(ppfd, 24) < dli
    else:
        assert daily_light(ppfd, hours) == pytest.approx(dli)


def test_growth_nearly_stops_below_ten_hours() -> None:
    # Rule of thumb (README of the figures): below 10 hours most vegetables nearly stop.
    assert growth_rate(10.0) == 1.0
    assert growth_rate(8.0) <= 0.2


@given(st.integers(0, 364), st.integers(1, 200), st.floats(-60, 60))
def test_counting_back_and_forward_agree(start: int, days: int, latitude: float) -> None:
    def daylight(day: int) -> float:
        return daylight_hours(latitude, (start + day) % 365 + 1)

    back = days_before_to_grow(days, daylight)
    forward = days_until_grown(days, lambda day: daylight(day - back))
    assert days <= back
    assert forward <= back
    one_later = days_until_grown(days, lambda day: daylight(day - back + 1))
    assert one_later > back - 1
