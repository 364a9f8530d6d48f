"""No cell runs as a formula, and the guard comes off again without loss."""

from __future__ import annotations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from seedbox.tin.exchange.neutral import guarded, shown, unguarded

# The characters that start a formula in spreadsheets, as listed by the OWASP Foundation's page
# on CSV injection: = + - @ tab and carriage return, also in their full-width forms.
STARTERS = "=+-@\t\r＝＋－＠"


@given(st.text())
@example("'")
@example("''=1")
@example(" =1")
@example("\u200b=1")
@example("'21")
def test_the_guard_comes_off_without_loss(text: str) -> None:
    assert unguarded(guarded(text)) == text


@given(st.sampled_from(STARTERS), st.text())
def test_nothing_guarded_starts_a_formula(start: str, rest: str) -> None:
    assert guarded(start + rest).startswith("'")
    if not start.isspace():
        assert all(guarded(blank + start + rest).startswith("'") for blank in " \u00a0\ufeff")


@pytest.mark.parametrize("text", ["", "plain", "3-in-1", "O'Hara", "2021", "x=1"])
def test_harmless_text_stays_as_it_is(text: str) -> None:
    assert guarded(text) == text


@given(st.text())
def test_a_message_shows_one_short_line(text: str) -> None:
    assert len(shown(text)) <= 42
    assert "\n" not in shown(text)
