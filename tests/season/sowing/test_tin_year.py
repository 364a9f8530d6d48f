"""The tin's year as weeks, in gardens with and without frost, north and south."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

import pytest

from seedbox.season.sowing.desk import Desk
from seedbox.season.sowing.tin_year import LETTERS, tin_year, week_starts
from seedbox.season.sowing.year import Activity
from seedbox.tin.file import Tin
from seedbox.tin.places import edit_place

Planted = Callable[..., Tin]
DAY = date(2027, 2, 20)


@pytest.mark.parametrize(("year", "weeks"), [(2026, 53), (2027, 52), (2028, 52), (2032, 53)])
def test_a_year_has_52_weeks_or_53(year: int, weeks: int) -> None:
    # ISO 8601: a year has 53 weeks when it begins or, leap, ends on a Thursday.
    starts = week_starts(year)
    assert len(starts) == weeks
    assert {start.isoweekday() for start in starts} == {1}
    assert starts[-1] - starts[0] == timedelta(weeks=weeks - 1)


def test_each_crop_of_the_tin_has_a_row_of_weeks(demo: Tin) -> None:
    found = tin_year(Desk(demo, DAY), 2027)
    assert len(found.crops) > 50
    names = [row.crop.casefold() for row in found.crops]
    assert names == sorted(names)
    for row in found.crops:
        assert row.weeks.keys() == set(Activity)
        for activity, weeks in row.weeks.items():
            assert len(weeks) == len(found.starts)
            assert set(weeks) <= {LETTERS[activity], LETTERS[activity].lower(), "."}


def test_letters_stand_where_the_stretches_are(demo: Tin) -> None:
    found = tin_year(Desk(demo, DAY), 2027, crop_id="tomato")
    (tomato,) = found.crops
    for start, letter in zip(found.starts, tomato.weeks[Activity.INDOORS], strict=True):
        end = start + timedelta(days=6)
        inside = [
            each
            for each in tomato.stretches
            if each.activity is Activity.INDOORS and each.first <= end and each.last >= start
        ]
        assert (letter != ".") == bool(inside)
        assert (letter == "I") == any(not each.later for each in inside)
    assert set(tomato.weeks[Activity.OUTDOORS]) == {"."}


def test_the_year_is_turned_in_the_south(planted: Planted) -> None:
    north = tin_year(Desk(planted(), DAY), 2027, crop_id="cabbage").crops[0]
    south = tin_year(Desk(planted("10-25", "04-25", "-52"), DAY), 2027, crop_id="cabbage").crops[0]
    for activity in (Activity.INDOORS, Activity.OUTDOORS, Activity.SET_OUT):
        up, down = north.weeks[activity], south.weeks[activity]
        turned = down[26:] + down[:26]
        assert sum(a != b for a, b in zip(up, turned, strict=True)) <= 4, activity


def test_without_frost_warmth_draws_the_weeks(planted: Planted) -> None:
    tin = planted("none", "none", "20", crops=("tomato", "lettuce"))
    edit_place(tin, "Bed", coolest_c=15.0, warmest_c=30.0)
    found = {row.crop_id: row for row in tin_year(Desk(tin, DAY), 2027).crops}
    assert set(found["tomato"].weeks[Activity.INDOORS]) == {"I"}  # 18 C all year
    lettuce = found["lettuce"].weeks[Activity.OUTDOORS]
    assert set(lettuce) == {"O", "."}
    assert lettuce[26] == "."  # it does not come up in 30 C
    assert lettuce[0] == "O"
