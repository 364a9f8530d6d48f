from __future__ import annotations

from datetime import date

import pytest

from seedbox.tin.records import Unit
from seedbox.tui.field_values import FieldReader
from seedbox.tui.form import FormProblemsError

TODAY = date(2026, 11, 24)


def reader(**values: str) -> FieldReader:
    return FieldReader(values, TODAY)


def test_amounts_are_seeds_or_grams_or_unknown():
    assert reader(a="40").amount("a").value == 40
    assert reader(a="2,5 g").amount("a").unit is Unit.GRAMS
    assert reader(a="").amount("a").value is None
    assert reader(a="3").amount("a", Unit.GRAMS).unit is Unit.GRAMS


def test_days_may_be_words():
    assert reader(a="yesterday").day("a") == date(2026, 11, 23)
    assert reader(a="Today").day("a") == TODAY
    assert reader(a="").day("a") is None


def test_a_month_ends_on_its_last_day():
    assert reader(a="02/2028").last_day("a") == date(2028, 2, 29)
    assert reader(a="2027").last_day("a") == date(2027, 12, 31)


@pytest.mark.parametrize(
    ("kind", "text"),
    [
        ("day", "3/4/2026"),
        ("day", "2030-01-01"),
        ("day", "soon"),
        ("year", "20211"),
        ("year", "1750"),
        ("share", "140"),
        ("number", "warm"),
        ("count", "-3"),
        ("count", "2.5"),
        ("amount", "a wheelbarrow of"),
    ],
)
def test_what_cannot_be_read_is_a_sentence_beside_its_field(kind: str, text: str):
    fields = reader(a=text)
    getattr(fields, kind)("a")
    with pytest.raises(FormProblemsError) as caught:
        fields.finish()
    assert list(caught.value.problems) == ["a"]
    assert caught.value.problems["a"].endswith(".")


def test_all_faults_come_at_once():
    fields = reader(a="x", b="y", c="12")
    fields.day("a"), fields.number("b"), fields.count("c")
    with pytest.raises(FormProblemsError) as caught:
        fields.finish()
    assert set(caught.value.problems) == {"a", "b"}
