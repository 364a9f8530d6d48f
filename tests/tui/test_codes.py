"""Codes from a scanner, from fingers and from the clipboard.

The wrong codes below differ from a right one in a way that ISO/IEC 7064 MOD 37-2 must catch.
"""

from __future__ import annotations

import asyncio
from pathlib import Path

from textual import events

from seedbox.tin.file import Tin
from seedbox.tui.germination_page import GerminationPage
from seedbox.tui.packet_page import PacketPage
from seedbox.tui.scanning import GAP_SECONDS
from seedbox.tui.tin_tab import TinTab


def scan(screen, text: str) -> None:
    """Keys as a scanner sends them: all within a few milliseconds, then Enter."""
    for char in text:
        screen.app.post_message(events.Key(char, char))
    screen.app.post_message(events.Key("enter", "\r"))


async def test_a_scan_on_the_list_opens_the_packet(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        for spelling in ("P000005A", "p000005a", "P000 005A", "p000-005a", "POOOOO5A"):
            scan(screen, spelling)
            await screen.settle()
            assert isinstance(screen.app.screen, PacketPage), spelling
            assert screen.app.screen.code == "P000005A"
            await screen.press("escape")


async def test_a_scanner_may_send_no_enter(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        for char in "P000005A":
            screen.app.post_message(events.Key(char, char))
        await screen.app.workers.wait_for_complete()
        await asyncio.sleep(3 * GAP_SECONDS)
        await screen.settle()
        assert isinstance(screen.app.screen, PacketPage)
        assert screen.app.screen.code == "P000005A"


async def test_a_misread_code_is_said(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        for wrong in ("P000006A", "P00005A0", "P000050A"):
            scan(screen, wrong)
            await screen.settle()
            assert isinstance(screen.app.screen, TinTab)
            assert wrong in screen.text
            assert "check character does not match" in screen.text.replace("\n", " ")


async def test_a_scan_while_filtering_leaves_the_filter_alone(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.type("/zw")
        scan(screen, "P000002G")
        await screen.settle()
        assert isinstance(screen.app.screen, PacketPage)
        await screen.press("escape")
        assert screen.app.screen.query_one("#filter").value == "zw"


async def test_a_scan_in_a_form_keeps_the_form(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press("a", "tab", "tab")
        await screen.type("Half")
        scan(screen, "P000002G")
        await screen.settle()
        assert isinstance(screen.app.screen, PacketPage)
        await screen.press("escape")
        assert screen.app.screen.values["variety"] == "Half"


async def test_slow_letters_keep_their_meaning(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press("s")
        assert "by year" in screen.text
        await screen.press("t")
        assert "Take from" in screen.text


async def test_typing_a_code_by_hand(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press("p")
        await screen.type("000 006a")
        await screen.press("enter")
        assert "check character does not match" in screen.text.replace("\n", " ")
        await screen.press("backspace", "backspace")
        await screen.type("5a")
        await screen.press("enter")
        assert isinstance(screen.app.screen, PacketPage)


async def test_a_code_of_a_test_opens_it_and_v_its_packet(open_screen, tin_path: Path, codes):
    with Tin.open(tin_path) as tin:
        test = tin.tests()[0]
    async with open_screen(tin_path) as screen:
        scan(screen, test.code)
        await screen.settle()
        assert isinstance(screen.app.screen, GerminationPage)
        assert "17 of 20 germinated" in screen.text
        await screen.press("v")
        assert isinstance(screen.app.screen, PacketPage)
        assert screen.app.screen.code == codes["pea"]
        scan(screen, test.code.lower())
        await screen.settle()
        assert isinstance(screen.app.screen, GerminationPage)


async def test_a_code_that_is_not_in_this_tin(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press("c")
        await screen.type("P000007 6")
        await screen.press("enter")
        assert "There is no packet" in screen.text


async def test_a_code_typed_into_the_filter(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.type("/p000 005a")
        await screen.press("enter")
        assert isinstance(screen.app.screen, PacketPage)


async def test_a_pasted_code(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        screen.app.post_message(events.Paste("P000 005A\n"))
        await screen.settle()
        assert isinstance(screen.app.screen, PacketPage)
