"""The list of the day: tests and sowings together, opened or done by one key."""

from __future__ import annotations

from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from seedbox.season.jobs import Job
from seedbox.tin.file import Tin
from seedbox.tin.records import TestState
from seedbox.tui.germination_page import GerminationPage
from seedbox.tui.today_tab import when_words

TODAY = date(2026, 11, 24)


def job(due: date, late: int = 0) -> Job:
    return Job("J", "count", due, late, "T0", "", "", "", "")


@pytest.mark.parametrize(
    ("due", "late", "words"),
    [
        (date(2026, 11, 21), 3, "3 d late"),
        (date(2026, 11, 20), 0, "since 20 Nov"),
        (TODAY, 0, "today"),
        (date(2026, 11, 25), 0, "tomorrow"),
        (date(2026, 12, 3), 0, "3 Dec, in 9 d"),
    ],
)
def test_when_a_job_is_due_in_words(due: date, late: int, words: str):
    assert when_words(job(due, late), TODAY) == words


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_counts_stand_there_late_ones_first(open_screen, tin_path: Path, tested, size):
    async with open_screen(tin_path, size) as screen:
        assert "1 Today 1 late" in screen.lines[0]
        await screen.press("1")
        assert "1 late, 1 in the next 14 days" in screen.lines[1]
        bean, pea = screen.lines[3], screen.lines[4]
        assert "3 d late" in bean and "first count" in bean and "runner bean" in bean
        assert "tomorrow" in pea and "pea" in pea
        assert "Take out the normal seedlings" in screen.flat
        await screen.press("enter")
        assert isinstance(screen.app.screen, GerminationPage)


async def test_done_opens_what_must_be_counted_and_finishes_what_is(
    open_screen, tin_path: Path, tested
):
    when = datetime(2026, 11, 25, 9, tzinfo=UTC)
    with Tin.open(tin_path, now=lambda: when) as tin:
        tin.database.run(
            "UPDATE germination_test SET final_count_day = 8 WHERE code = ?", [tested["bean"]]
        )
    async with open_screen(tin_path) as screen:
        await screen.press("1")
        await screen.press("d")
        assert isinstance(screen.app.screen, GerminationPage)
        await screen.press("4", "down", "3", "escape")
        assert "finish" in screen.lines[3] and "today" in screen.lines[3]
        await screen.press("d")
        assert "Forecast before" in screen.flat
        with Tin.open(tin_path) as tin:
            assert tin.test(tested["bean"]).state is TestState.FINISHED
        assert "runner bean" not in screen.lines[3]
        await screen.press("u")
        assert "runner bean" in screen.lines[3]


async def test_a_day_without_jobs_says_so(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        assert "1 Today " in screen.lines[0]
        await screen.press("1")
        assert "Nothing is due in the next 14 days" in screen.flat


async def test_a_missing_tin_is_no_fault(open_screen, tmp_path: Path):
    async with open_screen(tmp_path / "new.tin") as screen:
        for key in ("1", "d", "enter", "3", "v", "v", "N", "enter", "1", "2"):
            await screen.press(key)
        assert screen.app.is_running
        assert not (tmp_path / "new.tin").exists()


async def test_a_garden_without_frosts_is_told_what_to_set_before_it_can_sow(
    open_screen, tin_path: Path
):
    async with open_screen(tin_path) as screen:
        await screen.press("1")
        assert "To sow now:" in screen.flat
        assert "frost" in screen.flat.split("To sow now:")[1]
