from __future__ import annotations

import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from seedbox.tin.file import Tin
from seedbox.tui.tin_tab import TinTab
from seedbox.tui.virtual_list import VirtualList

SIZES = [(80, 24), (120, 40)]


@pytest.mark.parametrize("size", SIZES)
async def test_the_tin_is_listed_with_forecast_and_advice(open_screen, tin_path: Path, size):
    async with open_screen(tin_path, size) as screen:
        pea = next(line for line in screen.lines if "P000 005A" in line)
        assert "2025" in pea and "%" in pea and "(" in pea
        assert "…" not in pea
        assert any(word in pea for word in ("sow", "test", "use up", "spent"))


async def test_empty_packets_are_hidden_until_asked_for(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        assert "P000 0068" not in screen.text
        assert "1 empty hidden" in screen.text
        await screen.press("z")
        assert "P000 0068" in screen.text
        assert "none" in screen.text


FILTERS = {
    "fruher": ["P000 003E"],
    "zwerg moorhen": ["P000 003E"],
    "P000 002G": ["P000 002G"],
    "白": ["P000 005A"],
    "love apple": ["P000 004C"],
    "lycopersicum": ["P000 004C"],
    "love potato": [],
}


async def test_filter_as_you_type(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        tab = screen.app.screen
        assert isinstance(tab, TinTab)
        for typed, left in FILTERS.items():
            await screen.type("/" + typed)
            assert [line.code for line in tab.catalogue.shown] == left, typed
            assert ("No packet fits this filter" in screen.text) is (not left)
            await screen.press("escape")


async def test_filter_knows_advice_and_store(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        tab = screen.app.screen
        await screen.type("/fridge")
        assert [line.store for line in tab.catalogue.shown] == ["jar in the fridge"]
        await screen.press("escape")
        advice = tab.catalogue.shown[0].advice
        await screen.type("/" + advice)
        assert tab.catalogue.shown
        assert all(advice in f"{line.search} {line.advice}" for line in tab.catalogue.shown)


async def test_escape_shows_all_again(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.type("/zwerg")
        await screen.press("escape")
        assert len(screen.app.screen.catalogue.shown) == 4
        assert screen.app.focused is screen.app.screen.query_one(VirtualList)


async def test_sort_is_said_in_words(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        assert "by crop" in screen.text
        await screen.press("s")
        assert "by year" in screen.text
        years = [line.packet.harvest_year or 2021 for line in screen.app.screen.catalogue.shown]
        assert years == sorted(years)
        await screen.press("s")
        assert "by germination" in screen.text
        means = [line.forecast.mean for line in screen.app.screen.catalogue.shown]
        assert means == sorted(means)


async def test_letters_move_the_cursor(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        packets = screen.app.screen.query_one(VirtualList)
        await screen.press("j", "j")
        assert packets.cursor == 2
        await screen.press("k")
        assert packets.cursor == 1
        await screen.press("G")
        assert packets.cursor == 3
        await screen.press("g")
        assert packets.cursor == 0


async def test_marked_packets_move_together(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press("space", "space")
        assert "2 marked" in screen.text
        await screen.press("m")
        assert "Move 2 packets" in screen.text
        # The first store of the choice is the jar.
        await screen.press("ctrl+s")
        assert "Moved" in screen.text
        with Tin.open(tin_path) as tin:
            here = [d.store.name for d in tin.dossiers() if d.store]
            assert here.count("jar in the fridge") >= 2
            assert tin.history(1)[0].label == "Move 2 packets to jar in the fridge"


async def test_names_are_never_markup(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        assert "[red]x[/]" in screen.text
        await screen.type("/red")
        await screen.press("enter", "enter")
        assert "[red]x[/]" in screen.text
        for _ in range(12):
            await screen.press("j")
        assert "[@click=app.quit]press[/]" in screen.text
        await screen.pilot.click("#packet", offset=(20, 10))
        assert screen.app.is_running


async def test_more_width_shows_store_and_date(open_screen, tin_path: Path):
    async with open_screen(tin_path, (120, 40)) as screen:
        assert "Store" in screen.lines[2] and "Good until" in screen.lines[2]
        assert "jar in the fridge" in screen.text


async def test_below_the_floor_it_says_so(open_screen, tin_path: Path):
    async with open_screen(tin_path, (50, 12)) as screen:
        assert "50 by 12" in screen.text
        assert "P000" not in screen.text
        await screen.pilot.resize_terminal(80, 24)
        await screen.settle()
        assert "P000 005A" in screen.text


async def test_an_empty_tin_says_what_to_do(open_screen, tmp_path: Path):
    async with open_screen(tmp_path / "new.tin") as screen:
        assert "add your first packet" in screen.text
        assert "seedbox import" in screen.text
        assert not (tmp_path / "new.tin").exists()


async def test_another_program_changed_the_tin(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        from seedbox.tin.packets import remove_packet

        with Tin.open(tin_path) as tin:
            remove_packet(tin, "P000005A")
        screen.app._look_for_changes()
        await screen.settle()
        assert "P000 005A" not in screen.text
        assert "Another program changed the tin" in screen.text


async def test_ten_thousand_rows_draw_only_what_is_seen(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        packets = screen.app.screen.query_one(VirtualList)
        rows = [
            (f"{i}", "crop", "variety", "2020", "1", "-", "-", "", "", "") for i in range(10_000)
        ]
        packets.show_rows(rows, 9_999, lambda index: False)
        await screen.settle()
        assert any(line.startswith("> 9999") for line in screen.lines)
        assert len(packets._strips) < 200


async def test_two_programs_on_one_tin_lose_nothing(open_screen, tin_path: Path, codes):
    """What the screens write stays, though another process opens and closes the tin meanwhile.

    SQLite keeps its locks by process; see https://www.sqlite.org/howtocorrupt.html, 2.2.
    """
    look = (
        "import sys; from pathlib import Path; from seedbox.tin.file import Tin;"
        "tin = Tin.open(Path(sys.argv[1])); print(tin.dossier(sys.argv[2]).left); tin.close()"
    )

    def left_elsewhere() -> str:
        told = [sys.executable, "-c", look, str(tin_path), codes["bean"]]
        return subprocess.run(told, capture_output=True, text=True, check=True).stdout.strip()

    async with open_screen(tin_path) as screen:
        assert left_elsewhere() == "60.0"
        screen.app.jump(codes["bean"])
        await screen.settle()
        await screen.press("t")
        await screen.type("7")
        await screen.press("ctrl+s")
        assert left_elsewhere() == "53.0"
        await screen.press("u")
        assert left_elsewhere() == "60.0"


async def test_a_tin_that_was_put_back_from_a_copy_is_read_again(open_screen, tin_path: Path):
    copy = tin_path.with_name("copy.tin")
    with Tin.open(tin_path) as tin, sqlite3.connect(copy) as target:
        tin.database.connection.backup(target)
    target.close()
    async with open_screen(tin_path) as screen:
        await screen.press("space", "m", "ctrl+s")
        copy.replace(tin_path)
        screen.app._look_for_changes()
        await screen.settle()
        assert len(screen.app.screen.catalogue) == 5
        assert screen.app.desk.tin().history(1)[0].label.startswith("Sow 10 seeds")
