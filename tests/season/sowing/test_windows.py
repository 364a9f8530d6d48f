"""Sowing windows against published groups, common practice, and the mirrored garden."""

from __future__ import annotations

from datetime import date, timedelta
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seedbox import almanac
from seedbox.errors import BadDataError
from seedbox.season.sowing.climate import GardenClimate, MonthDay
from seedbox.season.sowing.figures import Hardiness, sowing_figures
from seedbox.season.sowing.spans import Method, Phase, latest_sowing
from seedbox.season.sowing.windows import Way, open_ways, ways, year_spans

MILD = GardenClimate(MonthDay(4, 25), MonthDay(10, 25), 52.0)
COLD = GardenClimate(MonthDay(7, 4), MonthDay(10, 25), 52.0)
FROST_FREE = GardenClimate(None, None, 18.0)
CROPS = [crop.id for crop in almanac.crops()]
FIGURES = {crop: sowing_figures(crop) for crop in CROPS}


def way(crop: str, climate: GardenClimate, on: date, method: Method) -> Way:
    return next(w for w in ways(sowing_figures(crop), climate, on) if w.method is method)


@cache
def offers(climate: GardenClimate, on: date) -> frozenset[tuple[str, Method]]:
    return frozenset(
        (crop, way.method) for crop in CROPS for way in open_ways(FIGURES[crop], climate, on)
    )


# --- Published windows --------------------------------------------------------------------------
# Colorado State University Extension, CMG GardenNotes 720, Vegetable Planting Guide: weeks from
# the average last spring frost in which each group is sown or planted outdoors.
HARDY = "broccoli_calabrese cabbage kohlrabi onion_bulb lettuce pea_garden radish spinach turnip"
SEMI_HARDY = "beetroot carrot cauliflower parsley parsnip chard"
TENDER = "bean_french_dwarf celery sweet_corn cucumber spinach_nz courgette"
VERY_TENDER = "bean_lima melon aubergine"
LAST_FROST = date(2027, 4, 25)


def _open_outdoors(crop: str, week: float) -> bool:
    return way(crop, MILD, LAST_FROST + timedelta(days=round(7 * week)), Method.OUTDOORS).open


@pytest.mark.parametrize("crop", HARDY.split())
def test_hardy_crops_are_sown_two_to_four_weeks_before_the_last_frost(crop: str) -> None:
    assert all(_open_outdoors(crop, week) for week in (-4, -3.5, -3, -2.5, -2))


@pytest.mark.parametrize("crop", SEMI_HARDY.split())
def test_semi_hardy_crops_are_sown_up_to_two_weeks_before_the_last_frost(crop: str) -> None:
    assert all(_open_outdoors(crop, week) for week in (-2, -1.5, -1, -0.5, 0))


@pytest.mark.parametrize("crop", TENDER.split())
def test_tender_crops_are_sown_or_set_out_about_the_last_frost(crop: str) -> None:
    figures = sowing_figures(crop)
    if figures.outdoor_weeks is None:  # celery is set out as plants
        assert figures.set_out_weeks is not None
        assert 0 <= figures.set_out_weeks.low <= 1
        return
    assert not _open_outdoors(crop, -1)
    # "About" is read as within a week: cucumber opens a week after.
    assert _open_outdoors(crop, 0) or _open_outdoors(crop, 1)


@pytest.mark.parametrize("crop", VERY_TENDER.split())
def test_very_tender_crops_wait_until_after_the_last_frost(crop: str) -> None:
    # "Two or more weeks after" is from memory in the same table.
    figures = sowing_figures(crop)
    if figures.outdoor_weeks is None:
        assert figures.set_out_weeks is not None
        assert figures.set_out_weeks.low >= 2
        return
    assert not _open_outdoors(crop, 0)
    assert not _open_outdoors(crop, 1)
    assert _open_outdoors(crop, 2)


# --- Common practice, no source: a mild maritime garden in March --------------------------------
UNDER_GLASS = (
    "chard beetroot kale cabbage cauliflower broccoli_calabrese brussels_sprouts leek lettuce "
    "pak_choi"
)
IN_THE_GROUND = "radish carrot parsnip bean_broad pea_garden spinach rocket"
MARCH = [date(2027, 3, day) for day in range(1, 32)]


@pytest.mark.parametrize("crop", UNDER_GLASS.split())
def test_march_offers_indoors_or_under_cover(crop: str) -> None:
    figures = sowing_figures(crop)
    glass = {Method.INDOORS, Method.UNDER_COVER}
    assert any(w.method in glass for day in MARCH for w in open_ways(figures, MILD, day))


@pytest.mark.parametrize("crop", IN_THE_GROUND.split())
def test_march_offers_outdoors_as_the_month_goes_on(crop: str) -> None:
    assert way(crop, MILD, MARCH[-1], Method.OUTDOORS).open


def test_the_ground_fills_up_through_march() -> None:
    opened = [
        sum(way(crop, MILD, day, Method.OUTDOORS).open for crop in IN_THE_GROUND.split())
        for day in (MARCH[0], MARCH[14], MARCH[-1])
    ]
    assert opened[0] < opened[1] < opened[2]


@pytest.mark.parametrize("crop", ["celery", "sunflower"])
def test_celery_and_sunflower_towards_the_end_of_march(crop: str) -> None:
    figures = sowing_figures(crop)
    assert all(open_ways(figures, MILD, day) for day in MARCH[-4:])


@pytest.mark.parametrize("crop", ["tomato", "pepper_sweet", "pepper_chilli", "aubergine"])
def test_tender_fruit_in_march_is_for_indoors_only(crop: str) -> None:
    figures = sowing_figures(crop)
    methods = {w.method for day in MARCH for w in open_ways(figures, MILD, day)}
    assert methods == {Method.INDOORS}
    late = way(crop, MILD, date(2027, 4, 20), Method.INDOORS)
    assert late.phase is Phase.LATER
    assert "late, which costs harvest" in late.reason


def test_ten_weeks_more_frost_give_another_list() -> None:
    for day in (MARCH[0], MARCH[14], MARCH[-1]):
        mild, cold = offers(MILD, day), offers(COLD, day)
        assert len(cold) < len(mild)
        assert not any(method is Method.OUTDOORS for _, method in cold)
    assert ("tomato", Method.INDOORS) in offers(MILD, MARCH[-1]) - offers(COLD, MARCH[-1])


# --- Half the globe away ------------------------------------------------------------------------
HALF_YEAR = 183


def _mirrored(climate: GardenClimate) -> GardenClimate:
    def shift(day: MonthDay | None) -> MonthDay:
        assert day is not None
        moved = day.in_year(2027) + timedelta(days=HALF_YEAR)
        return MonthDay(moved.month, moved.day)

    return GardenClimate(
        shift(climate.last_spring_frost), shift(climate.first_autumn_frost), -climate.latitude
    )


@pytest.mark.parametrize("day", [date(2027, month, 11) for month in range(1, 13)])
def test_a_garden_shifted_by_half_a_year_is_offered_the_same(day: date) -> None:
    south = _mirrored(MILD)
    there = day + timedelta(days=HALF_YEAR)
    different = offers(MILD, day) ^ offers(south, there)
    # Half a year is 182.6 days, so a window that opens or closes within three days may fall on the
    # other side. Under cover the last sowings end in short days, which come a week later in the
    # south: the earth is quicker in January than in July.
    for method, days in ((None, 3), (Method.UNDER_COVER, 8)):
        reach = timedelta(days=days)
        edges = offers(MILD, day - reach) ^ offers(MILD, day + reach)
        different -= {pair for pair in edges if method in (None, pair[1])}
    assert not different


# --- Later sowings, winter, no frost ------------------------------------------------------------
def test_the_last_outdoor_week_closes_the_spring_sowing_only() -> None:
    spring = way("beetroot", MILD, date(2027, 4, 20), Method.OUTDOORS)
    june = way("beetroot", MILD, date(2027, 6, 20), Method.OUTDOORS)
    assert spring.phase is Phase.IN_SEASON
    assert spring.later_until == june.closes
    assert (june.open, june.phase) == (True, Phase.LATER)
    autumn = way("beetroot", MILD, date(2027, 9, 25), Method.OUTDOORS)
    assert not autumn.open
    assert "too late to mature" in autumn.reason


def test_later_sowings_mature_before_the_frost() -> None:
    # Radish takes 22 to 30 days: 26 before 25 October is 29 September, short days not yet begun.
    assert latest_sowing(26, MILD, date(2027, 10, 25)) == date(2027, 9, 29)
    # With the frost at the end of November the days below 10 hours cost time (rule of thumb).
    late = GardenClimate(MonthDay(3, 1), MonthDay(11, 30), 52.0)
    assert latest_sowing(26, late, date(2027, 11, 30)) < date(2027, 11, 4)


def test_sown_in_autumn_to_stand_the_winter() -> None:
    # Common practice, no source: broad beans in late October or November where winters are mild.
    november = date(2027, 11, 5)
    assert way("bean_broad", MILD, november, Method.OUTDOORS).phase is Phase.AUTUMN
    assert not way("bean_broad", COLD, november, Method.OUTDOORS).open
    assert way("bean_broad", COLD, november, Method.UNDER_COVER).phase is Phase.AUTUMN
    assert not any(
        span.phase is Phase.AUTUMN
        for crop in CROPS
        if sowing_figures(crop).hardiness is not Hardiness.HARDY
        for span in year_spans(sowing_figures(crop), MILD, 2027)
    )


def test_a_season_too_short_is_said() -> None:
    # Twelve weeks without frost: winter squash wants 85 days or more after the second week.
    short = GardenClimate(MonthDay(6, 10), MonthDay(9, 1), 60.0)
    outdoors = way("squash_winter", short, date(2027, 6, 1), Method.OUTDOORS)
    assert not outdoors.open
    assert outdoors.opens is None
    assert "too short" in outdoors.reason


@given(st.sampled_from(CROPS), st.dates(date(2020, 1, 1), date(2040, 12, 31)))
def test_without_frost_every_day_is_alike(crop: str, day: date) -> None:
    figures = sowing_figures(crop)
    found = ways(figures, FROST_FREE, day)
    assert found == ways(figures, FROST_FREE, day + timedelta(days=100))
    assert all(w.reason for w in found)


@settings(max_examples=150)
@given(
    st.sampled_from(CROPS),
    st.dates(date(2001, 1, 1), date(2001, 12, 31)),
    st.integers(60, 330),
    st.floats(-66, 66),
    st.dates(date(2020, 1, 1), date(2040, 12, 31)),
)
def test_any_garden_any_day(
    crop: str, last: date, frost_free: int, latitude: float, day: date
) -> None:
    first = last + timedelta(days=frost_free)
    climate = GardenClimate(
        MonthDay(last.month, last.day), MonthDay(first.month, first.day), latitude
    )
    found = ways(sowing_figures(crop), climate, day)
    assert [w.method for w in found] == list(Method)
    for each in found:
        assert each.reason
        if each.open:
            assert each.opens is not None
            assert each.closes is not None
            assert each.opens <= day <= each.closes
            assert each.days_left(day) == (each.closes - day).days
        elif each.opens is not None:
            assert each.opens > day
            on_opening = ways(sowing_figures(crop), climate, each.opens)
            assert next(w for w in on_opening if w.method is each.method).open


# --- The climate itself -------------------------------------------------------------------------
def test_weeks_count_from_the_nearest_last_frost_across_the_new_year() -> None:
    assert MILD.weeks_from_last_frost(date(2027, 4, 25)) == 0
    assert MILD.weeks_from_last_frost(date(2026, 12, 20)) == -18
    south = GardenClimate(MonthDay(10, 10), MonthDay(4, 20), -40.0)
    assert south.weeks_from_last_frost(date(2027, 1, 2)) == 12
    assert south.weeks_from_last_frost(date(2027, 9, 12)) == -4
    assert FROST_FREE.weeks_from_last_frost(date(2027, 1, 2)) is None


def test_the_season_in_the_south_runs_over_the_new_year() -> None:
    season = GardenClimate(MonthDay(10, 10), MonthDay(4, 20), -40.0).seasons_around(
        date(2027, 1, 1)
    )[0]
    assert season.first_frost == date(season.last_frost.year + 1, 4, 20)


@pytest.mark.parametrize(
    ("build", "says"),
    [
        (lambda: MonthDay(2, 29), "02-29"),
        (lambda: MonthDay(13, 1), "13-01"),
        (lambda: GardenClimate(MonthDay(4, 1), None, 50), "give both"),
        (lambda: GardenClimate(None, None, 95), "latitude"),
        (lambda: GardenClimate(MonthDay(4, 1), MonthDay(4, 1), 50), "same day"),
    ],
)
def test_impossible_climates_are_refused_with_a_sentence(build: object, says: str) -> None:
    with pytest.raises(BadDataError, match=says):
        build()  # type: ignore[operator]
