"""Emergence by the table of 1954: against its own cells, left out one at a time, and refusals."""

from __future__ import annotations

import csv
import math
from collections.abc import Mapping
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox.science.emergence import (
    Cell,
    Reach,
    Trial,
    best_temperature,
    days_to_progress,
    emergence_interval,
    read_table,
    share_kept,
)
from seedbox.science.errors import OutOfRangeError
from seedbox.science.heat_sum import HeatSum, fit_heat_sum, heat_sum_rate
from tests.bench.emergence import left_out, measured_table

TABLE: Mapping[str, tuple[Cell, ...]] = measured_table()
CELLS = [(crop, cell) for crop, cells in TABLE.items() for cell in cells]


@pytest.mark.parametrize(("crop", "cell"), CELLS)
def test_the_table_is_read_as_printed(crop: str, cell: Cell) -> None:
    # Harrington & Minges 1954, Vegetable Seed Germination, California Agricultural Extension.
    found = read_table(TABLE[crop], cell.temperature_c)
    if cell.trial is Trial.MEASURED:
        assert found.rate == pytest.approx(1.0 / (cell.days or 0.0))
        assert found.normal == cell.normal
    else:
        assert found.rate is None
        assert found.reach is not Reach.KNOWN


@pytest.mark.parametrize("crop", TABLE)
def test_no_answer_beside_an_untested_cell_or_beyond_the_table(crop: str) -> None:
    cells = TABLE[crop]
    for cold, warm in pairwise(cells):
        middle = 0.5 * (cold.temperature_c + warm.temperature_c)
        both = cold.trial is Trial.MEASURED and warm.trial is Trial.MEASURED
        assert (read_table(cells, middle).rate is not None) is both
    for beyond in (-5.0, 45.0):
        assert read_table(cells, beyond).rate is None


def test_too_cold_too_warm_and_not_tested_are_told_apart() -> None:
    # From the same table: tomato none at 5 C and at 40 C; cabbage not tested at 5 C and at 35 C;
    # watermelon none at 5 C, not tested at 10 and 15 C.
    assert read_table(TABLE["tomato"], 7.0).reach is Reach.TOO_COLD
    assert read_table(TABLE["tomato"], 38.0).reach is Reach.TOO_WARM
    assert read_table(TABLE["tomato"], 55.0).reach is Reach.TOO_WARM
    assert read_table(TABLE["cabbage"], 7.0).reach is Reach.UNTESTED
    assert read_table(TABLE["cabbage"], 33.0).reach is Reach.UNTESTED
    assert read_table(TABLE["watermelon"], 12.0).reach is Reach.UNTESTED
    assert read_table(TABLE["watermelon"], 7.0).reach is Reach.UNTESTED
    assert read_table(TABLE["watermelon"], 4.0).reach is Reach.TOO_COLD
    assert read_table(TABLE["lettuce"], 31.0).reach is Reach.TOO_WARM
    assert read_table(TABLE["lettuce"], -1.0).reach is Reach.UNTESTED


def test_leaving_one_temperature_out() -> None:
    # Every measured cell with measured neighbours, from those neighbours alone, 10 C apart. The
    # bound is what was measured (bench: rms 0.162, worst 0.455 in ln days) with a little room.
    errors = [each.ln_error for each in left_out(TABLE) if each.predicted is not None]
    assert len(errors) == 87
    assert math.sqrt(sum(error * error for error in errors) / len(errors)) < 0.18
    assert max(map(abs, errors)) < 0.5


def test_end_cells_are_never_reached_from_inside() -> None:
    ends = [each for each in left_out(TABLE) if each.at_end]
    assert len(ends) == 2 * len(TABLE)
    assert all(each.predicted is None for each in ends)


def test_warmth_that_kills_is_seen_in_the_share() -> None:
    # Same table: lettuce falls from 99 % at 25 C to 12 % at 30 C, spinach from 82 % at 15 C to
    # 28 % at 25 C.
    lettuce, spinach = TABLE["lettuce"], TABLE["spinach"]
    assert share_kept(lettuce, read_table(lettuce, 30.0).normal) == pytest.approx(0.12, abs=0.01)
    assert share_kept(spinach, read_table(spinach, 25.0).normal) == pytest.approx(28 / 96)
    assert best_temperature(lettuce).temperature_c == 25.0
    assert best_temperature(spinach).temperature_c == 10.0


def test_derived_heat_sums_are_fits_to_the_rising_limb() -> None:
    # The fitted figures that the almanac carries, for the limbs that their notes name.
    for crop, top, base, total in (("tomato", 25, 7.5, 103), ("cabbage", 30, 2.6, 110)):
        limb = [(c.temperature_c, c.days) for c in TABLE[crop] if c.days and c.temperature_c <= top]
        found = fit_heat_sum(limb)
        assert found.base_c == pytest.approx(base, abs=0.06)
        assert found.degree_days == pytest.approx(total, abs=0.6)


def test_heat_sums_of_1974() -> None:
    # Bierhuizen & Wagenvoort 1974 (from memory): leek base 1.7 C, 222 C days.
    leek = HeatSum(1.7, 222.0)
    assert 1 / heat_sum_rate(11.7, leek) == pytest.approx(22.2)
    assert heat_sum_rate(1.0, leek) == 0.0
    with pytest.raises(OutOfRangeError):
        heat_sum_rate(10.0, HeatSum(1.7, 0.0))


@pytest.mark.parametrize("points", [[], [(10.0, 5.0)], [(10.0, 5.0), (20.0, 9.0)]])
def test_no_heat_sum_from_too_little_or_from_a_falling_rate(
    points: list[tuple[float, float]],
) -> None:
    with pytest.raises(OutOfRangeError):
        fit_heat_sum(points)


@given(st.sampled_from(sorted(TABLE)), st.floats(0, 40, allow_nan=False), st.floats(0.05, 0.6))
def test_a_constant_course_is_the_table_itself(crop: str, warmth: float, sd: float) -> None:
    reading = read_table(TABLE[crop], warmth)

    def rate(temperature_c: float) -> float | None:
        return read_table(TABLE[crop], temperature_c).rate

    days = emergence_interval(rate, [warmth] * 1000, sd)
    if reading.rate is None:
        assert days is None
    else:
        assert days is not None
        assert days.mid == pytest.approx(1.0 / reading.rate, rel=1e-6)
        assert days.low <= days.mid <= days.high
        # At a constant temperature the interval is the spread alone.
        assert days.high / days.low == pytest.approx(math.exp(2 * 1.645 * sd), rel=1e-6)


@given(st.lists(st.floats(0, 30), min_size=1, max_size=60), st.floats(0.1, 3))
def test_warmer_days_never_delay_where_the_rate_rises(course: list[float], warmer: float) -> None:
    def rate(temperature_c: float) -> float:
        return max(temperature_c - 2.0, 0.0) / 100.0

    sooner = days_to_progress(rate, [t + warmer for t in course])
    later = days_to_progress(rate, course)
    if later is not None:
        assert sooner is not None
        assert sooner <= later + 1e-9


def test_cells_out_of_order_or_without_days_are_refused() -> None:
    with pytest.raises(OutOfRangeError, match="next temperature"):
        read_table([Cell(10, Trial.MEASURED, 5), Cell(5, Trial.NONE)], 7.0)
    with pytest.raises(OutOfRangeError, match="days"):
        read_table([Cell(10, Trial.MEASURED)], 7.0)
    with pytest.raises(OutOfRangeError, match="measured"):
        best_temperature([Cell(10, Trial.NONE)])


def test_the_bench_reads_the_same_table_as_the_almanac() -> None:
    path = Path(__file__).parents[2] / "seedbox" / "almanac" / "data" / "emergence.csv"
    with path.open(newline="", encoding="utf-8") as file:
        measured = [row for row in csv.DictReader(file) if row["outcome"] == "measured"]
    assert len(measured) == sum(
        c.trial is Trial.MEASURED for cells in TABLE.values() for c in cells
    )
