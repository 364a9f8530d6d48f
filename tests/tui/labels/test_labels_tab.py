"""The queue in its tab: what each key does to its labels, and that u takes it back."""

from __future__ import annotations

from pathlib import Path

import pytest

from seedbox.tin.file import Tin
from seedbox.tin.label_queue import queue_labels
from seedbox.tui.actions import actions_of
from seedbox.tui.labels_chooser import Chooser
from seedbox.tui.labels_look_page import LookPage
from seedbox.tui.labels_start_page import StartPage
from seedbox.tui.labels_tab import LabelsTab

pytestmark = pytest.mark.usefixtures("no_pictures")


async def test_an_empty_queue_says_what_to_do(open_screen, tmp_path: Path, labels_key):
    async with open_screen(tmp_path / "none.tin") as screen:
        await screen.press(labels_key)
        assert "No label waits to be printed." in screen.text
        assert "l on a packet, a sowing or a running test" in screen.flat
        for key in ("enter", "w", "a", "x", "d", "f"):
            await screen.press(key)
        assert isinstance(screen.app.screen, LabelsTab)


async def test_the_list_names_each_label_and_counts_slips_by_replicate(
    open_screen, queued_path: Path, labels_key, codes, tray, tested
):
    async with open_screen(queued_path) as screen:
        await screen.press(labels_key)
        assert "6 labels to print · 1 page of a4-24-64x34-gap" in screen.text
        rows = [line.split() for line in screen.lines]
        usual = {row[1] + row[2]: row for row in rows if len(row) > 6 and row[0] == ">"} | {
            row[0] + row[1]: row for row in rows if len(row) > 5
        }
        for code, design, labels in (
            (codes["bean"], "packet", "1"),
            (tray, "tray", "1"),
            (tested["bean"], "test", "2"),
        ):
            row = usual[code]
            assert (row[-3], row[-2], row[-1]) == (design, "1", labels)
        assert "[red]x[/]" in screen.text  # a name is text, never markup


async def test_copies_are_changed_by_keys_and_by_a_form(
    open_screen, queued_path: Path, labels_key, codes, waiting
):
    async with open_screen(queued_path) as screen:
        await screen.press(labels_key)
        await screen.press("plus", "plus")
        assert waiting()[0] == (codes["bean"], "", 3)
        await screen.press("minus", "j", "minus")
        assert "One copy is the least; x takes a label out" in screen.flat
        assert [copies for _, _, copies in waiting()] == [2, 1, 1, 1, 1]
        await screen.press("u", "u", "u")
        assert [copies for _, _, copies in waiting()] == [1, 1, 1, 1, 1]
        await screen.press("g", "space", "space", "plus")
        assert [copies for _, _, copies in waiting()] == [2, 2, 1, 1, 1]
        await screen.press("n", "backspace", "0", "ctrl+s")
        assert "1 to 1,000 copies" in screen.problems
        await screen.press("backspace", "1", "2", "ctrl+s")
        assert [copies for _, _, copies in waiting()] == [12, 12, 1, 1, 1]
        assert "28 labels to print · 2 pages" in screen.text
        await screen.press("u", "u")
        assert [copies for _, _, copies in waiting()] == [1, 1, 1, 1, 1]


async def test_labels_are_taken_out_and_brought_back(
    open_screen, queued_path: Path, labels_key, codes, waiting
):
    async with open_screen(queued_path) as screen:
        await screen.press(labels_key)
        before = waiting()
        await screen.press("j", "x")
        assert waiting() == [before[0], *before[2:]]
        assert "Took lettuce Früher Zwerg (P000 003E) out of the queue" in screen.flat
        await screen.press("asterisk", "x")
        assert waiting() == []
        assert "No label waits" in screen.text
        await screen.press("u", "u")
        assert waiting() == before
        await screen.press("X")
        assert waiting() == []
        await screen.press("u")
        assert waiting() == before
        assert "Labels 5" in screen.lines[0]


async def test_marks_are_shown_and_taken_away(open_screen, queued_path: Path, labels_key):
    async with open_screen(queued_path) as screen:
        await screen.press(labels_key)
        await screen.press("space")
        assert "1 marked" in screen.lines[1]
        await screen.press("asterisk")
        assert "5 marked" in screen.lines[1]
        await screen.press("asterisk")
        assert "marked" not in screen.lines[1]
        await screen.press("space", "escape")
        assert "marked" not in screen.lines[1]


async def test_another_design_for_one_or_several(
    open_screen, queued_path: Path, labels_key, waiting
):
    async with open_screen(queued_path) as screen:
        await screen.press(labels_key)
        await screen.press("d")
        assert isinstance(screen.app.screen, Chooser)
        await screen.type("jar")
        assert "Jar label" in screen.text
        await screen.press("enter")
        assert isinstance(screen.app.screen, LabelsTab)
        assert [design for _, design, _ in waiting()] == ["jar", "", "", "", ""]
        await screen.press("asterisk", "d", "escape")
        assert [design for _, design, _ in waiting()] == ["jar", "", "", "", ""]
        await screen.press("d")
        await screen.type("tray")
        await screen.press("enter")
        assert {design for _, design, _ in waiting()} == {"tray"}
        await screen.press("d")
        await screen.type("/no/such/mine.toml")
        await screen.press("enter")
        assert isinstance(screen.app.screen, Chooser)
        assert "mine.toml" in screen.flat.partition("!")[2]
        await screen.press("escape", "d")
        await screen.press("up", "up", "up", "up", "up", "up", "up", "enter")
        assert {design for _, design, _ in waiting()} == {""}
        await screen.press("u", "u")
        assert [design for _, design, _ in waiting()] == ["jar", "", "", "", ""]


async def test_a_change_by_another_program_is_seen(
    open_screen, queued_path: Path, labels_key, codes
):
    async with open_screen(queued_path) as screen:
        await screen.press(labels_key)
        with Tin.open(queued_path) as tin:
            queue_labels(tin, [codes["pea"]], copies=9)
        screen.app._look_for_changes()
        await screen.settle()
        assert "15 labels to print" in screen.text


@pytest.mark.parametrize("owner", [LabelsTab, Chooser, StartPage, LookPage])
def test_keys_mean_one_thing_and_actions_explain_themselves(owner: type):
    known = actions_of(owner)
    keys = [key for each in known for key in each.keys]
    assert len(keys) == len(set(keys))
    for each in known:
        assert each.label
        assert each.help.endswith(".")
        assert callable(getattr(owner, each.method))


async def test_help_names_every_key_of_the_tab(open_screen, queued_path: Path, labels_key):
    async with open_screen(queued_path, (100, 120)) as screen:
        await screen.press(labels_key)
        await screen.press("question_mark")
        for known in actions_of(LabelsTab):
            assert known.help.split(";")[0][:40] in screen.flat
