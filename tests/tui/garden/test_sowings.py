"""Sowings on the screen: what is next, doing it, putting it off, sowing, codes."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual import events

from seedbox.tin.codes import shown
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import EventKind
from seedbox.tui.form import Form
from seedbox.tui.sow_form import SowForm, ask_to_sow
from seedbox.tui.sow_now_reading import look_through
from seedbox.tui.sowing_page import SowingPage
from seedbox.tui.sowings_tab import SowingsTab
from seedbox.tui.tabs import tab

BED = "[b]long[/b] bed"


def events_of(path: Path, code: str) -> list[tuple[EventKind, int | None]]:
    with Tin.open(path) as tin:
        return [(one.kind, one.count) for one in tin.sowing_events(tin.sowing(code).id)]


async def test_a_count_is_asked_for_and_the_next_job_is_told(
    open_screen, garden_path: Path, sowing_codes
):
    async with open_screen(garden_path) as screen:
        await screen.press("4")
        assert "count emergence" in screen.text and "late" in screen.text
        await screen.press("d", "ctrl+s")
        assert "0 is a count too" in screen.problems
        await screen.type("21")
        await screen.press("ctrl+s")
        assert "21 of 24 seeds came up. Next:" in " ".join(screen.text.split())
        assert events_of(garden_path, sowing_codes["pea"]) == [(EventKind.EMERGED, 21)]
        await screen.press("u")
        assert events_of(garden_path, sowing_codes["pea"]) == []


async def test_other_jobs_are_done_skipped_and_put_off_by_a_key(
    open_screen, garden_path: Path, sowing_codes
):
    code = sowing_codes["bean"]
    async with open_screen(garden_path) as screen:
        screen.app.jump(code)
        await screen.settle()
        await screen.press("d")
        done = events_of(garden_path, code)
        assert len(done) == 2 and not isinstance(screen.app.screen, Form)
        await screen.press("s")
        assert events_of(garden_path, code)[-1][0] is EventKind.SKIPPED
        await screen.press("o", "ctrl+s")
        assert events_of(garden_path, code)[-1][0] is EventKind.PUT_OFF
        assert "put off to" in " ".join(screen.text.split())
        await screen.press("u", "u", "u")
        assert len(events_of(garden_path, code)) == 1


async def test_a_sowing_that_is_over_leaves_the_list(open_screen, garden_path: Path, sowing_codes):
    async with open_screen(garden_path) as screen:
        await screen.press("4")
        assert shown(sowing_codes["bean"]) in screen.text
        screen.app.jump(sowing_codes["bean"])
        await screen.settle()
        await screen.press("E", "ctrl+s")
        assert events_of(garden_path, sowing_codes["bean"])[-1][0] is EventKind.ENDED
        await screen.press("escape")
        assert "1 over (a shows them)" in screen.text
        await screen.press("a")
        assert shown(sowing_codes["bean"]) in screen.text


async def test_codes_open_a_sowing_scanned_and_typed(open_screen, garden_path: Path, sowing_codes):
    async with open_screen(garden_path) as screen:
        for char in sowing_codes["bean"]:
            screen.app.post_message(events.Key(char, char))
        screen.app.post_message(events.Key("enter", "\r"))
        await screen.settle()
        assert isinstance(screen.app.screen, SowingPage)
        await screen.press("escape", "c")
        await screen.type(shown(sowing_codes["pea"]).lower())
        await screen.press("enter")
        assert screen.app.screen.code == sowing_codes["pea"]


async def test_sow_now_says_why_not_and_sows_all_the_same(open_screen, garden_path: Path):
    async with open_screen(garden_path) as screen:
        await screen.press("4")
        await screen.press("n", "w")
        assert "Why not now" in screen.text and "Enter sows it all the same" in screen.text
        await screen.press("enter")
        assert isinstance(screen.app.screen, SowForm)
        assert "Now is not the time" in screen.text
        await screen.press("escape", "escape")
        assert isinstance(screen.app.screen, SowingsTab)


def test_looking_through_the_tin_stops_when_nobody_waits(garden_path: Path, today):
    asked: list[bool] = []

    def stop() -> bool:
        asked.append(len(asked) >= 1)
        return asked[-1]

    with Tin.open(garden_path) as tin:
        assert look_through(tin, today, stop) is None
        assert asked == [False, True]
        whole = look_through(tin, today, lambda: False)
        assert whole is not None and len(whole.offers) + len(whole.left_out) == 4


async def test_cells_are_proposed_and_follow_the_plants(open_screen, garden_path: Path, codes):
    async with open_screen(garden_path) as screen:
        ask_to_sow(screen.app, codes["pea"], "kitchen sill", 12)
        await screen.settle()
        form = screen.app.screen
        before = form.values
        assert int(before["cells"]) * int(before["per_cell"]) >= int(before["plants"]) == 12
        await screen.press("backspace", "backspace")
        await screen.type("40")
        assert int(form.values["cells"]) >= 40 > int(before["cells"])
        await screen.press("ctrl+n")
        assert form.values == before
        await screen.press("backspace", "backspace")
        await screen.type("40")
        form.query_one("#field-place").focus()
        await screen.press("right")
        assert form.values["cells"] == "" and int(form.values["seeds"]) >= 40
        await screen.press("ctrl+s")
        assert "Sown S" in screen.text and BED in screen.text
        await screen.press("u")
    with Tin.open(garden_path) as tin:
        assert len(tin.sowings()) == 2


async def test_a_packet_that_holds_too_little_says_so_beside_the_plants(
    open_screen, garden_path: Path, codes
):
    async with open_screen(garden_path) as screen:
        ask_to_sow(screen.app, codes["bean"], "kitchen sill", 12)
        await screen.settle()
        for _ in range(3):
            await screen.press("backspace")
        await screen.type("500")
        await screen.press("ctrl+s")
        assert "for sure, not 500" in screen.problems
        await screen.press("tab", "tab", "backspace", "backspace", "backspace")
        await screen.type("9999")
        await screen.press("ctrl+s")
        assert isinstance(screen.app.screen, Form)
        assert "seeds left" in screen.text
    with Tin.open(garden_path) as tin:
        assert len(tin.sowings()) == 2


@pytest.mark.parametrize("key", ["n", "r"])
async def test_a_garden_without_frosts_and_places_says_what_to_set(
    open_screen, tin_path: Path, key: str
):
    async with open_screen(tin_path) as screen:
        await screen.press("4", key)
        said = " ".join(screen.text.split())
        opens = f"{tab('Garden').key} opens the Garden tab"
        if key == "n":
            assert f"{opens}. f there sets the frosts and the latitude." in said
            assert "a there adds a place" in said
        assert isinstance(screen.app.screen, SowingsTab) == (key == "r")
        assert opens in said


async def test_a_packet_is_sown_from_its_own_page(open_screen, garden_path: Path, codes):
    async with open_screen(garden_path) as screen:
        screen.app.jump(codes["pea"])
        await screen.settle()
        await screen.press("w", "ctrl+s")
        assert "Sown S" in screen.text
    with Tin.open(garden_path) as tin:
        assert len(tin.sowings()) == 3
