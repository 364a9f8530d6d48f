from __future__ import annotations

from pathlib import Path

from seedbox.tin.file import Tin
from seedbox.tin.records import Origin, Treatment, Unit
from seedbox.tui.form import Form


async def test_a_packet_is_added_by_an_american_name(open_screen, tmp_path: Path):
    path = tmp_path / "new.tin"
    async with open_screen(path) as screen:
        await screen.press("a")
        await screen.type("eggp")
        assert "(aubergine)" in screen.text
        await screen.press("enter")
        await screen.press("down")
        await screen.type("Queen")
        await screen.press("enter")
        await screen.type("2025")
        await screen.press("ctrl+s")
        assert "Added aubergine Queen" in screen.text
        assert any(line.startswith(">") and "aubergine" in line for line in screen.lines)
    with Tin.open(path) as tin:
        packet = tin.packets()[0]
        assert (packet.crop_id, packet.variety, packet.harvest_year) == ("aubergine", "Queen", 2025)


async def test_a_mistake_loses_nothing(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press("a")
        await screen.type("zzz")
        await screen.press("tab", "tab")
        await screen.type("Kept")
        await screen.press("tab")
        await screen.type("1066")
        await screen.press("ctrl+s")
        assert "No crop is known as" in screen.problems
        assert "1066" in screen.text and "was expected" in screen.problems
        assert "Kept" in screen.text
        with Tin.open(tin_path) as tin:
            assert len(tin.packets()) == 5


async def test_escape_keeps_a_draft(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press("a")
        await screen.type("carr")
        await screen.press("enter", "tab")
        await screen.type("Half done")
        await screen.press("escape")
        assert "What you typed is kept" in screen.text
        await screen.press("a")
        assert "Half done" in screen.text
        assert "what you had typed before" in screen.text
        await screen.press("ctrl+n")
        assert "Half done" not in screen.text


async def test_an_unknown_crop_can_be_kept_as_ones_own(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press("a")
        await screen.type("moon weed")
        await screen.press("tab", "right", "ctrl+s")
        assert "Added moon weed" in screen.text
        await screen.press("u")
    with Tin.open(tin_path) as tin:
        assert not tin.own_crops()
        assert len(tin.packets()) == 5


async def test_a_name_of_several_crops_is_asked_back(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press("a")
        await screen.type("geranium")
        await screen.press("escape", "ctrl+s")
        assert isinstance(screen.app.screen, Form)
        assert "several" in screen.problems


async def test_changing_keeps_what_was_not_touched(open_screen, tin_path: Path, codes):
    async with open_screen(tin_path) as screen:
        with Tin.open(tin_path) as tin:
            before = tin.packet(codes["lettuce"])
        screen.app.jump(codes["lettuce"])
        await screen.settle()
        await screen.press("e", "ctrl+s")
        with Tin.open(tin_path) as tin:
            assert tin.packet(codes["lettuce"]) == before
        assert before.treatment is Treatment.DRESSED and before.unit is Unit.GRAMS


async def test_changing_a_choice(open_screen, tin_path: Path, codes):
    async with open_screen(tin_path) as screen:
        screen.app.jump(codes["pea"])
        await screen.settle()
        await screen.press("e")
        screen.app.screen.query_one("#field-origin").focus()
        await screen.press("g", "ctrl+s")
        with Tin.open(tin_path) as tin:
            assert tin.packet(codes["pea"]).origin is Origin.GIFT


async def test_a_store_is_added_and_put_right(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press("S", "a")
        await screen.type("loft")
        await screen.press("enter")
        await screen.type("4")
        await screen.press("enter")
        await screen.type("3")
        await screen.press("ctrl+s")
        assert "colder than the coolest" in screen.problems
        await screen.press("backspace")
        await screen.type("28")
        await screen.press("ctrl+s")
        assert "Added the store loft" in screen.text
        assert "4 to 28 °C" in screen.text
        await screen.press("u")
        assert "4 to 28 °C" not in screen.text
