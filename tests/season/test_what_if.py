"""Forecasts without a packet, and storage periods as people type them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox.errors import UsageError
from seedbox.season.what_if import StoragePlan, parse_plan, what_if

ROOM = StoragePlan(250, 26.7, 26.7, 0.44)
JAR = StoragePlan(5 * 365, 4, 4, sealed=True)


def test_observed_bean_lies_in_its_interval() -> None:
    # Justice & Bass 1978, USDA Agriculture Handbook 506, Table 13: bean of 97 %, 250 days in open
    # storage at 26.7 C and 44 % RH: 92 %.
    found = what_if("bean_french_dwarf", [ROOM], germination=0.97, tested=200)
    assert found.low < 0.92 < found.high
    assert found.mean == pytest.approx(0.92, abs=0.12)
    assert found.supported
    assert found.kept_as_it_is is None


def test_moving_to_a_sealed_jar_is_compared_with_staying() -> None:
    found = what_if("bean_french_dwarf", [ROOM, JAR], germination=0.97, tested=200)
    assert [stage.days for stage in found.stages] == [250, 250 + 5 * 365]
    assert found.stages[-1].mean == found.mean
    assert found.kept_as_it_is.mean < found.mean
    assert found.kept_as_it_is.days == found.stages[-1].days
    assert "sealed at" in found.stages[-1].words


def test_drier_sealed_seed_lives_longer() -> None:
    plans = [StoragePlan(3650, 20, 20, moisture=moisture) for moisture in (5.0, 7.0, 9.0, 11.0)]
    means = [what_if("onion_bulb", [plan], germination=0.9).mean for plan in plans]
    assert means == sorted(means, reverse=True)


def test_a_damp_store_is_marked_unsupported() -> None:
    found = what_if("onion_bulb", [StoragePlan(250, 26.7, 26.7, 0.78)], germination=0.8)
    assert not found.supported
    assert "damper" in found.warnings[0]


def test_what_it_rests_on_is_said() -> None:
    assert "counted as a test of 200" in what_if("pea", [ROOM], germination=0.8).rests_on[0]
    assert "of 40 seeds" in what_if("pea", [ROOM], germination=0.8, tested=40).rests_on[0]
    assert "No test given" in what_if("pea", [ROOM]).rests_on[0]


@pytest.mark.parametrize(
    ("text", "plan"),
    [
        ("250 days 26.7 C 44 %RH", StoragePlan(250, 26.7, 26.7, 0.44)),
        ("250d 26.7C 44% humidity", StoragePlan(250, 26.7, 26.7, 0.44)),
        ("sealed, 4 °C, 10 days", StoragePlan(10, 4, 4, sealed=True)),
        ("-18C 6 %MC 1 year", StoragePlan(365.25, -18, -18, moisture=6.0)),
        ("2 years 5 to 25 C 50 rh", StoragePlan(730.5, 5, 25, 0.5)),
        ("24 months 5..25C 7% moisture", StoragePlan(730.5, 5, 25, moisture=7.0)),
    ],
)
def test_periods_as_typed(text: str, plan: StoragePlan) -> None:
    assert parse_plan(text) == plan


@pytest.mark.parametrize("text", ["", "5 years", "4 C", "5 years 4 C in a tin", "five years 4 C"])
def test_periods_not_understood_say_so(text: str) -> None:
    with pytest.raises(UsageError) as caught:
        parse_plan(text)
    assert "for example" in caught.value.hint


@given(st.text(max_size=60))
def test_any_text_is_a_plan_or_a_sentence(text: str) -> None:
    try:
        parse_plan(text)
    except UsageError as error:
        assert error.sentence.endswith(".")


@pytest.mark.parametrize(
    "plan",
    [
        StoragePlan(0, 20, 20, 0.5),
        StoragePlan(-5, 20, 20, 0.5),
        StoragePlan(1e9, 20, 20, 0.5),
        StoragePlan(10, 500, 500, 0.5),
        StoragePlan(10, 20, 20, 1.5),
        StoragePlan(10, 20, 20, moisture=80.0),
        StoragePlan(10, 20, 20, 0.5, sealed=True),
        StoragePlan(10, 20, 20),
        StoragePlan(float("nan"), 20, 20, 0.5),
    ],
)
def test_impossible_periods_are_refused(plan: StoragePlan) -> None:
    with pytest.raises(UsageError):
        what_if("pea", [plan], germination=0.9)


@pytest.mark.parametrize(("germination", "tested"), [(1.2, 100), (-0.1, 100), (0.9, 0), (97.0, 10)])
def test_impossible_tests_are_refused(germination: float, tested: int) -> None:
    with pytest.raises(UsageError):
        what_if("pea", [ROOM], germination=germination, tested=tested)


def test_no_period_is_refused() -> None:
    with pytest.raises(UsageError, match="how long"):
        what_if("pea", [])
