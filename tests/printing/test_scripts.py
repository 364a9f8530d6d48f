"""Right to left and joined letters: a second implementation, and the forms of the standard."""

from __future__ import annotations

import pytest
from bidi import get_display
from hypothesis import given
from hypothesis import strategies as st

from seedbox.printing.fonts import BOX, clean, is_embedded, runs
from seedbox.printing.reading_order import joined, visual

# Without brackets: the older of the two implementations does not know the rule for pairs of them.
MIXED = st.text("abאבגقم12٣ ,.%-+/: €é", min_size=1, max_size=24)


@given(MIXED)
def test_lines_stand_in_the_order_of_a_second_implementation(text: str) -> None:
    """python-bidi holds two: the one used here in Python, and one in Rust."""
    assert visual(text) == get_display(text)


@given(st.text(max_size=40))
def test_any_text_is_put_in_order_without_loss(text: str) -> None:
    plain = clean(text)
    assert len(visual(plain)) == len(plain)


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("قمر", "\ufed7\ufee4\ufeae"),  # qaf initial, meem medial, reh final
        ("دار", "\u062f\u0627\u0631"),  # none of these joins to the letter after it
        ("بلا", "\ufe91\ufefc"),  # lam and alef are one
    ],
)
def test_arabic_letters_take_their_joined_forms(text: str, shown: str) -> None:
    """Joining types as in The Unicode Standard, section 9.2; letters without a neighbour to join
    may stay as they are or be named in their isolated form."""
    isolated = {"\ufea9": "\u062f", "\ufe8d": "\u0627", "\ufead": "\u0631"}
    assert "".join(isolated.get(char, char) for char in joined(text)) == shown


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
