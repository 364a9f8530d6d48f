"""The Tests tab: what runs by what is due, what is finished, what is worth a test; starting one."""

from __future__ import annotations

from pathlib import Path

import pytest

from seedbox.tin.file import Tin
from seedbox.tin.records import Substrate, TestState
from seedbox.tui.germination_page import GerminationPage


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_running_tests_by_what_is_due(open_screen, tin_path: Path, tested, size):
    async with open_screen(tin_path, size) as screen:
        await screen.press("3")
        assert "[Running 2] Finished 1" in screen.lines[1]
        bean, pea = screen.lines[3], screen.lines[4]
        assert "0 of 20" in bean and "first 3 d late" in bean and "16 Nov" in bean
        assert "0 of 10" in pea and "first tomorrow" in pea
        assert "Take out the normal seedlings" in screen.flat


async def test_counting_shows_when_one_comes_back(open_screen, tin_path: Path, tested):
    async with open_screen(tin_path) as screen:
        await screen.press("3")  # the list is read in a thread
        await screen.press("enter", "9", "down", "8", "escape")
        assert "17 of 20" in screen.text and "good" in screen.text
        assert "finish it" in screen.text
        await screen.press("u")
        assert "9 of 20" in screen.text


async def test_finished_tests_and_their_share(open_screen, tin_path: Path, tested):
    async with open_screen(tin_path) as screen:
        await screen.press("3", "v")
        assert "[Finished 1]" in screen.lines[1]
        # Wilson, 17 of 20: 64.0 to 94.8 % (statsmodels proportion_confint, method "wilson")
        assert "17 of 20" in screen.lines[3] and "85 % (64-95)" in screen.lines[3]
        await screen.press("enter")
        assert isinstance(screen.app.screen, GerminationPage)
        assert screen.app.screen.code == tested["finished"]


async def test_what_is_worth_testing_says_how_many_and_why(open_screen, tin_path: Path, tested):
    async with open_screen(tin_path) as screen:
        await screen.press("3", "left")
        assert "[Worth testing" in screen.lines[1]
        tomato = next(line for line in screen.lines if "P000 004C" in line)
        worth = " seeds " in tomato
        assert worth or "no test" in tomato
        assert worth == ("and costs" in screen.flat)
        assert "P000 002G" not in screen.text  # it is being tested
        assert worth or "would cost more" in screen.flat


async def test_a_test_is_started_from_the_plan_and_its_page_opens(
    open_screen, tin_path: Path, tested, codes
):
    async with open_screen(tin_path) as screen:
        await screen.press("3", "v", "v")
        assert "P000 004C" in screen.lines[3]
        await screen.press("N")
        form = screen.app.screen
        assert "By the almanac" in screen.flat
        form.query_one("#field-seeds").value = "12"
        form.query_one("#field-replicates").value = "3"
        form.query_one("#field-substrate").value = "sand"
        await screen.press("ctrl+s")
        assert isinstance(screen.app.screen, GerminationPage)
        assert "How it is done stands below" in screen.flat
        assert "never eaten" in screen.flat
        with Tin.open(tin_path) as tin:
            packet = tin.packet(codes["tomato"])
            (test,) = tin.tests(packet.id, state=TestState.RUNNING)
        assert (test.seeds, test.replicates, test.substrate) == (12, 3, Substrate.SAND)
        await screen.press("u")
        with Tin.open(tin_path) as tin:
            assert not tin.tests(packet.id, state=TestState.RUNNING)


async def test_dressed_seed_is_started_with_its_caution_and_weighed(
    open_screen, tin_path: Path, codes
):
    async with open_screen(tin_path) as screen:
        assert "lettuce" in screen.lines[3]
        await screen.press("N")
        assert "gloves" in screen.flat.lower()
        form = screen.app.screen
        seeds, grams = form.query_one("#field-seeds").value, form.query_one("#field-grams").value
        form.query_one("#field-seeds").value = "0"
        await screen.press("ctrl+s")
        assert "!" in screen.problems
        form.query_one("#field-seeds").value = seeds
        await screen.press("ctrl+s")
        with Tin.open(tin_path) as tin:
            left = tin.dossier(codes["lettuce"]).left
        assert left == pytest.approx(2.5 - float(grams))


async def test_nothing_runs_yet(open_screen, tin_path: Path):
    async with open_screen(tin_path) as screen:
        await screen.press("3")
        assert "No test is running" in screen.flat
        await screen.press("N")
        assert "[Worth testing" in screen.lines[1]
        assert "Choose a packet here" in screen.flat
