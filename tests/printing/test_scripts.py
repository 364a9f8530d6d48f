"""Right to left and joined letters, against two independent implementations."""

from __future__ import annotations

import pytest
from arabic_reshaper import ArabicReshaper  # type: ignore[import-untyped]
from bidi import get_display
from hypothesis import given
from hypothesis import strategies as st

from seedbox.printing.bidi import mirrored, visual
from seedbox.printing.fonts import BOX, clean, is_embedded, runs
from seedbox.printing.joining import joined

# Only the order is compared: python-bidi leaves brackets as they are.
MIXED = st.text("abאבגقم12٣ ,.%-+()[]/: €é", min_size=1, max_size=24)
ARABIC = st.text("ابتثجحخدذرزسشصضطظعغفقكلمنهويةىآأإءپچگکیٹےں ـ", max_size=16)
RESHAPER = ArabicReshaper({"delete_tatweel": False, "ARABIC LIGATURE ALLAH": False})


@given(MIXED)
def test_lines_stand_in_the_order_of_python_bidi(text: str) -> None:
    found = visual(text)
    has_right = any(char in "אבגقم" for char in text)
    if has_right:
        wanted = get_display(text)
        assert len(found) == len(wanted)
        for ours, theirs in zip(found, wanted, strict=True):
            assert ours in (theirs, mirrored(theirs))
    else:
        assert found == text


@given(ARABIC)
def test_letters_join_as_in_arabic_reshaper(text: str) -> None:
    assert joined(text) == RESHAPER.reshape(text)


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("(אב) ג", "ג (בא)"),  # a bracket looks the other way
        ("Pea ירוק 12", "Pea 12 קורי"),
        ("[12] אב", "בא [12]"),
    ],
)
def test_brackets_and_numbers_in_hebrew(text: str, shown: str) -> None:
    """Worked by hand from Unicode Standard Annex 9."""
    assert visual(text) == shown


def test_a_joiner_that_is_not_seen_still_parts_letters() -> None:
    """Persian `می‌خواهم`: the letter before U+200C ends as at a word's end."""
    assert clean("می\u200cخ") == "\ufee3\ufbfd\ufea5"


@pytest.mark.parametrize("weight", ["regular", "semibold"])
@pytest.mark.parametrize(
    "text", ["ירח הצהוב", "قمر الدين", "می‌خواهم گیلاس", "ٹماٹر بھنڈی", "Լոլիկ", "პომიდორი", "ቲማቲም"]
)
def test_these_scripts_have_embedded_letters(text: str, weight: str) -> None:
    found = runs(visual(clean(text)), weight)
    assert all(run.font != BOX and is_embedded(run.font) for run in found)


def test_points_on_letters_are_left_out_and_the_letters_stay() -> None:
    assert clean("שָׁלוֹם") == "שלום"
    assert clean("قَمَر") == joined("قمر")
    assert clean("أ إ آ") == joined("أ إ آ")  # these are letters of their own
