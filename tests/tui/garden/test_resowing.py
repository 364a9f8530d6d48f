"""Sowing again on the screen: what is missing is proposed, and a sowing that does well is told."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from seedbox.tin.file import Tin
from seedbox.tin.garden_records import EventKind
from seedbox.tin.sowing_events import record_event


async def test_a_sowing_that_does_well_says_that_this_is_one_more(
    open_screen, garden_path: Path, sowing_codes
):
    async with open_screen(garden_path, (120, 40)) as screen:
        screen.app.jump(sowing_codes["bean"])
        await screen.settle()
        await screen.press("r")
        said = " ".join(screen.text.replace("│", " ").split())
        assert "does well (20 of 24 came up, 12 plants of 12 wanted)" in said
        assert "this is one more sowing, for 12 plants." in said


async def test_what_came_up_too_thin_is_sown_for_what_is_missing(
    open_screen, garden_path: Path, sowing_codes, today: date
):
    with Tin.open(garden_path) as tin:
        sowing = tin.sowing(sowing_codes["bean"])
        record_event(tin, sowing, EventKind.FAILED, today, today=today)
    async with open_screen(garden_path, (120, 40)) as screen:
        screen.app.jump(sowing_codes["bean"])
        await screen.settle()
        await screen.press("r")
        assert "one more sowing" not in " ".join(screen.text.replace("│", " ").split())
