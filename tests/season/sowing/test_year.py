"""A crop's year: stretches in order, whole, and as common practice has them."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox import almanac
from seedbox.season.sowing.climate import GardenClimate, MonthDay
from seedbox.season.sowing.figures import sowing_figures
from seedbox.season.sowing.windows import year_spans
from seedbox.season.sowing.year import Activity, Stretch, crop_year

MILD = GardenClimate(MonthDay(4, 25), MonthDay(10, 25), 52.0)
SOUTH = GardenClimate(MonthDay(10, 25), MonthDay(4, 26), -52.0)
CROPS = [crop.id for crop in almanac.crops()]


def stretch(crop: str, activity: Activity, climate: GardenClimate = MILD) -> Stretch:
    found = crop_year(sowing_figures(crop), climate, 2027)
    return next(each for each in found if each.activity is activity and each.first.year == 2027)


def test_tomatoes_as_common_practice_has_them() -> None:
    # Common practice in a mild maritime garden, no source: indoors from March, out in May, picked
    # from summer until the frost.
    assert stretch("tomato", Activity.INDOORS).first.month == 3
    assert stretch("tomato", Activity.SET_OUT).first.month == 5
    harvest = stretch("tomato", Activity.HARVEST)
    assert harvest.first.month in (6, 7)
    assert harvest.last == date(2027, 10, 25)


def test_celery_and_parsnips_as_common_practice_has_them() -> None:
    # Common practice, no source: celery is cut from July or August, parsnips are ready by autumn
    # and stand in the frost.
    assert stretch("celery", Activity.HARVEST).first.month in (7, 8)
    parsnip = stretch("parsnip", Activity.HARVEST)
    assert parsnip.first < date(2027, 9, 23)
    assert parsnip.last > date(2027, 10, 25)


def test_a_southern_year_holds_the_ends_of_two_seasons() -> None:
    found = crop_year(sowing_figures("tomato"), SOUTH, 2027)
    harvests = [each for each in found if each.activity is Activity.HARVEST]
    assert len(harvests) == 2
    assert harvests[0].first < date(2027, 1, 15) < harvests[0].last
    assert harvests[0].last < date(2027, 6, 1)


def test_without_frost_there_is_no_calendar() -> None:
    assert crop_year(sowing_figures("tomato"), GardenClimate(None, None, 10.0), 2027) == ()


@given(st.sampled_from(CROPS), st.sampled_from([MILD, SOUTH]), st.integers(2020, 2040))
def test_stretches_touch_their_year_and_hold_every_sowing(
    crop: str, climate: GardenClimate, year: int
) -> None:
    found = crop_year(sowing_figures(crop), climate, year)
    for each in found:
        assert each.first <= each.last
        assert each.first.year <= year <= each.last.year
        assert each.last - each.first < timedelta(days=366)
    sown = {Activity.INDOORS, Activity.UNDER_COVER, Activity.OUTDOORS}
    assert {(each.first, each.last) for each in found if each.activity in sown} == {
        (span.opens, span.closes) for span in year_spans(sowing_figures(crop), climate, year)
    }


@pytest.mark.parametrize("crop", CROPS)
def test_a_harvest_follows_its_sowing_by_the_days_to_maturity(crop: str) -> None:
    figures = sowing_figures(crop)
    both = [each for year in (2027, 2028) for each in crop_year(figures, MILD, year)]
    sown = [each.first for each in both if "sow" in each.activity and each.first.year == 2027]
    harvests = [each.first for each in both if each.activity is Activity.HARVEST]
    if sown and harvests:
        assert figures.maturity_days is not None
        following = min(day for day in harvests if day > min(sown))
        assert (following - min(sown)).days >= figures.maturity_days.low
