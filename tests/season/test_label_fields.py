"""The words of labels: dates as the settings have them, sharing, and a label for each cell."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from types import SimpleNamespace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox.printing.content import FIELDS
from seedbox.season.crops import CropBook
from seedbox.season.label_fields import label_fields
from seedbox.season.listing import Listing
from seedbox.season.sowing.in_progress import Growing
from seedbox.season.sowing.tray_fields import fields_each, tray_fields
from seedbox.season.written_dates import written
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import Sowing
from seedbox.tin.preferences import Settings
from seedbox.tin.records import Packet

PACKET = Packet(1, "P4K7QMX2", "leek", "Flagstaff Lane", harvest_year=2025)
ROW = Sowing(1, "S00000AB", 1, date(2027, 2, 5), 1, 80, row_m=3.0)
SHED: Any = SimpleNamespace(name="cold frame")  # all that a label asks of a place


def growing(sowing: Sowing) -> Growing:
    return Growing(sowing, PACKET, "leek", (), SHED, SHED)


@pytest.mark.parametrize(
    ("order", "day", "month"),
    [
        ("iso", "2027-02-05", "2027-02"),  # ISO 8601
        ("day first", "5 Feb 2027", "Feb 2027"),
        ("month first", "Feb 5 2027", "Feb 2027"),
    ],
)
def test_dates_stand_in_the_order_of_the_settings(
    stocked: Tin, order: str, day: str, month: str
) -> None:
    listing, today = Listing(stocked, date(2027, 2, 5)), date(2027, 2, 5)
    settings = replace(listing.settings, dates=order)
    fields = label_fields(listing.lines[0], listing.book, today, settings)
    assert (fields["printed_on"], fields["month"]) == (day, month)
    assert tray_fields(growing(ROW), listing.book, settings)["sown_on"] == f"sown {day}"


def test_what_a_law_on_sharing_asks_for_is_there(stocked: Tin, today: date) -> None:
    """West Virginia Code 19-16-5a: kind and variety, treated or not, a reference number, name
    and town of who shares it, month and year.
    """
    listing = Listing(stocked, today)
    settings = replace(listing.settings, grower_name="Ines Marlow", grower_town="Netherby",
                       label_line="plot 7")  # fmt: skip
    by_variety = {
        line.packet.variety: label_fields(line, listing.book, today, settings)
        for line in listing.lines
    }
    dressed, plain = by_variety["Dray Horse"], by_variety["Früher Zwerg"]
    assert dressed["treated"] == "TREATED: dressed, do not eat"
    assert dressed["hazard"] == ""  # the treatment is said once
    assert plain["treated"] == "not treated"
    assert by_variety["Old Weir"]["hazard"] == "Do not eat raw"
    for fields in (dressed, plain):
        assert fields["reference"] == f"no. {fields['code']}"
        assert (fields["sharer"], fields["town"], fields["line"]) == (
            "Ines Marlow", "Netherby", "plot 7")  # fmt: skip
        assert "local law" in fields["law"]
        assert set(fields) <= set(FIELDS)


def test_a_name_stays_private_until_the_settings_give_it(stocked: Tin, today: date) -> None:
    listing = Listing(stocked, today)
    fields = label_fields(listing.lines[0], listing.book, today)
    assert (fields["sharer"], fields["town"], fields["line"]) == ("", "", "")


@given(st.integers(1, 200), st.integers(1, 5))
def test_each_cell_gets_a_label_with_its_number(cells: int, per_cell: int) -> None:
    one = growing(replace(ROW, row_m=None, cells=cells, per_cell=per_cell, seeds=cells * per_cell))
    book = CropBook(Settings())
    (whole,) = fields_each(one, book)
    assert whole == tray_fields(one, book)
    found = fields_each(one, book, each="cell")
    assert [fields["number"] for fields in found] == [
        f"cell {number} of {cells}" for number in range(1, cells + 1)
    ]
    assert {fields["code"] for fields in found} == {whole["code"]}
    assert not any(fields["cells"] for fields in found)


def test_a_row_has_no_cells_to_label() -> None:
    assert len(fields_each(growing(ROW), CropBook(Settings()), each="cell")) == 1


def test_dates_are_never_ambiguous() -> None:
    """Where digits alone stand, they stand in the order of ISO 8601."""
    assert written(date(2027, 3, 4), "iso") == "2027-03-04"
    assert {written(date(2027, 3, 4), order) for order in ("day first", "month first")} == {
        "4 Mar 2027", "Mar 4 2027"}  # fmt: skip
