"""What can be wrong with a packet as entered, each with its field and a sentence."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox.tin.drafts import PacketDraft, check_draft, cleaned, ean_problem
from seedbox.tin.records import Unit
from seedbox.tin.text import clean_line, clean_note

TODAY = date(2026, 3, 14)


def test_a_plain_draft_is_sound() -> None:
    draft = PacketDraft(
        "leek",
        "Ferry Blue",
        harvest_year=2025,
        packed_year=2026,
        bought_year=2027,
        sow_by=date(2029, 1, 1),
        printed_germination=1,
        amount=0,
        unit=Unit.SEEDS,
    )
    assert check_draft(draft, TODAY) == []


@pytest.mark.parametrize(
    ("field", "value", "part"),
    [
        ("crop_id", "", "needs a crop"),
        ("crop_id", "c" * 201, "201 characters"),
        ("variety", "v" * 201, "201 characters"),
        ("source", "s" * 1_000_000, "1000000 characters"),
        ("note", "n" * 10_001, "10001 characters"),
        ("tags", ("t" * 41,), "longer than 40"),
        ("tags", tuple(map(str, range(31))), "31 tags"),
        ("harvest_year", 1899, "harvest year 1899 is not between 1900 and 2027"),
        ("packed_year", 2028, "packing year 2028"),
        ("bought_year", 20_224, "purchase year 20224"),
        ("sow_by", date(1899, 1, 1), "sow-by date 1899-01-01"),
        ("sow_by", date(2057, 1, 1), "2057-01-01 is not between 1900 and 2056"),
        ("printed_germination", 85, "between 0 and 100 %"),
        ("printed_germination", -0.1, "between 0 and 100 %"),
        ("printed_germination", float("nan"), "between 0 and 100 %"),
        ("printed_on", date(2026, 3, 15), "future"),
        ("received_on", date(2026, 3, 15), "future"),
        ("received_on", date(26, 3, 15), "before 1900"),
        ("stored_from", date(2026, 3, 15), "future"),
        ("amount", -1, "cannot be -1"),
        ("amount", float("inf"), "cannot be inf"),
        ("amount", 2.5, "whole numbers"),
        ("moisture", 0, "moisture of 0 %"),
        ("ean", "4006381333932", "check digit"),
        ("ean", "12345", "13, 12 or 8 digits"),
        ("code", "P4K7", "4 characters"),
    ],
)
def test_each_fault_has_its_field_and_sentence(field: str, value: Any, part: str) -> None:
    draft = PacketDraft(**{"crop_id": "leek", field: value})
    (problem,) = check_draft(draft, TODAY)
    assert part in problem.sentence
    assert len(problem.sentence) < 200
    assert problem.field == field.removesuffix("_id")


@pytest.mark.parametrize("field", ["packed_year", "bought_year"])
def test_nothing_is_packed_before_its_harvest(field: str) -> None:
    draft = PacketDraft("leek", harvest_year=2024, **{field: 2023})  # type: ignore[arg-type]
    (problem,) = check_draft(draft, TODAY)
    assert problem.field == field
    assert "before its harvest in 2024" in problem.sentence


def test_grams_may_be_broken() -> None:
    assert check_draft(PacketDraft("leek", amount=2.5, unit=Unit.GRAMS), TODAY) == []


@pytest.mark.parametrize("number", ["4006381333931", "73513537", "036000291452"])
def test_trade_numbers(number: str) -> None:
    # Worked examples of check digits: EAN-13 and EAN-8 in the documentation of python-stdnum
    # and in common use; UPC-A 036000291452 from the published description of that code
    # (from memory).
    assert ean_problem(number) == ""
    for digit in "0123456789":
        assert bool(ean_problem(number[:-1] + digit)) == (digit != number[-1])


def gs1_check_digit(body: str) -> str:
    """GS1 General Specifications, section 7.9: weights 3 and 1 from the right, up to a ten."""
    total = sum(int(d) * (3 if place % 2 == 0 else 1) for place, d in enumerate(reversed(body)))
    return str(-total % 10)


@given(
    st.sampled_from([7, 11, 12]).flatmap(lambda n: st.text("0123456789", min_size=n, max_size=n))
)
def test_trade_numbers_by_the_rule_of_gs1(body: str) -> None:
    assert ean_problem(body + gs1_check_digit(body)) == ""


def test_spaces_and_dashes_in_a_trade_number_do_not_matter() -> None:
    assert cleaned(PacketDraft("leek", ean=" 4-006381 333931")).ean == "4006381333931"


def test_cleaning_leaves_a_clean_draft_alone() -> None:
    draft = PacketDraft("leek", "Ferry Blue", note="a\nb", tags=("x", "y"))
    assert cleaned(draft) is draft


@given(st.text())
def test_a_cleaned_line_is_one_line_and_stays_as_it_is(text: str) -> None:
    line = clean_line(text)
    assert clean_line(line) == line
    assert len(line.splitlines()) <= 1
    assert line == line.strip()
    assert not any(ord(c) < 32 or 0x7F <= ord(c) < 0xA0 or 0xD800 <= ord(c) < 0xE000 for c in line)
    line.encode()


@given(st.text())
def test_a_cleaned_note_keeps_its_lines(text: str) -> None:
    note = clean_note(text)
    assert clean_note(note) == note
    assert not any((ord(c) < 32 and c != "\n") or 0xD800 <= ord(c) < 0xE000 for c in note)
    note.encode()


@pytest.mark.parametrize("name", ["Früher Αθηνά", "Сорт «Дед»", "Cà rốt", "種 子", "كزبرة", "👩‍🌾"])
def test_names_in_any_script_stay(name: str) -> None:
    assert clean_line(name) == name


def test_one_name_is_spelt_one_way() -> None:
    assert clean_line("Fru\u0308her") == "Früher"
