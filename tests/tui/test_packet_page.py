from __future__ import annotations

from pathlib import Path

import pytest

from seedbox.tin.file import Tin


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_the_page_tells_all(open_screen, tin_path: Path, codes, size):
    async with open_screen(tin_path, size) as screen:
        screen.app.jump(codes["pea"])
        await screen.settle()
        seen = screen.text
        for _ in range(20):
            await screen.pilot.press("j")
        await screen.settle()
        seen += screen.text
        for words in (
            "Advice", "Germination", "90 % interval", "Expected germination", "Left: 180 seeds",
            "200 seeds came in", "20 seeds taken for a test", "kitchen drawer (17 to 23 °C",
            "17 of 20 = 85%", "What the forecast rests on",
        ):  # fmt: skip
            assert words in seen


async def test_the_test_stands_on_the_curve(open_screen, tin_path: Path, codes):
    async with open_screen(tin_path, (120, 40)) as screen:
        screen.app.jump(codes["pea"])
        await screen.settle()
        plot = [line for line in screen.lines if "░" in line and "interval" not in line]
        assert any("o" in line[60:] for line in plot)
        assert "o test" in screen.text


async def test_treated_and_poisonous_seed_is_cautioned(open_screen, tin_path: Path, codes):
    async with open_screen(tin_path, (120, 40)) as screen:
        screen.app.jump(codes["lettuce"])
        await screen.settle()
        assert "not for eating" in screen.text
        screen.app.jump(codes["bean"])
        await screen.settle()
        assert "P000 002G" in screen.lines[0]
        assert "Cautions" in screen.text


async def test_take_recount_and_undo(open_screen, tin_path: Path, codes):
    async with open_screen(tin_path) as screen:
        screen.app.jump(codes["bean"])
        await screen.settle()
        await screen.press("t")
        await screen.type("12")
        await screen.press("ctrl+s")
        assert "Took 12 seeds" in screen.text
        with Tin.open(tin_path) as tin:
            assert tin.dossier(codes["bean"]).left == 48
        await screen.press("r")
        await screen.type("40")
        await screen.press("ctrl+s")
        assert "now holds 40 seeds" in screen.text
        await screen.press("u")
        assert "Undone: Recount" in screen.text
        await screen.press("u")
        assert "Undone: Sow 12 seeds" in screen.text
        with Tin.open(tin_path) as tin:
            assert tin.dossier(codes["bean"]).left == 60
        await screen.press("U")
        assert "Done again: Sow 12 seeds" in screen.text
        with Tin.open(tin_path) as tin:
            assert tin.dossier(codes["bean"]).left == 48


async def test_taking_more_than_there_is_stays_in_the_form(open_screen, tin_path: Path, codes):
    async with open_screen(tin_path) as screen:
        screen.app.jump(codes["bean"])
        await screen.settle()
        await screen.press("t")
        await screen.type("500")
        await screen.press("ctrl+s")
        assert "60 seeds left" in screen.text
        assert "500" in screen.text


async def test_a_finished_test_changes_the_forecast(open_screen, tin_path: Path, codes):
    async with open_screen(tin_path) as screen:
        screen.app.jump(codes["bean"])
        await screen.settle()
        before = screen.app.screen.line_here().forecast.mean
        await screen.press("n")
        await screen.type("20")
        await screen.press("enter")
        await screen.type("3")
        await screen.press("ctrl+s")
        after = screen.app.screen.line_here().forecast
        assert after.mean < before
        assert "3 of 20 germinated" in screen.text
        with Tin.open(tin_path) as tin:
            assert tin.dossier(codes["bean"]).left == 40


async def test_an_impossible_test_is_refused_beside_its_field(open_screen, tin_path, codes):
    async with open_screen(tin_path) as screen:
        screen.app.jump(codes["bean"])
        await screen.settle()
        await screen.press("n")
        await screen.type("10")
        await screen.press("enter")
        await screen.type("12")
        await screen.press("ctrl+s")
        assert "are more than" in screen.problems
        with Tin.open(tin_path) as tin:
            assert not tin.dossier(codes["bean"]).tests


async def test_a_test_of_somebody_else_takes_no_seed_and_says_whose(
    open_screen, tin_path: Path, codes
):
    async with open_screen(tin_path, (120, 40)) as screen:
        screen.app.jump(codes["bean"])
        await screen.settle()
        await screen.press("n")
        for text in ("20", "17", "", "", "", "Maud Orr"):
            await screen.type(text)
            await screen.press("tab")
        await screen.press("ctrl+s")
        assert "17 of 20 germinated" in screen.text
        with Tin.open(tin_path) as tin:
            dossier = tin.dossier(codes["bean"])
        assert (dossier.left, dossier.tests[0].reported_by) == (60, "Maud Orr")
        await screen.press("G")
        assert ", by Maud Orr" in screen.text
        screen.app.jump(dossier.tests[0].code)
        await screen.settle()
        assert "reported by Maud Orr" in screen.text
