"""What holds on every page: themes, colourless terminals, faults of the file, help, palette."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest
from textual import events

from seedbox.tin.file import Tin
from seedbox.tui.actions import actions_of
from seedbox.tui.help_screen import HelpScreen
from seedbox.tui.tin_tab import TinTab


async def test_the_theme_is_remembered_in_the_tin(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        assert screen.app.theme == "dark"
        await screen.press("ctrl+t")
        assert screen.app.theme == "light"
    async with open_screen(tin_path) as screen:
        assert screen.app.theme == "light"
        await screen.press("u")
        assert screen.app.theme == "dark"


async def test_no_color_leaves_the_terminal_its_own(open_screen, tin_path: Path, monkeypatch):
    # https://no-color.org: a variable that is set and not empty asks for no colour.
    monkeypatch.setenv("NO_COLOR", "1")
    async with open_screen(tin_path) as screen:
        assert screen.app.theme == "plain"
        for strip in screen.app.screen._compositor.render_strips():
            for segment in strip:
                style = segment.style
                if style is None:
                    continue
                assert style.color is None or style.color.is_default, segment
                assert style.bgcolor is None or style.bgcolor.is_default, segment
        assert "sow" in screen.text or "test" in screen.text
        assert any(line.startswith(">") for line in screen.lines)


async def test_a_newer_file_is_refused_with_a_sentence(open_screen, tin_path: Path):
    with sqlite3.connect(tin_path) as file:
        file.execute("PRAGMA user_version = 9999")
    file.close()
    async with open_screen(tin_path) as screen:
        assert "newer Seedbox" in screen.text
        assert "untouched" in screen.text


async def test_a_file_that_is_no_tin(open_screen, tmp_path: Path):
    path = tmp_path / "holiday.jpg"
    path.write_bytes(b"\xff\xd8\xff" + bytes(2000))
    async with open_screen(path) as screen:
        assert "!" in screen.text
        await screen.press("a")
        await screen.press("u")
        assert screen.app.is_running
    assert path.read_bytes().startswith(b"\xff\xd8\xff")


@pytest.mark.parametrize("tab", ["1", "2", "3"])
async def test_every_tab_says_that_the_file_is_no_tin(open_screen, tmp_path: Path, tab: str):
    path = tmp_path / "photo.tin"
    path.write_bytes(b"\xff\xd8\xff" + bytes(2000))
    async with open_screen(path) as screen:
        await screen.press(tab)
        await screen.settle()
        assert f"[{tab} " in screen.lines[0]
        assert "photo.tin" in screen.text.replace("\n ", "") and "!" in screen.text


async def test_one_page_goes_from_packet_to_packet_and_leaves_with_the_last(
    open_screen, tin_path: Path, codes
):
    async with open_screen(tin_path) as screen:
        below = screen.app.screen
        screen.app.jump(codes["bean"])
        await screen.settle()
        page = screen.app.screen
        other = next(code for code in codes.values() if code != codes["bean"])
        page.show_code(other)
        await screen.settle()
        assert screen.app.screen is page and f"{other[:4]} {other[4:]}" in screen.lines[0]
        page.show_code("P1G1D22F")
        await screen.settle()
        assert screen.app.screen is below
        assert "There is no packet" in screen.text


async def test_a_locked_tin_says_so_and_keeps_the_form(open_screen, tin_path: Path, codes):
    async with open_screen(tin_path) as screen:
        screen.app.jump(codes["bean"])
        await screen.settle()
        holder = sqlite3.connect(tin_path, isolation_level=None)
        holder.execute("BEGIN IMMEDIATE")
        try:
            await screen.press("t")
            await screen.type("3")
            await screen.press("ctrl+s")
            problem = str(screen.app.screen.query_one("#form-problem").content)
            assert "in use by another program" in problem
        finally:
            holder.execute("ROLLBACK")
            holder.close()
        await screen.press("ctrl+s")
        assert "Took 3 seeds" in screen.text


async def test_nothing_to_undo_is_a_sentence(open_screen, tmp_path: Path):
    path = tmp_path / "new.tin"
    Tin.open(path, create=True).close()
    async with open_screen(path) as screen:
        await screen.press("u")
        assert "nothing to undo" in screen.text


async def test_help_names_every_action_of_the_screen(open_screen, tin_path: Path):
    async with open_screen(tin_path, (100, 90)) as screen:
        await screen.press("question_mark")
        assert isinstance(screen.app.screen, HelpScreen)
        told = " ".join(screen.text.split())
        for known in (*actions_of(TinTab), *screen.app.own_actions()):
            assert known.help in told
        await screen.press("escape")
        assert isinstance(screen.app.screen, TinTab)


async def test_the_palette_offers_our_actions_and_runs_them(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press("ctrl+p")
        await screen.type("show empty")
        await screen.pilot.pause(0.3)
        assert "Show empty packets" in screen.text
        await screen.press("enter")
        await screen.pilot.pause(0.3)
        await screen.settle()
        assert "P000 0068" in screen.text


async def test_turning_pages_in_an_empty_palette(open_screen, tin_path: Path):
    async with open_screen(tin_path, (60, 10)) as screen:
        await screen.press("ctrl+p", "pagedown")
        await screen.type("qqzzyy")
        await screen.press("pagedown", "pageup", "down", "escape")
        assert screen.app.is_running


async def test_the_palette_picks_an_order(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press("ctrl+p")
        await screen.type("sort by store")
        await screen.pilot.pause(0.3)
        await screen.press("enter")
        await screen.pilot.pause(0.3)
        await screen.settle()
        assert "by store" in screen.lines[1]


async def test_history_lists_changes_and_undoes(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press("h")
        assert "Sow 10 seeds from P000 0068" in screen.text
        await screen.press("u")
        assert "undone, U redoes it" in screen.text


@pytest.mark.parametrize("key", ["q", "ctrl+q"])
async def test_quitting(open_screen, tin_path: Path, key: str):
    async with open_screen(tin_path) as screen:
        await screen.pilot.press(key)
        await screen.pilot.pause()
        assert not screen.app.is_running or screen.app._exit


async def test_q_in_a_form_is_a_letter(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press("a")
        await screen.type("qu")
        assert screen.app.is_running
        assert screen.app.screen.values["crop"] == "qu"


async def test_the_footer_names_few_keys(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        assert 3 <= len(screen.app.screen.footer_actions()) <= 6
        assert screen.lines[-1].startswith(" Enter Open")


async def test_quitting_with_a_form_begun_warns_once(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press("a")
        await screen.type("carro")
        await screen.pilot.press("ctrl+q")
        await screen.settle()
        assert isinstance(screen.app.screen, TinTab)
        assert "not saved yet" in screen.text
        await screen.press("a")
        assert screen.app.screen.values["crop"] == "carro"
        await screen.press("escape")
        await screen.pilot.press("ctrl+q", "ctrl+q")
        await screen.pilot.pause()
        assert screen.app._exit


async def test_removing_and_bringing_back(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press("x")
        assert "Removed lettuce" in screen.text
        assert "P000 003E" not in "\n".join(screen.lines[3:10])
        await screen.press("u")
        assert "P000 003E" in "\n".join(screen.lines[3:10])


async def test_undoing_what_is_on_the_page_goes_back(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press("a")
        await screen.type("leek")
        await screen.press("ctrl+s")
        await screen.press("enter")
        assert "Allium" in screen.text
        await screen.press("u")
        assert isinstance(screen.app.screen, TinTab)
        assert "There is no packet" in screen.text


async def test_a_click_on_the_key_bar_acts(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        place = screen.lines[-1].index("Sort")
        await screen.pilot.click("#key-bar, KeyBar", offset=(place, 0))
        await screen.settle()
        assert "by year" in screen.text


async def test_a_folder_that_cannot_be_made_is_a_sentence(open_screen, tmp_path: Path):
    (tmp_path / "file").write_text("in the way")
    async with open_screen(tmp_path / "file" / "garden.tin") as screen:
        await screen.press("a")
        assert "could not be made" in " ".join(screen.text.split())
        await screen.press("m", "h", "S", "escape", "escape")
        assert screen.app.is_running


async def test_a_second_escape_does_no_harm(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        for opening in ("enter", "S", "h", "question_mark", "c", "a"):
            await screen.press(opening)
            for _ in range(3):
                screen.app.post_message(events.Key("escape", None))
            await screen.settle()
            assert isinstance(screen.app.screen, TinTab), opening
