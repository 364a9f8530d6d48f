"""Columns line up in cells, shrink to a terminal, and are never cut on a pipe."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from seedbox.cli.tables import Column, cells, cut, fields, one_line, table

COLUMNS = [Column("code"), Column("crop", least=6), Column("left", right=True)]
TEXT = st.text(
    alphabet=st.characters(exclude_categories=["Cs", "Cc"], exclude_characters="|"), max_size=30
)


@given(st.lists(st.tuples(TEXT, TEXT, TEXT), min_size=1, max_size=6))
def test_every_row_starts_its_columns_at_the_same_cell(rows: list[tuple[str, str, str]]) -> None:
    marked = [(code, crop + "|", left) for code, crop, left in rows]
    lines = table([Column("a"), Column("b"), Column("c")], marked)
    before = [
        cells(line[: line.rindex("|") + 1]) - cells(one_line(row[1]))
        for line, row in zip(lines[1:], marked, strict=True)
    ]
    assert len(set(before)) == 1


@given(TEXT, st.integers(1, 40))
def test_a_cut_text_fits_and_says_that_it_was_cut(text: str, width: int) -> None:
    short = cut(text, width)
    assert cells(short) <= width
    assert short == text or short.endswith("…")


def test_wide_and_combining_characters_count_as_the_terminal_draws_them() -> None:
    # Unicode Standard Annex 11: wide ideographs take two columns; combining marks none.
    assert [cells("番茄"), cells("ế"), cells("e\u0302\u0301")] == [4, 1, 1]


def test_only_columns_that_may_shrink_do() -> None:
    rows = [("P4K7 QMX2", "a very long name for a crop", "1,200 seeds")]
    line = table(COLUMNS, rows, 34)[1]
    assert cells(line) == 34
    assert "P4K7 QMX2" in line
    assert "1,200 seeds" in line
    assert "…" in line


def test_nothing_is_cut_when_nobody_said_how_wide() -> None:
    assert "x" * 300 in table(COLUMNS, [("P", "x" * 300, "")])[1]


def test_a_column_that_is_empty_throughout_is_left_out() -> None:
    assert table(COLUMNS, [("P", "leek", "")])[0] == "code  crop"


def test_no_control_character_reaches_the_screen() -> None:
    assert one_line("a\nb\x1b[31mc") == "a b[31mc"


def test_fields_align_and_skip_what_is_empty() -> None:
    assert fields([("crop", "leek"), ("source", ""), ("store", "shed")]) == [
        "crop:   leek",
        "store:  shed",
    ]
