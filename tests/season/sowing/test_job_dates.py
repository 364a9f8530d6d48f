"""Dates of a sowing's jobs against common practice, and how what happened moves the rest."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seedbox import almanac
from seedbox.season.sowing.climate import GardenClimate, MonthDay
from seedbox.season.sowing.course import Sown, setting_out
from seedbox.season.sowing.emergence_model import emergence_model
from seedbox.season.sowing.figures import Hardiness, sowing_figures
from seedbox.season.sowing.job_dates import JobDate, JobKind, jobs, resow_job
from seedbox.season.sowing.place import Warmth, constant
from seedbox.season.sowing.pots import days_in_pot
from seedbox.season.sowing.spans import Method

MILD = GardenClimate(MonthDay(4, 25), MonthDay(10, 25), 52.0)
SILL = constant(18.0)
# Invented, like a bed in a mild maritime garden.
BED = Warmth((4, 4, 6, 9, 12, 15, 17, 17, 14, 11, 7, 5))
SMALL_CELL_CM = 4.5
CROPS = [crop.id for crop in almanac.crops()]


def in_cells(crop: str, on: date, **happened: object) -> Sown:
    sown = Sown(
        sowing_figures(crop), emergence_model(crop), Method.INDOORS, on, SILL, SMALL_CELL_CM
    )
    return replace(sown, **happened)  # type: ignore[arg-type]


def in_the_bed(crop: str, on: date, **happened: object) -> Sown:
    sown = Sown(sowing_figures(crop), emergence_model(crop), Method.OUTDOORS, on, BED)
    return replace(sown, **happened)  # type: ignore[arg-type]


def job(sown: Sown, kind: JobKind, climate: GardenClimate = MILD) -> JobDate:
    return next(each for each in jobs(sown, climate) if each.kind is kind)


def kinds(sown: Sown) -> list[JobKind]:
    return [each.kind for each in jobs(sown, MILD)]


# --- Common practice, no source -----------------------------------------------------------------
def test_peas_left_six_weeks_in_small_cells_are_overdue() -> None:
    sown = in_cells("pea_garden", date(2027, 3, 1))
    six_weeks = date(2027, 3, 1) + timedelta(weeks=6)
    waiting = [job(sown, JobKind.POT_ON), job(sown, JobKind.PLANT_OUT)]
    assert any(each.days_late(six_weeks) > 0 for each in waiting)
    assert job(sown, JobKind.POT_ON).days_late(six_weeks) >= 14
    assert "pot-bound" in waiting[0].if_it_waits


def test_radish_is_ready_in_about_a_month() -> None:
    # In a cold bed in March it comes up late, and is ready as much later.
    for day in (date(2027, 3, 25), date(2027, 5, 10), date(2027, 8, 1)):
        harvest = job(in_the_bed("radish", day), JobKind.HARVEST)
        assert 20 <= (harvest.due - day).days <= 38


@pytest.mark.parametrize("day", [date(2027, 2, 10), date(2027, 3, 5), date(2027, 3, 28)])
@pytest.mark.parametrize("outside", [None, BED])
def test_celery_goes_out_after_the_frosts_and_is_cut_from_july_or_august(
    day: date, outside: Warmth | None
) -> None:
    sown = in_cells("celery", day, outside=outside)
    assert job(sown, JobKind.PLANT_OUT).due >= date(2027, 4, 25)
    assert job(sown, JobKind.HARVEST).due.month in (7, 8)


def test_parsnips_are_ready_by_autumn() -> None:
    harvest = job(in_the_bed("parsnip", date(2027, 3, 28)), JobKind.HARVEST)
    assert date(2027, 6, 21) < harvest.due < harvest.good_until < date(2027, 9, 23)


def test_tap_roots_in_shallow_cells_are_late_soonest() -> None:
    # The same usual weeks to transplanting (3 to 4) and the same cell.
    pea, pak_choi = sowing_figures("pea_garden"), sowing_figures("pak_choi")
    assert pea.tap_rooted
    assert not pak_choi.deep_rooted
    assert days_in_pot(pea, SMALL_CELL_CM) < days_in_pot(pak_choi, SMALL_CELL_CM)
    assert "main root" in job(in_cells("pea_garden", date(2027, 3, 1)), JobKind.POT_ON).if_it_waits


@pytest.mark.parametrize(("days", "least"), [(14, 7), (10, 7), (5, 5)])
def test_hardening_off_takes_the_garden_s_days_and_ends_at_planting_out(
    days: int, least: int
) -> None:
    sown = in_cells("tomato", date(2027, 3, 10), outside=BED)
    sown = replace(sown, hardening_days=days)
    harden, out = job(sown, JobKind.HARDEN_OFF), job(sown, JobKind.PLANT_OUT)
    assert (out.due - harden.due).days == days
    assert (out.due - harden.good_until).days == least


# --- Frost and soil -----------------------------------------------------------------------------
def test_tender_plants_wait_for_the_frosts_and_for_the_soil() -> None:
    sown = in_cells("tomato", date(2027, 3, 10))
    assert job(sown, JobKind.PLANT_OUT).due == date(2027, 5, 2)  # a week after the last frost
    cold_bed = Warmth((2, 2, 4, 6, 9, 13, 15, 15, 12, 9, 6, 3))
    out = job(replace(sown, outside=cold_bed), JobKind.PLANT_OUT)
    assert cold_bed.on(out.due) >= 12 > cold_bed.on(out.due - timedelta(days=1))
    assert "soil" in out.why


def test_hardy_plants_go_out_before_the_last_frost() -> None:
    assert job(in_cells("cabbage", date(2027, 2, 10)), JobKind.PLANT_OUT).due < date(2027, 4, 25)


def test_without_frost_plants_go_out_when_they_are_large_enough() -> None:
    frost_free = GardenClimate(None, None, 18.0)
    sown = in_cells("tomato", date(2027, 12, 1))
    out = job(sown, JobKind.PLANT_OUT, frost_free)
    assert out.due < date(2028, 1, 15)
    assert "large enough" in out.why


def test_the_south_has_the_same_dates_half_a_year_later() -> None:
    south = GardenClimate(MonthDay(10, 25), MonthDay(4, 26), -52.0)
    here = jobs(in_cells("tomato", date(2027, 3, 10)), MILD)
    there = jobs(in_cells("tomato", date(2027, 9, 9)), south)
    assert [each.kind for each in here] == [each.kind for each in there]
    for one, other in zip(here, there, strict=True):
        assert abs((other.due - one.due).days - 183) <= 1


# --- What happened moves the rest ---------------------------------------------------------------
def test_late_emergence_moves_what_follows() -> None:
    sown = in_cells("tomato", date(2027, 3, 10), per_cell=2, outside=BED)
    count = job(sown, JobKind.COUNT)
    late = replace(sown, emerged_on=count.due + timedelta(days=9))
    assert JobKind.COUNT not in kinds(late)
    for kind in (JobKind.THIN, JobKind.POT_ON):
        assert (job(late, kind).due - job(sown, kind).due).days == 9


def test_a_bed_sowing_that_came_up_late_is_harvested_late() -> None:
    sown = in_the_bed("radish", date(2027, 4, 20))
    up = job(sown, JobKind.COUNT).due
    late = replace(sown, emerged_on=up + timedelta(days=6))
    assert (job(late, JobKind.HARVEST).due - job(sown, JobKind.HARVEST).due).days == 6


def test_potting_on_gives_time_and_planting_out_ends_the_pot() -> None:
    sown = in_cells("tomato", date(2027, 3, 1), emerged_on=date(2027, 3, 11), outside=BED)
    first = job(sown, JobKind.POT_ON)
    potted = replace(sown, potted_on=first.due, pot_depth_cm=9.0)
    assert JobKind.THIN not in kinds(replace(potted, per_cell=2))
    later = [each for each in jobs(potted, MILD) if each.kind is JobKind.POT_ON]
    assert all(each.due > first.due for each in later)
    planted = replace(potted, planted_out_on=date(2027, 6, 1))
    assert kinds(planted) == [JobKind.HARVEST]
    # 55 days from transplanting at the soonest.
    assert job(planted, JobKind.HARVEST).due == date(2027, 6, 1) + timedelta(days=55)


def test_hardening_begun_late_puts_off_planting_out() -> None:
    sown = in_cells("tomato", date(2027, 3, 10), emerged_on=date(2027, 3, 20))
    begun = replace(sown, hardening_since=date(2027, 5, 10))
    assert JobKind.HARDEN_OFF not in kinds(begun)
    assert job(begun, JobKind.PLANT_OUT).due == date(2027, 5, 17)


def test_counting_is_overdue_after_the_interval_only() -> None:
    sown = in_cells("carrot", date(2027, 3, 1))
    count = job(sown, JobKind.COUNT)
    assert count.days_late(count.good_until) == 0
    assert count.days_late(count.good_until + timedelta(days=3)) == 3
    assert "overdue" in count.if_it_waits


def test_what_has_not_happened_by_today_moves_the_rest_too() -> None:
    row = in_the_bed("radish", date(2027, 4, 20))
    count, harvest = job(row, JobKind.COUNT), job(row, JobKind.HARVEST)
    waited = jobs(row, MILD, count.good_until)
    assert next(j for j in waited if j.kind is JobKind.COUNT) == count
    later = next(j for j in waited if j.kind is JobKind.HARVEST)
    assert later.due - harvest.due == count.good_until - count.due
    # A row that nobody counts does not put off its harvest for ever.
    assert jobs(row, MILD, date(2027, 8, 1)) == waited
    pot = in_cells("celery", date(2027, 3, 5), emerged_on=date(2027, 3, 14))
    out = job(pot, JobKind.PLANT_OUT)
    put_off = jobs(pot, MILD, out.due + timedelta(days=20))
    assert next(j for j in put_off if j.kind is JobKind.PLANT_OUT).due == out.due
    assert next(j for j in put_off if j.kind is JobKind.HARVEST).due == job(
        pot, JobKind.HARVEST
    ).due + timedelta(days=20)


def test_clusters_and_rows_are_thinned_single_cells_are_not() -> None:
    assert JobKind.THIN not in kinds(in_cells("kale", date(2027, 3, 1)))
    assert JobKind.THIN in kinds(in_cells("kale", date(2027, 3, 1), per_cell=3))
    assert JobKind.THIN in kinds(in_cells("beetroot", date(2027, 3, 20), clusters=True))
    assert JobKind.THIN not in kinds(
        in_cells("onion_bulb", date(2027, 2, 1), per_cell=6, plants_per_cell=6)
    )
    assert JobKind.THIN in kinds(in_the_bed("carrot", date(2027, 4, 1)))


def test_sowing_again_stops_when_it_would_not_mature() -> None:
    assert JobKind.SOW_AGAIN in kinds(in_the_bed("radish", date(2027, 6, 1)))
    assert JobKind.SOW_AGAIN not in kinds(in_the_bed("bean_french_dwarf", date(2027, 8, 20)))
    assert JobKind.SOW_AGAIN not in kinds(in_the_bed("parsnip", date(2027, 4, 1)))


def test_resowing_while_there_is_time() -> None:
    sown = in_cells("tomato", date(2027, 3, 10))
    found = resow_job(sown, MILD, date(2027, 4, 1))
    assert found is not None
    assert "indoors" in found.why
    assert "too late" in found.if_it_waits
    assert resow_job(sown, MILD, date(2027, 9, 1)) is None


@settings(max_examples=200)
@given(
    st.sampled_from(CROPS),
    st.dates(date(2020, 1, 1), date(2040, 12, 31)),
    st.sampled_from([MILD, GardenClimate(None, None, 5.0)]),
    st.one_of(st.none(), st.floats(2.0, 15.0)),
    st.one_of(st.none(), st.integers(1, 80)),
)
def test_any_sowing_has_jobs_in_order(
    crop: str, day: date, climate: GardenClimate, depth: float | None, up: int | None
) -> None:
    figures = sowing_figures(crop)
    sown = Sown(
        figures,
        emergence_model(crop),
        Method.INDOORS if depth else Method.OUTDOORS,
        day,
        SILL if depth else BED,
        depth,
        outside=BED,
        emerged_on=None if up is None else day + timedelta(days=up),
    )
    found = jobs(sown, climate)
    assert [each.due for each in found] == sorted(each.due for each in found)
    for each in found:
        assert day <= each.due <= each.good_until
        assert each.why
    if depth and not climate.frost_free and figures.hardiness.frost_kills:
        out = job(sown, JobKind.PLANT_OUT, climate).due
        assert any(s.last_frost <= out <= s.first_frost for s in climate.seasons_around(out)) or (
            BED.on(out) < 12
        )


def test_the_least_soil_is_a_matter_of_hardiness() -> None:
    aubergine = in_cells("aubergine", date(2027, 3, 10), outside=BED)
    assert sowing_figures("aubergine").hardiness is Hardiness.VERY_TENDER
    out = setting_out(aubergine, MILD, date(2027, 3, 25))
    assert BED.on(out.day) >= 15
