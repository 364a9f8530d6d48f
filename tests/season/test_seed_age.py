"""When ageing starts. What a year on a packet means is common practice, no source."""

from __future__ import annotations

from datetime import date

import pytest

from seedbox.season.seed_age import time_zero
from seedbox.tin.records import Dossier, GerminationTest, Packet, StoragePeriod

TODAY = date(2026, 3, 1)


def _zero(hemisphere: str = "north", **fields: object) -> date:
    packet = Packet(1, "P4K7QMX2", "tomato", **fields)  # type: ignore[arg-type]
    return time_zero(Dossier(packet, 10), hemisphere, TODAY).day


@pytest.mark.parametrize(
    ("fields", "expected"),
    [
        ({"harvest_year": 2022}, date(2022, 10, 1)),
        ({"packed_year": 2022}, date(2022, 1, 1)),
        ({"bought_year": 2022}, date(2022, 1, 1)),
        ({"sow_by": date(2024, 6, 30)}, date(2022, 7, 1)),
        ({"received_on": date(2022, 5, 5)}, date(2022, 5, 5)),
        ({"harvest_year": 2021, "packed_year": 2022, "bought_year": 2023}, date(2021, 10, 1)),
        ({"packed_year": 2022, "sow_by": date(2030, 1, 1)}, date(2022, 1, 1)),
        ({}, TODAY),
    ],
)
def test_the_best_known_date_counts(fields: dict[str, object], expected: date) -> None:
    assert _zero(**fields) == expected


def test_the_south_harvests_half_a_year_earlier_by_the_calendar() -> None:
    assert _zero("south", harvest_year=2022) == date(2022, 4, 1)


def test_a_date_still_to_come_counts_as_new_today() -> None:
    assert _zero(harvest_year=2026) == TODAY


def test_an_unknown_age_is_said() -> None:
    packet = Packet(1, "P4K7QMX2", "tomato")
    storage = (StoragePeriod(1, date(2024, 2, 1), 1),)
    zero = time_zero(Dossier(packet, 10, storage), "north", TODAY)
    assert zero.day == date(2024, 2, 1)
    assert not zero.known
    assert "unknown" in zero.reason


def test_ageing_starts_no_later_than_the_first_test() -> None:
    packet = Packet(1, "P4K7QMX2", "tomato", harvest_year=2025)
    test = GerminationTest(1, "", 1, date(2025, 9, 1), 10, 9)
    zero = time_zero(Dossier(packet, 10, (), (test,)), "north", TODAY)
    assert zero.day == date(2025, 9, 1)
