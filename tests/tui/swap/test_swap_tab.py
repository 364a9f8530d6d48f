"""The Swap tab: what is spare and wanted, said in full, chosen by keys, each taken back by u."""

from __future__ import annotations

from pathlib import Path

from seedbox.tin.file import Tin
from seedbox.tin.list_records import SwapWord
from seedbox.tui.form import Form
from seedbox.tui.swap_tab import SwapTab
from seedbox.tui.swap_text_page import SwapTextPage


def choices(path: Path) -> list[tuple[SwapWord, int | None]]:
    with Tin.open(path) as tin:
        return [(one.choice, one.portions) for one in tin.swap_choices()]


def wants(path: Path) -> list[tuple[str, str, int, int]]:
    with Tin.open(path) as tin:
        return [(one.crop_id, one.variety, one.portions, one.worth) for one in tin.wants()]


def row(screen, word: str) -> str:
    return next(line for line in screen.lines if line[2:].startswith(word))


async def test_what_can_be_given_comes_first_and_is_told_in_full(open_swap, swap_path: Path):
    async with open_swap(swap_path) as screen:
        tab = screen.app.screen
        assert isinstance(tab, SwapTab)
        assert [one.line.crop for one in tab.found] == ["kale", "lettuce", "tomato", "leek", "pea"]
        assert "1 held back" in screen.text and "check your own local law" in screen.text
        assert "[red]x[/]" in row(screen, "kale") and "untested" in row(screen, "kale")
        assert "Feb 2026" in row(screen, "tomato") and "offered: poiso" in row(screen, "tomato")
        assert "0 of" in row(screen, "lettuce") and "held: treated" in row(screen, "lettuce")
        assert "spent" in row(screen, "leek")
        await screen.press("j", "j")
        assert "19 of 20" in screen.flat and "kept back" in screen.flat
        await screen.press("enter")
        assert isinstance(screen.app.screen, SwapTextPage)
        assert "What to say with it" in screen.text and "no legal advice" in screen.flat
        await screen.press("v")
        assert "Moorhen Seeds" in screen.text


async def test_offer_keep_and_forget_are_a_key_each_and_undone(open_swap, swap_path: Path):
    async with open_swap(swap_path) as screen:
        await screen.press("j", "o")
        assert choices(swap_path) == [(SwapWord.OFFER, None)]
        assert "offered: treated" in row(screen, "lettuce")
        assert "not for eating" in screen.flat and "local law" in screen.flat
        await screen.press("o")
        assert choices(swap_path) == [] and "held: treated" in row(screen, "lettuce")
        await screen.press("K")
        assert choices(swap_path) == [(SwapWord.KEEP, None)]
        assert "kept back: your" in row(screen, "lettuce")
        await screen.press("f")
        assert choices(swap_path) == []
        await screen.press("u", "u", "u")
        assert choices(swap_path) == [(SwapWord.OFFER, None)]
        await screen.press("u", "G", "o")
        assert "Nothing of it is spare" in screen.flat and choices(swap_path) == []


async def test_portions_are_limited_by_a_form(open_swap, swap_path: Path):
    async with open_swap(swap_path) as screen:
        could = screen.app.screen.found[0].could_give
        await screen.press("n")
        await screen.type("0")
        await screen.press("ctrl+s")
        assert f"1 to {could} can be given" in " ".join(screen.problems.split())
        await screen.press(*["backspace"] * 4, "2", "ctrl+s")
        assert choices(swap_path) == [(SwapWord.OFFER, 2)]
        assert f"2 of {could}" in row(screen, "kale")
        assert "at most 2 by your word" in screen.flat
        await screen.press("u")
        assert choices(swap_path) == []


async def test_a_want_is_added_changed_and_struck_out(open_swap, swap_path: Path):
    before = wants(swap_path)
    async with open_swap(swap_path) as screen:
        await screen.press("right")
        assert "worth" not in screen.problems and "You want 2 portions of pea" in screen.flat
        await screen.press("a")
        await screen.type("eggp")
        await screen.press("enter", "tab", "backspace", "x", "ctrl+s")
        assert "whole number" in screen.problems
        await screen.press("backspace", "3", "tab", "5", "ctrl+s")
        assert ("aubergine", "", 3, 5) in wants(swap_path)
        assert "[Wants: 6 portions of 3 kinds]" in screen.text and "> pea" in screen.text
        await screen.press("g", "enter", "tab", "tab", "backspace", "4", "ctrl+s")
        assert ("aubergine", "", 4, 5) in wants(swap_path)
        await screen.press("x")
        assert wants(swap_path) == before
        await screen.press("a")
        await screen.type("pea")
        await screen.press("escape", "ctrl+s")
        assert "wanted already" in screen.problems
        await screen.press("escape", "u", "u", "u")
        assert wants(swap_path) == before


async def test_what_the_plans_miss_is_taken_into_the_wants(open_swap, garden_swap_path: Path):
    before = wants(garden_swap_path)
    async with open_swap(garden_swap_path) as screen:
        await screen.press("t")
        assert "1 want added, 1 raised" in screen.flat
        after = wants(garden_swap_path)
        assert ("courgette", "", 1, 5) in after and len(after) == len(before) + 1
        await screen.press("t")
        assert "wanted already" in screen.flat and wants(garden_swap_path) == after
        await screen.press("u")
        assert wants(garden_swap_path) == before


async def test_a_garden_not_described_and_an_empty_tin_say_what_to_do(
    open_swap, swap_path: Path, tmp_path: Path
):
    async with open_swap(swap_path) as screen:
        await screen.press("t")
        assert "opens the Garden tab" in screen.flat
    async with open_swap(tmp_path / "none.tin") as screen:
        assert "This tin is empty" in screen.flat and "check your own local law" in screen.flat
        await screen.press("m")
        assert "Read somebody's list first" in screen.flat
        await screen.press("w")
        assert not isinstance(screen.app.screen, Form)
        await screen.press("right")
        assert "a adds a want" in screen.flat


async def test_lists_lie_side_by_side_where_there_is_room(open_swap, swap_path: Path):
    async with open_swap(swap_path, (80, 24)) as screen:
        assert sum("[Spare" in line and "Wants" in line for line in screen.lines) == 0
        await screen.pilot.resize_terminal(120, 40)
        await screen.settle()
        assert sum("[Spare" in line and "Wants" in line for line in screen.lines) == 1
        await screen.pilot.resize_terminal(60, 15)
        await screen.settle()
        assert "local law" in screen.text and "kale" in screen.text


async def test_every_action_has_its_help_and_stands_in_the_palette(open_swap, swap_path: Path):
    async with open_swap(swap_path) as screen:
        tab = screen.app.screen
        spare = {known.name for known in tab.possible_actions()}
        await screen.press("right")
        both = spare | {known.name for known in tab.possible_actions()}
        own = {known.name for known in tab.own_actions()}
        assert own <= both
        assert all(known.help.endswith(".") and known.keys for known in tab.own_actions())
        await screen.press("question_mark")
        assert "On this screen: Swap" in screen.text


async def test_keys_for_a_line_do_nothing_without_one(open_swap, tmp_path: Path):
    async with open_swap(tmp_path / "none.tin") as screen:
        await screen.pilot.press("o", "K", "n", "f", "v", "e", "x", "enter")
        await screen.settle()
        assert isinstance(screen.app.screen, SwapTab)
