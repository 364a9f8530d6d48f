"""The Garden tab: frosts, places, plans and the year, each changed and taken back."""

from __future__ import annotations

import calendar
from datetime import date, timedelta
from pathlib import Path

import pytest

from seedbox.season.sowing.tin_year import CropYear, week_starts
from seedbox.season.sowing.year import Activity, Stretch
from seedbox.tin.file import Tin
from seedbox.tui.tabs import tab
from seedbox.tui.year_strip import crop_words, month_line

GARDEN = tab("Garden").key


async def test_frosts_are_said_and_faults_stand_beside_them(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press(GARDEN)
        assert "press f" in screen.text
        await screen.press("f")
        await screen.type("31 April")
        await screen.press("tab")
        await screen.type("none")
        await screen.press("ctrl+s")
        assert "A day such as 25 April" in screen.problems
        for _ in "31 April":
            await screen.press("backspace")
        await screen.type("None")
        await screen.press("tab", "tab")
        await screen.type("37 S")
        await screen.press("ctrl+s")
        assert "first frost never" in " ".join(screen.text.split())
        assert "37° south" in screen.text
        with Tin.open(tin_path) as tin:
            assert tin.settings().last_spring_frost == "none"
        await screen.press("u")
        assert "Say the frosts and the latitude first" in screen.text


async def test_a_place_is_added_changed_and_removed(open_screen, garden_path: Path):
    async with open_screen(garden_path) as screen:
        await screen.press(GARDEN, "a")
        await screen.type("[i]frame[/i]")
        await screen.press("tab", "c", "tab", "ctrl+s")
        assert "how cool it is" in screen.problems
        await screen.type("4")
        await screen.press("tab")
        await screen.type("20")
        await screen.press("ctrl+s")
        assert "Added the place [i]frame[/i]" in screen.text and "4 to 20 °C" in screen.text
        await screen.press("g", "e", "tab", "tab", "backspace")
        await screen.type("6")
        await screen.press("ctrl+s")
        with Tin.open(garden_path) as tin:
            changed = next(p for p in tin.places() if p.name == "[b]long[/b] bed")
            assert (changed.coolest_c, changed.warmest_c) == (6.0, 18.0)
        await screen.press("u", "u")
        assert "[Places 2]" in screen.text
        await screen.press("G", "x")
        assert "Sowings stood in kitchen sill" in screen.text


async def test_a_plan_is_added_changed_and_removed(open_screen, garden_path: Path):
    async with open_screen(garden_path) as screen:
        await screen.press(GARDEN, "right")
        assert "[Plans 1]" in screen.text and "after 14 days" in screen.text
        await screen.press("a")
        await screen.type("eggp")
        await screen.press("enter")
        await screen.press("ctrl+s")
        assert "A number is needed" in screen.problems
        await screen.type("4")
        await screen.press("ctrl+s")
        assert "Planned: 4 of aubergine" in screen.text
        await screen.press("g", "e", "down")
        await screen.type("0")
        await screen.press("ctrl+s")
        with Tin.open(garden_path) as tin:
            assert {p.crop_id: p.plants for p in tin.plans()} == {"aubergine": 40, "lettuce": 12}
        await screen.press("x", "u", "u", "u")
        with Tin.open(garden_path) as tin:
            assert [p.crop_id for p in tin.plans()] == ["lettuce"]


async def test_the_year_shows_weeks_and_says_them_in_words(open_screen, garden_path: Path):
    async with open_screen(garden_path) as screen:
        await screen.press(GARDEN, "left")
        assert "[Year 2026]" in screen.text
        rows = [line for line in screen.lines if "outdoors" in line and ".." in line]
        assert rows and all(len(line.split()[-1]) == 53 for line in rows)  # 2026 has 53 weeks
        assert "a small letter: a later sowing" in " ".join(screen.text.split())
        assert "sow outdoors" in screen.text


@pytest.mark.parametrize("year", [2020, 2021, 2026, 2027, 2028])
def test_each_month_stands_over_its_own_weeks(year: int):
    # ISO 8601: a week belongs to the month and year of its Thursday.
    starts = week_starts(year)
    line = month_line(starts, date(year + 2, 1, 1))
    assert len(line) == len(starts)
    thursdays = [start + timedelta(days=3) for start in starts]
    for month in range(1, 13):
        own = [week for week, day in enumerate(thursdays) if day.month == month]
        assert line[own[0] : own[0] + 3] == calendar.month_abbr[month]


def test_stretches_are_told_in_words():
    def crop(*stretches: Stretch) -> CropYear:
        return CropYear("kale", "kale", stretches, {})

    def day(month: int, number: int, year: int = 2027) -> date:
        return date(year, month, number)

    sown, cut = Activity.INDOORS, Activity.HARVEST
    told = crop(
        Stretch(sown, day(3, 1), day(4, 1)),
        Stretch(sown, day(4, 2), day(6, 1), later=True),
        Stretch(cut, day(6, 1, 2026), day(1, 9)),
    )
    assert crop_words(told, 2027) == (
        "kale: sow indoors 1 March to 1 April, later until 1 June; harvest until 9 January."
    )
    assert crop_words(crop(Stretch(sown, day(1, 4), day(1, 2, 2028))), 2027) == (
        "kale: sow indoors all year."
    )
    assert crop_words(crop(), 2027) == "kale: no week is known."


def test_the_stroke_hides_no_month():
    starts = week_starts(2027)
    for day in range(365):
        today = date(2027, 1, 4) + timedelta(days=day)
        line = month_line(starts, today)
        letters = line.replace("|", "").replace(" ", "")
        assert letters == "".join(calendar.month_abbr[1:])
        assert line.count("|") == (1 if today <= date(2028, 1, 2) else 0)
