"""Single cells: years, dates, amounts, percentages, words. Expected values by common practice,
no source, except where one is named."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stdnum import ean as gs1

from seedbox.tin.exchange import amounts, texts, words
from seedbox.tin.exchange.dates import Reader, is_ambiguous, puts_month_first
from seedbox.tin.exchange.outcome import CellFaultError, CellReader, Read
from seedbox.tin.records import Origin, Treatment, Unit

READER = Reader(date(2026, 3, 14))
AMERICAN = Reader(date(2026, 3, 14), month_first=True)


def _value(found: Any) -> Any:
    return found.value if isinstance(found, Read) else found


@pytest.mark.parametrize(
    ("text", "year"),
    [
        ("2021", 2021), ("'21", 2021), ("21", 2021), ("98", 1998), ("2021/22", 2021),
        ("2021-22", 2021), ("2021–2022", 2021), ("1999/00", 1999), ("Sept 2021", 2021),
        ("Sep-21", 2021), ("2021-09-01", 2021), ("01/09/2021", 2021), ("autumn 2021", 2021),
        ("~2021", 2021), ("c. 2019", 2019), ("2021?", 2021), ("from Ann, 2019", 2019),
        ("2019.0", 2019), ("2027", 2027),
    ],
)  # fmt: skip
def test_years(text: str, year: int) -> None:
    assert _value(READER.year(text)) == year


@pytest.mark.parametrize(
    "text", ["2028", "1850", "before 2019", "old", "44440", "2019 or 2020", "", "20211"]
)
def test_what_is_no_year(text: str) -> None:
    with pytest.raises(CellFaultError, match=r"expected|no day"):
        READER.year(text)


def test_a_year_with_words_keeps_them() -> None:
    assert READER.year("from Ann, 2019") == Read(2019, "from Ann, 2019")
    assert READER.year("autumn 2021") == Read(2021, "")


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("2025", "2025-12-31"), ("May 2025", "2025-05-31"), ("feb 2024", "2024-02-29"),
        ("05/2025", "2025-05-31"), ("12/25", "2025-12-31"), ("2025-05", "2025-05-31"),
        ("1.5.2024", "2024-05-01"), ("01/05/2024", "2024-05-01"), ("25/12/2024", "2024-12-25"),
        ("12/25/2024", "2024-12-25"), ("5 May 2025", "2025-05-05"), ("May 5, 2025", "2025-05-05"),
        ("1st of June 2025", "2025-06-01"), ("Dec '25", "2025-12-31"),
        ("2025-05-01 00:00:00", "2025-05-01"), ("31.12.27", "2027-12-31"),
    ],
)  # fmt: skip
def test_sow_by_is_the_end_of_what_was_named(text: str, day: str) -> None:
    assert READER.last_day(text) == date.fromisoformat(day)


def test_the_region_decides_what_could_be_either() -> None:
    assert AMERICAN.last_day("01/05/2024") == date(2024, 1, 5)
    assert AMERICAN.last_day("1.5.2024") == date(2024, 5, 1)
    assert is_ambiguous("01/05/2024")
    assert not is_ambiguous("05/05/2024")
    assert not is_ambiguous("1.5.2024")
    assert puts_month_first("12/25/2024") is True
    assert puts_month_first("25/12/2024") is False
    assert puts_month_first("01/05/2024") is None


@pytest.mark.parametrize("text", ["2025-02-30", "31 feb 2024", "45413", "13/2025", "soon", "2099"])
def test_what_is_no_date(text: str) -> None:
    with pytest.raises(CellFaultError):
        READER.last_day(text)


def test_what_was_done_cannot_lie_ahead() -> None:
    with pytest.raises(CellFaultError, match="today"):
        READER.past_day("2026-03-15")
    assert READER.past_day("2026") == date(2026, 1, 1)


@pytest.mark.parametrize(
    ("text", "amount", "unit"),
    [
        ("50", 50, "seeds"), ("50 seeds", 50, "seeds"), ("2.5g", 2.5, "grams"),
        ("2,5 g", 2.5, "grams"), ("approx 30", 30, "seeds"), ("~30", 30, "seeds"),
        ("1,000", 1000, "seeds"), ("1.000", 1000, "seeds"), ("1 000", 1000, "seeds"),
        ("0,125 g", 0.125, "grams"), ("1.250 g", 1.25, "grams"), ("20-30", 20, "seeds"),
        ("30+", 30, "seeds"), ("none", 0, "seeds"), ("12 sets", 12, "seeds"),
        ("500 mg", 0.5, "grams"), ("half packet", None, None), ("1 pkt", None, None),
        ("a few", None, None), ("?", None, None),
    ],
)  # fmt: skip
def test_quantities(text: str, amount: float | None, unit: str | None) -> None:
    found = _value(amounts.quantity(text))
    assert (found.value, found.unit) == (amount, unit)


def test_ounces_are_avoirdupois() -> None:
    # International yard and pound agreement (1959): 1 lb = 453.59237 g, 16 oz to the pound.
    assert _value(amounts.quantity("16 oz")).value == pytest.approx(453.59237, abs=1e-6)
    assert _value(amounts.quantity("¼ oz")).value == pytest.approx(453.59237 / 64, abs=1e-6)


@pytest.mark.parametrize(
    "text", ["-5", "banana", "1e9", "2.5", "99999999", "1,000 g", "#REF!", "", "12 cm"]
)
def test_what_is_no_quantity(text: str) -> None:
    with pytest.raises(CellFaultError):
        amounts.quantity(text)


def test_what_was_not_counted_keeps_its_words() -> None:
    assert amounts.quantity("half packet") == Read(amounts.Amount(None, None), "half packet")
    assert amounts.quantity("2", Unit.GRAMS) == amounts.Amount(2.0, Unit.GRAMS)


@pytest.mark.parametrize(
    ("text", "share"),
    [("85%", 0.85), ("0.85", 0.85), ("85", 0.85), ("1%", 0.01), ("100 %", 1), ("85,5%", 0.855),
     (">85%", 0.85), ("0", 0)],
)  # fmt: skip
def test_percentages(text: str, share: float) -> None:
    assert amounts.percent(text) == pytest.approx(share)


@pytest.mark.parametrize("text", ["1", "120", "17/20", "good", "-5", ""])
def test_what_is_no_percentage(text: str) -> None:
    with pytest.raises(CellFaultError):
        amounts.percent(text)


def test_words() -> None:
    assert words.origin("Home-saved") is Origin.SAVED
    assert words.origin("Swop!") is Origin.SWAPPED
    assert words.origin("Italy") == Read(None, "Origin: Italy")
    assert words.treatment("yes") is Treatment.DRESSED
    assert words.tags("early, late;red") == ("early", "late;red")
    assert words.tags("early; late") == ("early", "late")


@given(st.from_regex(r"[0-9]{8}|[0-9]{12,13}", fullmatch=True))
def test_trade_numbers_agree_with_an_independent_library(text: str) -> None:
    # python-stdnum checks EAN-13, EAN-8 and UPC-A by itself.
    try:
        assert words.ean(text) == text
        assert gs1.is_valid(text)
    except CellFaultError:
        assert not gs1.is_valid(text)


def test_a_number_that_a_spreadsheet_has_shortened() -> None:
    with pytest.raises(CellFaultError, match="shortened"):
        words.ean("2.00638E+12")


PARSERS: list[Callable[[str], Any]] = [
    READER.year, READER.last_day, READER.past_day, AMERICAN.last_day, amounts.quantity,
    amounts.percent, amounts.exact_percent, words.origin, words.treatment, words.kind, words.unit,
    words.yes_or_no, words.packet_code, words.ean, texts.line, texts.note, texts.tags,
    texts.store_name,
]  # fmt: skip


@given(st.text(max_size=60) | st.text("0123456789/.,-~' gseptxmay%", max_size=16))
def test_any_text_ends_in_a_value_or_a_sentence(text: str) -> None:
    for parse in PARSERS:
        reader = CellReader(parse)
        value = reader[text]
        sentence = reader.faults.get(text, "")
        assert (
            text == ""
            or value is not None
            or sentence
            or reader.remarks
            or parse in (texts.line, texts.note, texts.store_name)
        )
        assert not sentence or sentence.endswith((".", "?"))
