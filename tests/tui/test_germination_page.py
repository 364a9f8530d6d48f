"""Counting a test with single keys, finishing it, dropping it, and what its page says."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from seedbox.tin.file import Tin
from seedbox.tin.records import TestState
from seedbox.tui.germination_entry import IN_A_ROW_SECONDS, Cell, Entry
from seedbox.tui.germination_page import GerminationPage

TODAY = date(2026, 11, 24)


def counts_of(path: Path, code: str) -> list[tuple[int, ...]]:
    """Replicate, normal, abnormal, hard, fresh and dead of each count of today."""
    with Tin.open(path) as tin:
        found = [c for c in tin.test_counts(tin.test(code).id) if c.on == TODAY]
    return [(c.replicate, c.normal, c.abnormal, c.hard, c.fresh, c.dead) for c in found]


async def opened(screen, code: str) -> GerminationPage:
    screen.app.jump(code)
    await screen.settle()
    page = screen.app.screen
    assert isinstance(page, GerminationPage)
    return page


def later(page: GerminationPage) -> None:
    """As if the person had paused since the last digit."""
    page._entry.at -= 2 * IN_A_ROW_SECONDS


def test_digits_in_a_row_are_one_number_and_after_a_pause_a_new_one():
    cell, other, entry = Cell(1, "normal"), Cell(2, "normal"), Entry()
    assert entry.next(1, cell, 100.0) == 1
    entry.note(cell, 1, 100.0, 7)
    assert entry.next(2, cell, 100.5) == 12
    assert entry.next(2, other, 100.5) == 2
    assert entry.next(2, cell, 100.0 + IN_A_ROW_SECONDS + 0.1) == 2
    entry.end()
    assert entry.next(2, cell, 100.5) == 2


async def test_a_digit_adds_seedlings_at_once_and_u_takes_them_back(
    open_screen, tin_path: Path, tested
):
    async with open_screen(tin_path) as screen:
        page = await opened(screen, tested["bean"])
        assert "Not counted yet" in screen.text
        await screen.press("3")
        assert "[  +3 = 3]" in screen.text
        assert counts_of(tin_path, page.code) == [(1, 3, 0, 0, 0, 0)]
        later(page)
        await screen.press("4")
        assert counts_of(tin_path, page.code) == [(1, 7, 0, 0, 0, 0)]
        await screen.press("u")
        assert counts_of(tin_path, page.code) == [(1, 3, 0, 0, 0, 0)]
        await screen.press("u")
        assert counts_of(tin_path, page.code) == []
        assert "Not counted yet" in screen.text


async def at_once(screen, page: GerminationPage, *digits: int) -> None:
    """Digits a tenth of a second apart, whatever the speed of this machine."""
    for number, digit in enumerate(digits):
        page._digit(digit, 1000.0 + number / 10)
    await screen.settle()


async def test_one_and_nought_at_once_are_ten_and_one_change(open_screen, tin_path: Path, tested):
    async with open_screen(tin_path) as screen:
        page = await opened(screen, tested["bean"])
        await at_once(screen, page, 1, 0)
        assert counts_of(tin_path, page.code) == [(1, 10, 0, 0, 0, 0)]
        await screen.press("u")
        assert counts_of(tin_path, page.code) == []


async def test_a_number_that_cannot_be_leaves_its_first_digit(open_screen, tin_path: Path, tested):
    async with open_screen(tin_path) as screen:
        page = await opened(screen, tested["bean"])
        await at_once(screen, page, 2, 1)
        assert counts_of(tin_path, page.code) == [(1, 2, 0, 0, 0, 0)]
        assert "11 too many" in screen.flat
        assert "one by one" in screen.flat


async def test_each_kind_and_replicate_has_its_cell(open_screen, tin_path: Path, tested):
    async with open_screen(tin_path) as screen:
        page = await opened(screen, tested["bean"])
        await screen.press("5", "right", "1", "down", "n", "4", "h", "2", "f", "1", "d", "3")
        rows = counts_of(tin_path, page.code)
        assert rows == [(1, 5, 1, 0, 0, 0), (2, 4, 0, 2, 1, 3)]
        await screen.press("up", "left")
        assert page.chosen == Cell(1, "fresh")


async def test_nought_says_that_one_looked(open_screen, tin_path: Path, tested):
    async with open_screen(tin_path) as screen:
        page = await opened(screen, tested["bean"])
        await screen.press("0")
        assert counts_of(tin_path, page.code) == [(1, 0, 0, 0, 0, 0)]
        assert "Now replicate 2" in screen.text


@pytest.mark.parametrize("key", ["minus", "backspace"])
async def test_one_is_taken_back(open_screen, tin_path: Path, tested, key: str):
    async with open_screen(tin_path) as screen:
        page = await opened(screen, tested["bean"])
        await screen.press("2", key)
        assert counts_of(tin_path, page.code) == [(1, 1, 0, 0, 0, 0)]
        await screen.press(key)
        assert counts_of(tin_path, page.code) == []
        await screen.press(key)
        assert "Nothing of today stands" in screen.text


async def test_more_than_was_laid_is_refused_with_a_sentence(open_screen, tin_path: Path, tested):
    async with open_screen(tin_path) as screen:
        page = await opened(screen, tested["bean"])
        await screen.press("9")
        later(page)
        await screen.press("9")
        assert counts_of(tin_path, page.code) == [(1, 9, 0, 0, 0, 0)]
        assert "8 too many" in screen.flat


async def test_another_day_is_counted_and_corrected(open_screen, tin_path: Path, tested):
    async with open_screen(tin_path) as screen:
        await opened(screen, tested["pea"])
        await screen.press("e")
        for field, text in (("on", "2"), ("normal", "3")):
            screen.app.screen.query_one(f"#field-{field}").value = text
        await screen.press("ctrl+s")
        assert "22 November: 3 normal" in screen.text
        await screen.press("e")
        screen.app.screen.query_one("#field-on").value = "9"
        await screen.press("ctrl+s")
        form = screen.app.screen
        assert form.query("#form-problem")
        assert "2026-11-29" in str(form.query_one("#form-problem").content)


async def test_finishing_shows_the_forecast_before_and_after(open_screen, tin_path: Path, tested):
    async with open_screen(tin_path) as screen:
        page = await opened(screen, tested["bean"])
        await screen.press("F")
        assert "never counted" in screen.text
        await screen.press("9", "down", "8", "F")
        assert "17 of 20 germinated" in screen.text
        assert "Forecast before:" in screen.flat and "With this test:" in screen.flat
        assert "stopped before the last count" in screen.flat.lower()
        await screen.press("o")
        assert "[  +8 = 8]" in screen.text
        await screen.press("u")
        with Tin.open(tin_path) as tin:
            assert tin.test(page.code).state is TestState.FINISHED


async def test_digits_on_a_finished_test_open_tabs_again(open_screen, tin_path: Path, tested):
    async with open_screen(tin_path) as screen:
        await opened(screen, tested["finished"])
        await screen.press("1")
        assert "[1 Today" in screen.lines[0]


async def test_dropping_a_test_that_was_never_wetted(open_screen, tin_path: Path, tested, codes):
    async with open_screen(tin_path) as screen:
        await opened(screen, tested["pea"])
        await screen.press("D", "right", "ctrl+s")
        assert "Dropped" in screen.text
        with Tin.open(tin_path) as tin:
            assert tin.test(tested["pea"]).state is TestState.DROPPED
            assert tin.dossier(codes["pea"]).left == 180  # 200 less 20 of the finished test


async def test_the_packet_and_its_test_lead_to_each_other(open_screen, tin_path: Path, tested):
    async with open_screen(tin_path, (80, 60)) as screen:
        await opened(screen, tested["bean"])
        await screen.press("v")
        assert "running" in screen.text and "3 days late" in screen.flat
        await screen.press("T")
        assert isinstance(screen.app.screen, GerminationPage)


async def test_undoing_the_start_leaves_the_page(open_screen, tin_path: Path, tested):
    async with open_screen(tin_path) as screen:
        await opened(screen, tested["pea"])
        await screen.press("u")
        assert not isinstance(screen.app.screen, GerminationPage)
        assert "There is no" in screen.text
