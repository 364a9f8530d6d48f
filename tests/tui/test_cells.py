"""Text in terminal cells. Widths follow Unicode Standard Annex 11 (East Asian Width)."""

from __future__ import annotations

import unicodedata

from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from seedbox.tui.cells import fit, plain, width_of, wrapped


def test_wide_characters_take_two_cells():
    # UAX 11: ideographs are W(ide).
    assert unicodedata.east_asian_width("白") == "W"
    assert width_of("白玉") == 4
    assert fit("白玉", 3) == "白…"
    assert fit("白玉", 6) == "白玉  "


def test_combining_marks_take_none():
    assert width_of("e\u0301") == 1
    assert fit("e\u0301", 3) == "e\u0301  "


def test_right_to_left_names_are_isolated():
    # Unicode Standard Annex 9: FSI ... PDI keeps the direction of a name to itself.
    assert plain("חסה") == "\u2068חסה\u2069"
    assert fit("חסה ירוקה", 6).startswith("\u2068")
    assert "\u2069" in fit("חסה ירוקה", 6)


def test_control_characters_and_overrides_go():
    assert plain("a\x1b[31mb\u202ec\nd") == "a[31mbc d"


@given(st.text(max_size=40), st.integers(1, 30), st.booleans())
def test_fit_always_fills_the_width(text: str, width: int, right: bool):
    assert cell_len(fit(text, width, right=right)) == width


@given(st.text(max_size=120), st.integers(10, 40))
def test_wrapped_lines_never_overrun(text: str, width: int):
    assert all(cell_len(line) <= width for line in wrapped(text, width))


def test_wrapped_keeps_every_word():
    text = "Test 20 seeds before you rely on it: anything may come up."
    assert " ".join(wrapped(text, 17)) == text
