"""A stocktake on the screen: ticking by scanner and by hand, leaving, writing, undoing."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from textual import events

from seedbox.tin.file import Tin
from seedbox.tui.stocktake_page import StocktakePage
from seedbox.tui.stores_screen import StoresScreen
from seedbox.tui.tin_tab import TinTab

GOLDEN = Path(__file__).parent / "golden"
STRANGER = "P00000BZ"


def scan(screen, text: str) -> None:
    for char in (*text, "\r"):
        screen.app.post_message(events.Key("enter" if char == "\r" else char, char))


async def begin(screen, *codes: str) -> None:
    """A stocktake of the kitchen drawer, with these codes scanned."""
    await screen.press("C", "k", "ctrl+s")
    assert isinstance(screen.app.screen, StocktakePage), screen.text
    for code in codes:
        scan(screen, code)
        await screen.settle()


def drawer(path: Path) -> dict[str, float | None]:
    """What lies in the kitchen drawer, by code."""
    with Tin.open(path) as tin:
        found = {one.packet.code: one for one in tin.dossiers()}
    return {
        code: one.left
        for code, one in found.items()
        if one.store and one.store.name == "kitchen drawer"
    }


def changes(path: Path) -> int:
    with Tin.open(path) as tin:
        return len(tin.history())


async def test_each_code_is_told_what_it_is(open_screen, tin_path: Path, codes):
    before = changes(tin_path)
    async with open_screen(tin_path) as screen:
        await begin(screen)
        assert "0 of 3 found · 3 missing" in screen.text
        told = {
            codes["bean"]: "Found: P000 002G runner bean, Old Moat. 60 seeds by its journal",
            codes["bean"].lower(): "Ticked before. Found: P000 002G",
            codes[
                "lettuce"
            ]: "Wrong store: P000 003E lettuce, Früher Zwerg. By the tin: jar in the fridge.",
            codes["leek"]: "Empty by its journal: type how much is in it.",
            STRANGER: f"Stranger: {STRANGER[:4]} {STRANGER[4:]} is not in this tin.",
            "P00000BS": "check character does not match",
            "2001234567893": "is a shop's number",
        }
        for code, words in told.items():
            scan(screen, code)
            await screen.settle()
            assert words in screen.flat, code
        assert "2 of 4 found · 2 missing · 1 in the wrong store · 1 stranger" in screen.text
    assert changes(tin_path) == before


async def test_writing_is_one_change(open_screen, tin_path: Path, codes):
    before, number = drawer(tin_path), changes(tin_path)
    async with open_screen(tin_path) as screen:
        await begin(screen, codes["lettuce"], codes["bean"])
        await screen.type("55")
        await screen.press("enter")
        assert "Counted: P000 002G runner bean, Old Moat holds 55" in screen.flat
        await screen.press("ctrl+s", "down", "right", "ctrl+s")
        assert isinstance(screen.app.screen, TinTab)
        assert "1 packet moved here, 2 packets written off, 1 packet recounted" in screen.flat
        assert changes(tin_path) == number + 1
        after = drawer(tin_path)
        assert after[codes["lettuce"]] == 2.5
        assert after[codes["bean"]] == 55
        assert after[codes["pea"]] == after[codes["tomato"]] == 0
        await screen.press("u")
        assert drawer(tin_path) == before
        assert not screen.app.drafts


async def test_leaving_keeps_the_ticks_and_says_so(open_screen, tin_path: Path, codes):
    before = changes(tin_path)
    async with open_screen(tin_path) as screen:
        await begin(screen, codes["bean"])
        await screen.press("escape")
        assert "Nothing is written" in screen.text
        await screen.press("q")
        assert "would be lost" in screen.text
        await begin(screen)
        assert "1 of 3 found" in screen.text
        assert "here again" in screen.text
        await screen.press("tab", "1", "2")  # another tab, not by Esc
        await begin(screen, codes["pea"])
        assert "2 of 3 found" in screen.text
        await screen.press("tab", "x")
        assert "P000 005A is not ticked any more" in screen.flat
        assert "1 of 3 found" in screen.text
        await screen.press("ctrl+n")
        assert "0 of 3 found" in screen.text
        assert not screen.app.drafts
    assert changes(tin_path) == before


async def test_where_all_is_as_written_nothing_is_changed(open_screen, tin_path: Path, codes):
    before = changes(tin_path)
    async with open_screen(tin_path) as screen:
        await begin(screen, codes["bean"], codes["pea"], codes["tomato"])
        await screen.press("ctrl+s")
        assert "nothing was to be changed" in screen.flat
    assert changes(tin_path) == before


async def test_a_count_in_another_unit_is_refused(open_screen, tin_path: Path, codes):
    async with open_screen(tin_path) as screen:
        await begin(screen, codes["bean"])
        for typed, words in (("2.5g", "is kept in seeds"), ("many", "is no number")):
            await screen.type(typed)
            await screen.press("enter")
            assert words in screen.flat
        assert screen.app.screen.counted == {}


async def test_from_the_list_of_stores(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press("S", "C")
        assert isinstance(screen.app.screen, StocktakePage)
        await screen.press("escape")
        assert isinstance(screen.app.screen, StoresScreen)


async def test_without_a_store_it_says_what_to_do(open_screen, tmp_path: Path):
    with Tin.open(tmp_path / "new.tin", create=True):
        pass
    async with open_screen(tmp_path / "new.tin") as screen:
        await screen.press("C")
        assert "There is no store to take stock of" in screen.flat


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
async def test_it_looks_as_it_did(open_screen, tin_path: Path, codes, size):
    async with open_screen(tin_path, size) as screen:
        await begin(screen, codes["bean"], codes["leek"], STRANGER, codes["lettuce"])
        path = GOLDEN / f"stocktake_{size[0]}x{size[1]}.txt"
        if os.environ.get("SEEDBOX_GOLDEN") == "write":
            path.write_text(screen.text + "\n", encoding="utf-8")
        assert screen.text + "\n" == path.read_text(encoding="utf-8")
