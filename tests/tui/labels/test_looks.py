"""Pictures on the screen: one label, hostile words, every size of window, a code without room."""

from __future__ import annotations

from pathlib import Path

import pytest

from seedbox.tin.codes import shown
from seedbox.tin.file import Tin
from seedbox.tin.packets import edit_packet
from seedbox.tui.labels_look_page import LookPage
from seedbox.tui.packet_page import PacketPage


async def test_one_look_at_each_label(open_screen, queued_path: Path, labels_key, codes):
    async with open_screen(queued_path) as screen:
        await screen.press(labels_key)
        await screen.press("enter")
        assert isinstance(screen.app.screen, LookPage)
        assert f"1 of 5: runner bean Old Moat, {shown(codes['bean'])}, design packet" in screen.flat
        await screen.press("right")
        assert "2 of 5: lettuce Früher Zwerg" in screen.flat
        await screen.press("left", "left")
        assert "5 of 5: runner bean Old Moat" in screen.flat
        assert "2 labels" in screen.flat
        await screen.press("escape", "v")
        assert isinstance(screen.app.screen, PacketPage)


async def test_hostile_text_is_only_text(open_screen, queued_path: Path, labels_key, codes, today):
    with Tin.open(queued_path) as tin:
        hostile = "[bold]B\x1b[31m\u202eevil[/] " + "long " * 30
        edit_packet(tin, codes["bean"], today=today, variety=hostile[:100])
    async with open_screen(queued_path) as screen:
        await screen.press(labels_key)
        assert "[bold]B" in screen.text
        assert "\x1b" not in screen.text
        assert "\u202e" not in screen.text
        await screen.press("enter")
        assert "[bold]B" in screen.text


@pytest.mark.parametrize("size", [(60, 15), (70, 20), (109, 30)])
async def test_every_size_shows_the_queue_and_the_facts(
    open_screen, queued_path: Path, labels_key, size
):
    async with open_screen(queued_path, size) as screen:
        await screen.press(labels_key)
        assert "P000 002G" in screen.text
        assert "label 1 of 24" in screen.flat
        assert all(len(line) <= size[0] for line in screen.lines)
        has_picture = "╭" in screen.text
        assert has_picture == (size[1] >= 20)
        await screen.pilot.resize_terminal(120, 40)
        await screen.settle()
        assert "will be printed" in screen.text  # there is room for the sheet now
        await screen.pilot.resize_terminal(80, 24)
        await screen.settle()
        assert "╭" in screen.text
        assert "will be printed" not in screen.text


async def test_a_sheet_too_small_for_the_code_says_so(open_screen, queued_path, labels_key):
    async with open_screen(queued_path) as screen:
        await screen.press(labels_key)
        await screen.press("r", "s")
        await screen.type("189")
        assert "no room" in screen.text
        assert "Too small for the code of the design packet" in screen.flat
        await screen.press("enter")
        assert "! " in screen.text
        assert "fit" in screen.flat
        await screen.press("w", "ctrl+s")
        assert "fit" in screen.flat
        assert "nothing here" not in screen.text
