"""Scanners of several speeds on every kind of screen, and fingers that must not be taken for one.

Time is told, not waited for: a busy machine changes nothing in what is asked.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from textual import events

from seedbox.season.trade_numbers import is_trade_number
from seedbox.tin.codes import ALPHABET, check_character
from seedbox.tin.drafts import PacketDraft
from seedbox.tin.file import Tin
from seedbox.tin.packets import add_packets
from seedbox.tui.germination_page import GerminationPage
from seedbox.tui.packet_page import PacketPage
from seedbox.tui.tin_tab import TinTab

EAN = "2001234567893"
"""A number of the range that GS1 leaves to each shop's own use, so nobody's product."""


def _all_actions(kind: str) -> str:
    """A right code whose letters would remove, add, sort and sow on the list."""
    bodies = (f"{kind}XAS{one}W{two}" for one in ALPHABET for two in "0123456789")
    return next(b + check_character(b) for b in bodies if check_character(b) in ALPHABET)


HARMFUL, NO_SOWING = _all_actions("P"), _all_actions("S")


@pytest.fixture
def full_tin(tin_path: Path, today) -> Path:
    with Tin.open(tin_path) as tin:
        add_packets(
            tin, [PacketDraft("leek", "Wild", code=HARMFUL), PacketDraft("leek", ean=EAN)],
            today=today,
        )  # fmt: skip
    return tin_path


async def send(screen, text: str, gap: float, *, enter: bool = True) -> None:
    """Keys `gap` seconds apart; the pauses that the reader asks for end in that same time."""
    scanner, start, pauses = screen.app._scanner, events.Key("a", "a").time, list[float]()
    scanner._wait = pauses.append
    keys = [events.Key(char, char) for char in text]
    for number, key in enumerate([*keys, *([events.Key("enter", "\r")] if enter else [])]):
        if pauses and pauses.pop() < gap and scanner.holding:
            await _end_of_pause(screen)
        key.time = start + number * gap
        screen.app.post_message(key)
        await screen.pilot.pause()
    if scanner.holding:
        await _end_of_pause(screen)
    del scanner._wait
    await screen.settle()


async def _end_of_pause(screen) -> None:
    screen.app.call_later(screen.app._scanner._settle)
    await screen.pilot.pause()


def changes(path: Path) -> int:
    with Tin.open(path) as tin:
        return len(tin.history())


@pytest.mark.parametrize("gap", [0.02, 0.06, 0.1])
async def test_no_letter_of_a_scan_acts_at_any_speed(open_screen, full_tin: Path, gap, tested):
    before = changes(full_tin)
    async with open_screen(full_tin) as screen:
        for code, page in (
            (HARMFUL.lower(), PacketPage),
            (tested["bean"], GerminationPage),
            (tested["bean"].lower(), GerminationPage),
        ):
            await send(screen, code, gap)
            assert isinstance(screen.app.screen, page), screen.text
            assert len(screen.app.screen_stack) == 2
            await screen.press("escape")
            assert isinstance(screen.app.screen, TinTab)
        await send(screen, NO_SOWING, gap)
        assert isinstance(screen.app.screen, TinTab)
        assert "There is no sowing" in screen.flat
    assert changes(full_tin) == before


@pytest.mark.parametrize("gap", [0.02, 0.1])
async def test_a_scan_without_enter(open_screen, full_tin: Path, gap):
    async with open_screen(full_tin) as screen:
        await send(screen, HARMFUL, gap, enter=False)
        assert isinstance(screen.app.screen, PacketPage)


async def test_a_slow_scan_into_a_form_leaves_its_text_and_its_page(open_screen, full_tin, tested):
    before = changes(full_tin)
    async with open_screen(full_tin) as screen:
        await screen.press("a", "tab", "tab")
        await screen.type("Half")
        await send(screen, tested["bean"], 0.1)
        assert isinstance(screen.app.screen, GerminationPage)
        await screen.press("escape")
        assert screen.app.screen.values["variety"] == "Half"
    assert changes(full_tin) == before


async def test_fingers_on_letters_of_codes_keep_their_meaning(open_screen, full_tin: Path):
    async with open_screen(full_tin) as screen:
        await send(screen, "st", 0.2, enter=False)
        assert "Take from" in screen.text
        await screen.press("escape", "s")
        assert "by advice" in screen.text or "by germination" in screen.text


async def test_quick_fingers_lose_no_key(open_screen, full_tin: Path):
    async with open_screen(full_tin) as screen:
        await send(screen, "sss", 0.08, enter=False)
        assert "by advice" in screen.text


@pytest.mark.parametrize("gap", [0.0, 0.06])
async def test_a_shops_number_seen_before_proposes_its_packet(open_screen, full_tin: Path, gap):
    assert is_trade_number(EAN)
    async with open_screen(full_tin) as screen:
        await send(screen, EAN, gap)
        assert isinstance(screen.app.screen, PacketPage)
        assert "not which packet you hold" in screen.flat
        await screen.press("escape")
        await send(screen, EAN[:-1] + "0", gap)
        assert isinstance(screen.app.screen, TinTab)
        assert "its check digit does not match" in screen.flat
        await screen.press("c")
        await screen.type("2009999999997")
        await screen.press("enter")
        assert "No packet of this tin came with" in screen.flat


async def test_a_shops_number_stays_in_the_field_it_is_scanned_into(open_screen, full_tin: Path):
    async with open_screen(full_tin) as screen:
        await screen.press("c")
        await send(screen, EAN, 0.0, enter=False)
        assert screen.app.screen.query_one("#code").value == EAN


async def test_a_shops_number_scanned_into_the_filter_proposes_its_packet(open_screen, full_tin):
    async with open_screen(full_tin) as screen:
        await screen.press("slash")
        await send(screen, EAN, 0.0)
        assert isinstance(screen.app.screen, PacketPage)
        await screen.press("escape")
        assert screen.app.screen.query_one("#filter").value == ""


async def test_a_scan_into_the_field_for_codes_is_answered_there(open_screen, full_tin: Path):
    async with open_screen(full_tin) as screen:
        await screen.press("c")
        await screen.type("stray ")
        await send(screen, NO_SOWING, 0.0)
        assert "There is no sowing" in screen.flat
        assert screen.app.screen.query_one("#code").value == NO_SOWING
        await screen.pilot.press(*["backspace"] * 8)
        await send(screen, HARMFUL, 0.02)
        assert isinstance(screen.app.screen, PacketPage)
        assert len(screen.app.screen_stack) == 2


@pytest.mark.parametrize("gap", [0.02, 0.06, 0.1])
async def test_a_scan_right_behind_the_key_of_a_tab(open_screen, full_tin: Path, gap, tested):
    before = changes(full_tin)
    async with open_screen(full_tin) as screen:
        await send(screen, f"3{tested['bean']}", gap)
        assert isinstance(screen.app.screen, GerminationPage), screen.text
        await screen.press("escape")
        assert "[3 Tests" in screen.lines[0]
    assert changes(full_tin) == before
