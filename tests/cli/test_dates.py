"""Days as people write them."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox.cli.dates import read_day, read_last_day
from seedbox.errors import UsageError

TODAY = date(2027, 3, 1)
DAYS = st.dates(min_value=date(1900, 1, 1), max_value=date(2199, 12, 31))


@given(DAYS)
def test_every_day_in_iso_form_is_read_back(day: date) -> None:
    assert read_day(day.isoformat()) == day


@given(DAYS, st.sampled_from(["%d %B %Y", "%d %b %Y", "%B %d, %Y", "%d.%m.%Y"]))
def test_every_day_with_a_named_month_or_dots_is_read_back(day: date, form: str) -> None:
    assert read_day(day.strftime(form)) == day


@given(DAYS)
def test_slashes_are_read_or_asked_back_but_never_swapped(day: date) -> None:
    text = day.strftime("%d/%m/%Y")
    if day.day > 12 or day.day == day.month:
        assert read_day(text) == day
    else:
        with pytest.raises(UsageError) as refused:
            read_day(text)
        assert day.isoformat() in refused.value.hint


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("today", TODAY),
        ("Yesterday", date(2027, 2, 28)),
        ("3 days ago", date(2027, 2, 26)),
        ("2 weeks ago", date(2027, 2, 15)),
        ("1st sept 2026", date(2026, 9, 1)),
        ("12/25/2026", date(2026, 12, 25)),
    ],
)
def test_words_for_days(text: str, day: date) -> None:
    assert read_day(text, TODAY) == day


@pytest.mark.parametrize(
    "text", ["", "soon", "2027-02-30", "31 June 2027", "2027-13-01", "0204", "1 ma 2027", "5/4/27"]
)
def test_what_is_no_day_is_refused_with_a_sentence(text: str) -> None:
    with pytest.raises(UsageError) as refused:
        read_day(text)
    assert refused.value.sentence.endswith(".")


def test_absurd_distances_do_not_overflow() -> None:
    with pytest.raises(UsageError):
        read_day("99999999999 weeks ago", date(1950, 1, 1))


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("2027", date(2027, 12, 31)),
        ("2028-02", date(2028, 2, 29)),
        ("02/2027", date(2027, 2, 28)),
        ("June 2027", date(2027, 6, 30)),
        ("2027-06-05", date(2027, 6, 5)),
    ],
)
def test_a_sow_by_date_may_leave_out_the_day(text: str, day: date) -> None:
    assert read_last_day(text) == day


def test_a_month_that_does_not_exist_is_refused() -> None:
    with pytest.raises(UsageError, match="no month 13"):
        read_last_day("13/2027")
