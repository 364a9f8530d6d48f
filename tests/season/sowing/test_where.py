"""Where a sowing comes up: the table through the almanac, courses of temperature, advice."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox import almanac
from seedbox.almanac import Outcome
from seedbox.errors import BadDataError
from seedbox.science.light import Light
from seedbox.season.sowing.emergence_model import Ground, emergence_model
from seedbox.season.sowing.place import Place, Warmth, between, constant
from seedbox.season.sowing.spans import Method
from seedbox.season.sowing.where import Verdict, emerging, rank_places, wait_until, why_not_here

MARCH = date(2027, 3, 10)
SILL = Place("windowsill", Method.INDOORS, constant(18.0), ppfd=60.0, light_hours=10.0)
PROPAGATOR = Place("propagator", Method.INDOORS, constant(24.0))
# Invented, like a bed in a mild maritime garden.
BED = Place("bed", Method.OUTDOORS, Warmth((4, 4, 6, 9, 12, 15, 17, 17, 14, 11, 7, 5)))
TABLED = [crop.id for crop in almanac.crops() if almanac.emergence(crop.id)]
CROPS = [crop.id for crop in almanac.crops()]


@pytest.mark.parametrize("crop", TABLED)
def test_constant_places_answer_as_the_table_of_1954(crop: str) -> None:
    # Harrington & Minges 1954: every measured cell of the crop, to the whole day.
    model = emergence_model(crop)
    for cell in almanac.emergence(crop):
        found = emerging(model, constant(cell.temperature_c), MARCH)
        if cell.outcome is Outcome.MEASURED and cell.days is not None:
            assert found.days is not None
            assert found.days.mid == pytest.approx(cell.days, abs=1e-6)
            assert found.ground is Ground.TRIALS
        else:
            assert found.days is None
            assert not found.verdict.sows


@pytest.mark.parametrize("crop", TABLED)
def test_no_days_across_an_untested_cell(crop: str) -> None:
    cells = almanac.emergence(crop)
    measured = [each.temperature_c for each in cells if each.outcome is Outcome.MEASURED]
    model = emergence_model(crop)
    for tenth in range(-50, 451):
        warmth = tenth / 10.0
        reading, ground = model.reading(warmth)
        if measured[0] <= warmth <= measured[-1]:
            continue
        # Outside the trials a heat sum may speak, never beyond the first cell without a trial.
        if reading.rate is not None:
            assert ground is Ground.HEAT_SUM
            beside = max(c.temperature_c for c in cells if c.temperature_c < measured[0])
            assert beside < warmth < measured[0]


def test_what_stands_behind_the_days() -> None:
    assert emergence_model("carrot").ground is Ground.TRIALS
    assert emergence_model("leek").ground is Ground.HEAT_SUM
    assert emergence_model("courgette").ground is Ground.PAGE
    assert emergence_model("chard").lender == "beetroot"
    # Bierhuizen & Wagenvoort 1974 (from memory): leek, base 1.7 C, 222 C days.
    leek = emerging(emergence_model("leek"), constant(11.7), MARCH)
    assert leek.days is not None
    assert leek.days.mid == pytest.approx(22.2)
    page = emerging(emergence_model("courgette"), SILL.warmth, MARCH)
    assert "its temperature is not stated" in page.sentence


def test_a_person_s_own_days_come_first() -> None:
    found = emerging(emergence_model("carrot", {"emerge_days": "9-12"}), SILL.warmth, MARCH)
    assert found.days is not None
    assert (found.days.low, found.days.high) == (9, 12)
    assert "your own figure" in found.sentence


def test_too_cold_says_until_when_and_where_instead() -> None:
    told = why_not_here(emergence_model("tomato"), BED, [SILL, PROPAGATOR], MARCH)
    assert told.startswith("bed is too cold")
    assert "wait until about" in told
    assert "use the propagator: 6 days" in told
    assert why_not_here(emergence_model("tomato"), SILL, [BED], MARCH) == ""


def test_waiting_ends_when_the_place_is_warm_enough() -> None:
    model = emergence_model("carrot")
    day = wait_until(model, BED.warmth, MARCH)
    assert day is not None
    assert MARCH < day < date(2027, 5, 1)
    assert emerging(model, BED.warmth, day).verdict.sows
    assert wait_until(emergence_model("aubergine"), constant(8.0), MARCH) is None


def test_too_warm_names_the_seedlings_lost() -> None:
    # Harrington & Minges 1954: lettuce 99 % at 25 C, 12 % at 30 C; spinach 82 % at 15 C, 28 % at
    # 25 C, 96 % at its best.
    lettuce = emerging(emergence_model("lettuce"), constant(30.0), MARCH)
    assert lettuce.verdict is Verdict.TOO_WARM
    assert "88 % fewer seedlings" in lettuce.sentence
    assert emerging(emergence_model("spinach"), constant(25.0), MARCH).verdict is Verdict.TOO_WARM
    places = rank_places(emergence_model("spinach"), [PROPAGATOR, SILL, BED], MARCH)
    assert places[0].place is BED
    assert places[-1].place is PROPAGATOR


def test_heat_that_slows_is_not_called_cold() -> None:
    # Harrington & Minges 1954: asparagus takes 28 days at 40 C, 10 at 25 C, and gives no normal
    # seedling there.
    asparagus = emerging(emergence_model("asparagus"), constant(40.0), MARCH)
    assert asparagus.verdict is Verdict.TOO_WARM


def test_a_bed_colder_than_any_trial_is_too_cold_without_days() -> None:
    # Same table: cabbage was not tested at 5 C.
    winter = emerging(emergence_model("cabbage"), BED.warmth, date(2027, 1, 5))
    assert winter.verdict is Verdict.TOO_COLD
    assert winter.days is None


def test_best_place_first() -> None:
    ranked = rank_places(emergence_model("tomato"), [BED, SILL, PROPAGATOR], MARCH)
    assert [each.place.name for each in ranked] == ["propagator", "windowsill", "bed"]


def test_a_bed_that_warms_is_quicker_than_its_first_day_says() -> None:
    model = emergence_model("parsnip")
    warming = emerging(model, BED.warmth, date(2027, 4, 1))
    held = emerging(model, constant(BED.warmth.on(date(2027, 4, 1))), date(2027, 4, 1))
    assert warming.days is not None
    assert held.days is not None
    assert warming.days.mid < held.days.mid


@given(st.sampled_from(CROPS), st.floats(-5, 45), st.dates(date(2020, 1, 1), date(2040, 1, 1)))
def test_any_crop_in_any_place(crop: str, temperature: float, day: date) -> None:
    found = emerging(emergence_model(crop), constant(temperature), day)
    assert found.sentence
    if found.verdict.sows:
        assert found.days is not None
    if found.days is not None:
        assert 0 < found.days.low <= found.days.mid <= found.days.high
        low, mid, high = found.dates(day) or (day, day, day)
        assert day <= low <= mid <= high


def test_months_run_into_one_another() -> None:
    warmth = BED.warmth
    assert warmth.on(date(2027, 4, 15)) == 9
    assert warmth.on(date(2027, 12, 31)) == pytest.approx(4.5, abs=0.05)
    assert warmth.on(date(2028, 2, 29)) == pytest.approx(5.0, abs=0.1)
    south = between(5, 25, southern=True)
    assert south.on(date(2027, 1, 15)) == 25
    assert between(5, 25).on(date(2027, 1, 15)) == 5


def test_light_of_a_place() -> None:
    found = SILL.light()
    assert found is not None
    assert found[0] == pytest.approx(2.16)
    assert found[1] is Light.TOO_LITTLE
    assert BED.light() is None


@pytest.mark.parametrize("months", [(1.0,) * 11, (99.0,) + (1.0,) * 11])
def test_impossible_courses_are_refused(months: tuple[float, ...]) -> None:
    with pytest.raises(BadDataError):
        Warmth(months)
