"""Headings in any order, case and punctuation."""

from __future__ import annotations

import pytest

from seedbox.errors import UsageError
from seedbox.tin.exchange.fields import WORDS, Field
from seedbox.tin.exchange.headers import field_of, recognised
from seedbox.tin.exchange.shapes import TABLES
from seedbox.tin.exchange.table import Table


def _table(*headers: str, rows: list[list[str]] | None = None) -> Table:
    return Table(list(headers), rows or [["x"] * len(headers)], 2)


def _fields(*headers: str, rows: list[list[str]] | None = None) -> dict[str, int]:
    return {field.value: at for field, at in recognised(_table(*headers, rows=rows)).at.items()}


@pytest.mark.parametrize(
    ("heading", "field"),
    [
        ("VEGETABLE", Field.CROP), (" Cultivar: ", Field.VARIETY), ("Germ. %", Field.GERMINATION),
        ("Year harvested", Field.HARVEST_YEAR), ("Packed For", Field.PACKED_YEAR),
        ("purchase_year", Field.BOUGHT_YEAR), ("Use by", Field.SOW_BY), ("Qty.", Field.QUANTITY),
        ("Weight (g)", Field.GRAMS), ("No. of seeds", Field.SEEDS), ("From", Field.SOURCE),
        ("Best before (date)", Field.SOW_BY), ("Bar-code", Field.EAN), ("Remarks", Field.NOTE),
        ("Weight (oz)", None), ("Germination (days)", None), ("planted out", None), ("", None),
    ],
)  # fmt: skip
def test_headings(heading: str, field: Field | None) -> None:
    assert field_of(heading) is field


def test_no_word_names_two_fields() -> None:
    words = [word for group in WORDS.values() for word in group]
    assert len(words) == len(set(words))


def test_every_column_of_an_export_is_recognised() -> None:
    found = _fields(*TABLES["packets"], rows=[["seed"] * len(TABLES["packets"])])
    assert found.keys() == set(TABLES["packets"]) - {"note"}


def test_a_bare_name_is_the_crop_or_the_variety() -> None:
    assert _fields("Name", "Year") == {"crop": 0, "year": 1}
    assert _fields("Crop", "Name") == {"crop": 0, "variety": 1}
    assert _fields("Name", "Variety") == {"crop": 0, "variety": 1}
    assert _fields("Crop", "Variety", "Name") == {"crop": 0, "variety": 1, "name": 2}


def test_kind_is_the_crop_unless_it_says_seed_or_stock() -> None:
    assert _fields("Kind", "Variety") == {"crop": 0, "variety": 1}
    assert _fields("Crop", "Kind", rows=[["pea", "seed"]]) == {"crop": 0, "kind": 1}
    assert _fields("Crop", "Kind", rows=[["pea", "mangetout"]]) == {"crop": 0, "variety": 1}


def test_the_surer_heading_wins_and_the_other_is_listed() -> None:
    columns = recognised(_table("type", "crop", "colour"))
    assert columns.at == {Field.CROP: 1}
    assert set(columns.ignored) == {"colour", "type (another column is crop)"}


def test_what_a_person_says_comes_first() -> None:
    columns = recognised(_table("Sorte", "Art", "crop"), {"Art": "crop", "sorte": "variety"})
    assert columns.at == {Field.CROP: 1, Field.VARIETY: 0}
    assert recognised(_table("Crop", "Colour"), {"colour": "note"}).note_columns == (1,)
    assert recognised(_table("Crop", "Year"), {"Year": "ignore"}).ignored == ("Year",)
    assert recognised(_table("x", "y"), {"B": "crop"}).at == {Field.CROP: 1}


def test_a_column_or_a_field_that_does_not_exist() -> None:
    with pytest.raises(UsageError, match="no column"):
        recognised(_table("crop"), {"colour": "note"})
    with pytest.raises(UsageError, match="no field"):
        recognised(_table("crop"), {"crop": "flavour"})
