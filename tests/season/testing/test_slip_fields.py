"""The words on a slip: one for each replicate, with blanks for the counts."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox.printing.content import FIELDS
from seedbox.season.crops import CropBook
from seedbox.season.testing.schedule import all_count_days
from seedbox.season.testing.slip_fields import slip_fields
from seedbox.tin.preferences import Settings
from seedbox.tin.records import GerminationTest, Packet, Treatment

_START = date(2027, 2, 1)
BOOK = CropBook(Settings())
PACKET = Packet(1, "P4K7QMX2", "leek", "Flagstaff Lane", treatment=Treatment.DRESSED)
Laid = Callable[..., GerminationTest]


def test_a_slip_says_what_when_and_how(laid: Laid) -> None:
    test = laid(20, temperature_c=30.0, night_c=20.0, pretreatment="soak 24 h")
    (slip,) = slip_fields(test, PACKET, BOOK)
    assert set(slip) <= set(FIELDS)
    assert slip == {
        "code": "T73C 42C3", "crop": "leek", "variety": "Flagstaff Lane",
        "botanical": slip["botanical"], "packet": "packet P4K7 QMX2",
        "laid_on": "laid 2027-02-01", "seeds": "20 seeds",
        "first_count": "first count 7 Feb", "final_count": "last count 15 Feb",
        "temperature": "30 °C by day and 20 °C by night", "pretreatment": "soak 24 h",
        "caution": "TREATED: do not eat", "note": "", "line": "",
        "tally": "7-Feb:_____ 9-Feb:_____ 11-Feb:_____ 13-Feb:_____ 15-Feb:_____",
    }  # fmt: skip


def test_days_to_write_on_follow_the_setting(laid: Laid) -> None:
    (slip,) = slip_fields(laid(20), PACKET, BOOK, Settings(dates="month first"))
    assert slip["first_count"] == "first count Feb 7"
    assert slip["tally"].startswith("Feb-7:_____ Feb-9:_____")


@pytest.mark.parametrize(("seeds", "parts"), [(100, 4), (10, 3), (3, 3)])
def test_the_replicates_share_the_seeds(laid: Laid, seeds: int, parts: int) -> None:
    slips = slip_fields(laid(seeds, parts), PACKET, BOOK)
    assert len(slips) == parts
    assert sum(int(slip["seeds"].split()[0]) for slip in slips) == seeds
    for number, slip in enumerate(slips, 1):
        assert slip["seeds"].endswith(f"replicate {number} of {parts}")
    assert slip_fields(laid(1), PACKET, BOOK)[0]["seeds"] == "1 seed"


@given(st.integers(1, 30), st.integers(0, 90))
def test_there_is_a_blank_for_the_first_and_the_last_count(first: int, more: int) -> None:
    test = GerminationTest(
        1, "T73C42C3", 1, _START, 20, 0, started_on=_START, first_count_day=first,
        final_count_day=first + more,
    )  # fmt: skip
    (slip,) = slip_fields(test, PACKET, BOOK)
    blanks = slip["tally"].split()
    assert len(blanks) == min(len(all_count_days(first, first + more)), 8)
    for blank, field in ((blanks[0], "first_count"), (blanks[-1], "final_count")):
        day, month = blank.removesuffix(":_____").split("-")
        assert f" {day} {month}" in slip[field]
