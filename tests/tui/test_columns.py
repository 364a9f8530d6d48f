from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from seedbox.tui.columns import GAP, lay_out
from seedbox.tui.tin_columns import COLUMNS
from seedbox.tui.virtual_list import MARK_WIDTH


@given(st.integers(59, 300))
def test_the_tin_fits_every_width_from_the_floor(width: int):
    placed = lay_out(COLUMNS, width - MARK_WIDTH)
    taken = sum(p.width for p in placed) + GAP * (len(placed) - 1)
    assert taken <= width - MARK_WIDTH
    assert {"germination", "advice"} <= {p.column.key for p in placed}


def test_eighty_columns_show_what_must_be_shown():
    keys = [p.column.key for p in lay_out(COLUMNS, 79 - MARK_WIDTH)]
    assert keys == ["code", "crop", "variety", "year", "left", "germination", "advice"]


def test_more_width_shows_more():
    assert {p.column.key for p in lay_out(COLUMNS, 150)} >= {"store", "until", "source"}
