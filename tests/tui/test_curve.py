from __future__ import annotations

from datetime import date, timedelta

import pytest

from seedbox.tui.curve import Picture, Point, draw

START = date(2020, 1, 1)


def straight(first: float, last: float, band: float = 0.1) -> list[Point]:
    steps = 10
    return [
        Point(
            START + timedelta(days=365 * i),
            first + (last - first) * i / steps,
            max(0.0, first + (last - first) * i / steps - band),
            min(1.0, first + (last - first) * i / steps + band),
        )
        for i in range(steps + 1)
    ]


def shown(picture: Picture, width: int = 66, height: int = 10) -> list[str]:
    return ["".join(piece.text for piece in line) for line in draw(picture, width, height)]


def dots(line: str) -> list[int]:
    """Places across at which the mean is drawn (Unicode block Braille Patterns, 2800 to 28FF)."""
    return [x for x, char in enumerate(line) if 0x2800 < ord(char) <= 0x28FF]


def test_every_line_has_the_width_asked_for():
    lines = shown(Picture(straight(0.9, 0.1), [], date(2025, 1, 1)))
    assert len(lines) == 12
    assert all(len(line) == 66 for line in lines[:11])


def test_a_falling_forecast_falls():
    lines = shown(Picture(straight(0.95, 0.05), [], date(2035, 1, 1)))[:10]
    means = [sum(places) / len(places) for line in lines if (places := dots(line))]
    assert means == sorted(means)
    assert len(means) >= 9


def test_a_level_forecast_stays_on_its_row():
    lines = shown(Picture(straight(0.55, 0.55), [], date(2035, 1, 1)))[:10]
    assert [y for y, line in enumerate(lines) if dots(line)] == [4]


@pytest.mark.parametrize(("fraction", "row"), [(1.0, 0), (0.96, 0), (0.45, 5), (0.0, 9)])
def test_a_test_stands_at_its_day_and_height(fraction: float, row: int):
    day = START + timedelta(days=3650 // 2)
    lines = shown(Picture(straight(0.5, 0.5), [(day, fraction)], date(2035, 1, 1)))
    marks = [(y, line.index("o")) for y, line in enumerate(lines[:10]) if "o" in line]
    assert marks in ([(row, 6 + 29)], [(row, 6 + 30)])


def test_a_test_outside_the_picture_is_left_out():
    lines = shown(Picture(straight(0.5, 0.5), [(date(2010, 1, 1), 0.5)], date(2035, 1, 1)))
    assert not any("o" in line for line in lines)


def test_today_and_standard_are_drawn():
    lines = shown(Picture(straight(0.9, 0.5), [], date(2024, 12, 30), standard=0.15))
    # The line of expected germination crosses it once and is drawn over it.
    assert sum("│" in line for line in lines[:10]) == 9
    assert "- - - " in lines[8]


def test_years_stand_below_their_ticks():
    lines = shown(Picture(straight(0.9, 0.5), [], date(2025, 1, 1)))
    for year in ("2022", "2026"):
        assert lines[10][lines[11].index(year)] == "┴"


def test_too_little_to_draw_draws_nothing():
    assert draw(Picture(straight(0.5, 0.5)[:1], [], START), 60, 10) == []
