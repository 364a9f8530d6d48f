"""A proposal is looked for without blocking, shown with its reasons, kept, booked and undone."""

from __future__ import annotations

import asyncio
import json
import time
from pathlib import Path
from threading import Event

import pytest

from seedbox.errors import BadDataError
from seedbox.tin.file import Tin
from seedbox.tin.list_records import SwapWord
from seedbox.tin.records import MovementKind, Origin
from seedbox.tin.settings import set_settings
from seedbox.tin.swap_choices import set_swap_choice
from seedbox.tui.background import in_background
from seedbox.tui.swap_lists_page import SwapListsPage
from seedbox.tui.swap_proposal_page import SwapProposalPage


@pytest.fixture
def open_proposal(open_swap, read_lists):
    """From the Swap tab to the proposal among three lists, within a screen."""

    async def opened(screen, lists: Path) -> SwapProposalPage:
        await read_lists(screen, lists / "maud.csv", lists / "iestyn.csv")
        await screen.press("m")
        page = screen.app.screen
        assert isinstance(page, SwapProposalPage)
        return page

    return opened


async def test_mine_comes_first_with_worth_bound_and_every_reason(
    open_swap, open_proposal, swap_path: Path, lists: Path, monkeypatch: pytest.MonkeyPatch
):
    async with open_swap(swap_path, (120, 40)) as screen:
        await open_proposal(screen, lists)
        # Found by hand: all wants but one of Iestyn's peas can be met within one portion;
        # 2 x 5 kale, 1 x 3 tomato, 2 x 5 and 1 x 4 pea, 1 x 3 courgette.
        assert "You give 3 portions and get 3, worth 13 to you" in screen.flat
        assert "worth 30 of at most 30" in screen.flat
        lines = [line[2:].split()[0] for line in screen.lines if line[1:2] == "*"]
        assert lines[:2] == ["you", "you"] and sorted(lines[2:]) == ["Iestyn", "Maud"]
        assert "because" in screen.flat and "local law" in screen.text
        await screen.press("enter")
        assert "How good it is" in screen.text
        await screen.press("escape", "right", "j")
        assert "exchanges between two alone would be worth" in screen.flat
        monkeypatch.setattr("seedbox.season.swapping.matching.match", _refuse)
        await screen.press("escape", "m")  # the same lists are not matched again
        assert "worth 30 of at most 30" in screen.flat


async def test_a_proposal_is_kept_in_a_file(
    open_swap, open_proposal, swap_path: Path, lists: Path, tmp_path: Path
):
    async with open_swap(swap_path) as screen:
        await open_proposal(screen, lists)
        await screen.press("s")
        screen.app.screen.query_one("#field-file").value = str(tmp_path / "p.json")
        await screen.press("ctrl+s")
        assert "Kept in" in screen.text
    kept = json.loads((tmp_path / "p.json").read_text())
    assert kept["worth"] == 30 and kept["mine"] == 0
    with Tin.open(swap_path) as tin:  # meanwhile, the kale is to stay
        kale = next(one for one in tin.packets() if one.crop_id == "kale")
        set_swap_choice(tin, kale, SwapWord.KEEP)
    async with open_swap(swap_path) as screen:  # another day, no list read
        await screen.press("B")
        screen.app.screen.query_one("#field-file").value = str(tmp_path / "p.json")
        screen.app.screen.query_one("#field-name").value = "Nobody"
        await screen.press("ctrl+s")
        assert "Nobody in the proposal" in screen.flat
        screen.app.screen.query_one("#field-name").value = "Maud Hollis"  # as she would open it
        await screen.press("ctrl+s")
        assert "somebody" in screen.text
        assert "You give pea Quay Marrow to somebody unnamed" in screen.flat
        await screen.press("escape", "B")
        screen.app.screen.query_one("#field-file").value = str(tmp_path / "p.json")
        await screen.press("ctrl+s")
        assert "worth 30 of at most 30" in screen.flat and "Match again" not in screen.text
        await screen.press("B")
        asked = " ".join(screen.flat.replace("│", " ").split())
        assert "kale, [red]x[/]: Kept back, as you said." in asked  # before it is booked
        screen.app.screen.query_one("#field-sharing").value = ""
        await screen.press("ctrl+s")
        said = " ".join(_all_of(screen).split())
        assert "New packets" in said and "kale, [red]x[/]: Kept back, as you said." in said
        assert "--to-give" in said


async def test_a_gift_of_what_is_kept_says_what_it_takes_and_whose_name_is_missing(
    open_swap, open_proposal, swap_path: Path, lists: Path, tmp_path: Path
):
    """As `swap give` and `swap book` say it."""
    path, pdf = tmp_path / "p.json", tmp_path / "s.pdf"
    with Tin.open(swap_path) as tin:
        set_settings(tin, {"grower_name": "Wren Ash"}, "Name")
    async with open_swap(swap_path) as screen:
        await open_proposal(screen, lists)
        await screen.press("s")
        screen.app.screen.query_one("#field-file").value = str(path)
        await screen.press("ctrl+s")
    kept = json.loads(path.read_text())
    given = next(one for one in kept["transfers"] if one["offer"]["crop"] == "tomato")
    given["offer"]["seeds_per_portion"] = 400  # all of it, with one portion
    given["portions"] = 1
    given["offer"]["cautions"] = ["of another list"]
    path.write_text(json.dumps(kept))
    async with open_swap(swap_path) as screen:
        await screen.press("B")
        screen.app.screen.query_one("#field-file").value = str(path)
        await screen.press("ctrl+s")
        await screen.press("B")
        screen.app.screen.query_one("#field-sharing").value = str(pdf)
        await screen.press("ctrl+s")
        said = " ".join(_all_of(screen).split())
    assert "tomato, Copper Bell: this takes" in said and "that would be kept back." in said
    assert "grower_town" in said and "of another list" not in said


def _all_of(screen) -> str:
    """All the words of the page on top, also those below the edge of the screen."""
    return str(screen.app.screen.query_one("#swap-text-lines").render())


async def test_booking_is_one_change_and_labels_wait(
    open_swap, open_proposal, swap_path: Path, lists: Path, tmp_path: Path
):
    async with open_swap(swap_path) as screen:
        page = await open_proposal(screen, lists)
        await screen.press("B")
        assert "You give 3 portions and get 3" in screen.flat and "local law" in screen.flat
        screen.app.screen.query_one("#field-sharing").value = str(tmp_path / "no" / "s.pdf")
        await screen.press("ctrl+s")
        assert "There is no folder" in screen.flat
        screen.app.screen.query_one("#field-sharing").value = str(tmp_path / "s.txt")
        await screen.press("ctrl+s")
        assert "s.txt does not end in .pdf" in " ".join(screen.flat.replace("│", " ").split())
        screen.app.screen.query_one("#field-sharing").value = str(tmp_path / "s.pdf")
        await screen.press("ctrl+s")
        assert "Given" in screen.text and "New packets" in screen.text
        assert (tmp_path / "s.pdf").read_bytes().startswith(b"%PDF-")
        with Tin.open(swap_path) as tin:
            came = [one for one in tin.packets() if one.origin is Origin.SWAPPED]
            assert sorted(one.crop_id for one in came) == ["courgette", "pea_garden"]
            given = [one for one in tin.movements() if one.kind is MovementKind.GIVEN]
            assert len(given) == 2 and tin.wants() == []
            tests = [one for one in tin.tests() if one.reported_by == "Maud Hollis"]
            assert [(one.seeds, one.germinated) for one in tests] == [(20, 18)]
            waiting = {(one.code, one.design, one.copies) for one in tin.label_queue()}
            assert waiting == {(one.code, "", 1) for one in came}
            codes = [one.code for one in came]
        assert "seedbox fold packets.pdf" in screen.flat and codes[0][:4] in screen.text
        await screen.press("escape")
        assert screen.app.screen is page and "The tin has changed" in screen.flat
        await screen.press("B")
        screen.app.screen.query_one("#field-sharing").value = ""
        await screen.press("ctrl+s")
        assert "booked already" in screen.flat
        await screen.press("escape", "u")
        assert "The tin has changed" not in screen.flat
        with Tin.open(swap_path) as tin:
            assert len(tin.packets()) == 5 and len(tin.wants()) == 2 and tin.label_queue() == []
            assert not [one for one in tin.movements() if one.kind is MovementKind.GIVEN]


async def test_tolerance_is_changed_and_matched_again(
    open_swap, open_proposal, swap_path: Path, lists: Path
):
    async with open_swap(swap_path) as screen:
        await open_proposal(screen, lists)
        await screen.press("T", "backspace", "x", "ctrl+s")
        assert "It takes" in screen.problems
        await screen.press("backspace", "0", "tab", "g", "ctrl+s")
        await screen.settle()
        assert "differ by 0 at most" in screen.flat and "of at most 30" not in screen.flat
        with Tin.open(swap_path) as tin:
            assert (tin.settings().swap_tolerance, tin.settings().swap_law) == (0, "gb")


async def test_matching_is_stopped_by_a_key_and_never_blocks(
    open_swap, read_lists, swap_path: Path, lists: Path, monkeypatch: pytest.MonkeyPatch
):
    go_on = Event()

    def slow(*given: object, **named: object) -> None:
        go_on.wait(20)
        raise BadDataError("too late")

    monkeypatch.setattr("seedbox.season.swapping.matching.match", slow)
    async with open_swap(swap_path) as screen:
        await screen.press("m")
        assert "Read somebody's list first" in screen.flat
        await read_lists(screen, lists / "maud.csv")
        assert isinstance(screen.app.screen, SwapListsPage)
        await screen.pilot.press("m")
        await screen.pilot.pause()
        assert "Looking for the exchange among 2 lists" in screen.flat
        await screen.pilot.press("x")
        await screen.settle()
        assert "Stopped. m looks again." in screen.text
        go_on.set()
        await screen.press("escape")
        assert isinstance(screen.app.screen, SwapListsPage) and "too late" not in screen.text


async def test_a_fault_of_the_lists_is_a_sentence(
    open_swap, open_proposal, swap_path: Path, lists: Path, monkeypatch: pytest.MonkeyPatch
):
    def refuse(*given: object, **named: object) -> None:
        raise BadDataError("These lists will not do.", hint="Read others.")

    monkeypatch.setattr("seedbox.season.swapping.matching.match", refuse)
    async with open_swap(swap_path) as screen:
        await open_proposal(screen, lists)
        assert "These lists will not do. Read others." in screen.flat
        assert "No exchange is proposed." in screen.text


async def test_background_work_hands_over_answers_and_faults_and_may_be_left():
    assert await in_background(lambda: 6 * 7) == 42
    with pytest.raises(BadDataError):
        await in_background(_refuse)
    waiting = asyncio.ensure_future(in_background(lambda: time.sleep(0.2)))
    await asyncio.sleep(0.01)
    waiting.cancel()
    with pytest.raises(asyncio.CancelledError):
        await waiting
    await asyncio.sleep(0.25)  # the thread's answer comes to nobody


def _refuse(*given: object, **named: object) -> None:
    raise BadDataError("no")
