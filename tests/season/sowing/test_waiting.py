"""Until when to wait for a place to warm up or cool down; never past the end of a crop's weeks."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from seedbox.season.sowing.emergence_model import emergence_model
from seedbox.season.sowing.place import between, constant
from seedbox.season.sowing.waiting import good_from
from seedbox.season.sowing.where import emerging

BED = between(4.0, 18.0)
DAY = date(2027, 2, 1)


@pytest.mark.parametrize("crop", ["carrot", "tomato", "bean_french_dwarf", "radish"])
def test_the_day_is_good_and_a_week_before_is_not(crop: str) -> None:
    model = emergence_model(crop)
    day = good_from(model, BED, DAY, None)
    assert day is not None
    assert emerging(model, BED, day).verdict.sows
    assert not emerging(model, BED, day - timedelta(days=7)).verdict.sows


def test_warm_crops_wait_longer() -> None:
    days = [good_from(emergence_model(crop), BED, DAY, None) for crop in ("radish", "tomato")]
    assert None not in days
    assert days == sorted(days)  # type: ignore[type-var]


def test_no_day_is_named_past_the_end_of_the_weeks_or_where_nothing_changes() -> None:
    model = emergence_model("tomato")
    day = good_from(model, BED, DAY, None)
    assert day is not None
    assert good_from(model, BED, DAY, day - timedelta(days=14)) is None
    assert good_from(model, constant(5.0), DAY, None) is None
    assert good_from(model, between(0.0, 6.0), DAY, None) is None
