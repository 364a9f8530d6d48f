"""The line of tabs: which is open, how one comes to another, and what each of them keeps."""

from __future__ import annotations

from pathlib import Path

import pytest

from seedbox.tui.tabs import TABS
from seedbox.tui.tin_tab import TinTab
from seedbox.tui.virtual_list import VirtualList


def test_keys_and_names_are_each_used_once():
    assert len({each.key for each in TABS}) == len({each.name for each in TABS}) == len(TABS)
    assert [each.key for each in TABS] == [str(n + 1) for n in range(len(TABS))]


@pytest.mark.parametrize("size", [(80, 24), (120, 40), (60, 15)])
async def test_every_tab_opens_by_its_key_and_says_so(open_screen, tin_path: Path, size):
    async with open_screen(tin_path, size) as screen:
        assert isinstance(screen.app.screen, TinTab)
        for each in TABS:
            await screen.press(each.key)
            assert f"[{each.key} {each.name}" in screen.lines[0]
            assert all(other.name in screen.lines[0] for other in TABS)


async def test_the_open_tab_is_reversed_without_colours(open_screen, tin_path: Path, monkeypatch):
    monkeypatch.setenv("NO_COLOR", "1")
    async with open_screen(tin_path) as screen:
        (first, *_) = screen.app.screen._compositor.render_strips()
        reversed_text = "".join(s.text for s in first if s.style and s.style.reverse)
        assert reversed_text == "[2 Tin]"


async def test_each_tab_keeps_its_cursor_and_filter(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press("j", "j")
        assert screen.app.screen.query_one(VirtualList).cursor == 2
        await screen.press("1", "2")
        assert screen.app.screen.query_one(VirtualList).cursor == 2
        await screen.type("/zwerg")
        await screen.press("enter", "1", "2")
        assert "1 of 5 packets" in screen.text


async def test_another_tab_closes_the_pages_over_this_one(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press("enter", "h", "1")
        assert screen.app.screen.place == "Today"
        await screen.press("2")
        assert isinstance(screen.app.screen, TinTab)
        assert len(screen.app.screen_stack) == 1


async def test_a_change_made_elsewhere_is_seen_on_return(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press("x", "1", "u", "2")
        assert "P000 003E" in screen.text


async def test_digits_are_text_in_a_field(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.type("/1")
        assert screen.app.screen.query_one("#filter").value == "1"
        assert isinstance(screen.app.screen, TinTab)


async def test_the_palette_and_the_mouse_open_tabs(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.pilot.click("TabBar", offset=(3, 0))
        await screen.settle()
        assert "[1 Today" in screen.lines[0]
        await screen.press("ctrl+p")
        await screen.type("tin tab")
        await screen.press("enter")
        assert isinstance(screen.app.screen, TinTab)
