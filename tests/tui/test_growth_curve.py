"""The curve of a test as it grows: a plot in characters."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from seedbox.tui.growth_curve import Growth, draw

COUNTED = Growth(
    points=((0.0, 0), (5.0, 8), (7.0, 12)),
    seeds=20,
    last_day=14,
    today=8,
    count_days=(5, 7, 9, 11, 14),
    good_from=15,
    poor_to=11,
    expected=(0.6, 0.9),
)


def text_of(growth: Growth, width: int = 66, height: int = 10) -> list[str]:
    return ["".join(piece.text for piece in row) for row in draw(growth, width, height)]


def test_limits_counts_today_and_days_are_all_there():
    lines = text_of(COUNTED)
    whole = "\n".join(lines)
    assert "good from 15 on" in whole and "poor at 11 or fewer" in whole
    assert whole.count("o\n") + sum(line[6:].count("o") for line in lines) >= 2
    assert "│" in whole and "░" in whole
    assert lines[-1].split() == ["day", "0", "5", "7", "9", "11", "14"]


def test_a_count_stands_at_its_day_and_share():
    # 60 cells for 14 days: day 7 is cell 30 of 0 to 59; 12 of 20 is 60 %: row 4 of 10.
    lines = text_of(COUNTED)
    assert lines[4][6 + round(7 / 14 * 59)] == "o"
    assert lines[6][6 + round(5 / 14 * 59)] == "o"  # 8 of 20 is 40 %


@given(
    st.integers(1, 400).flatmap(
        lambda seeds: st.tuples(
            st.just(seeds),
            st.lists(st.tuples(st.integers(1, 40), st.integers(0, 20)), max_size=6),
        )
    ),
    st.integers(20, 200),
    st.integers(4, 20),
)
def test_every_line_keeps_to_its_width(found, width, height):
    seeds, steps = found
    day, came, points = 0.0, 0, [(0.0, 0)]
    for ahead, new in steps:
        day, came = day + ahead, min(seeds, came + new)
        points.append((day, came))
    growth = Growth(points, seeds, 21, int(day), (5, 12, 21), seeds // 2 + 1, None, (0.1, 1.0))
    lines = text_of(growth, width, height)
    assert len(lines) == height + 2
    assert all(len(line) <= width for line in lines)
