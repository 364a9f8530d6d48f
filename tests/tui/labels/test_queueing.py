"""From every list into the queue by one key."""

from __future__ import annotations

from pathlib import Path

from seedbox.tin.file import Tin
from seedbox.tin.label_queue import queue_labels


async def test_the_packet_under_the_cursor_and_its_page(
    open_screen, tin_path: Path, codes, waiting
):
    async with open_screen(tin_path) as screen:
        screen.app.jump(codes["pea"])
        await screen.settle()
        await screen.press("l")
        assert "Queued 1 label: the Labels tab prints it. u takes it back." in screen.flat
        await screen.press("escape", "l")
        assert "Labels 2" in screen.lines[0]
        assert waiting() == [(codes["pea"], "", 1), (codes["lettuce"], "", 1)]
        await screen.press("u")
        assert waiting() == [(codes["pea"], "", 1)]
        assert "Labels 1" in screen.lines[0]


async def test_marked_packets_and_all_that_a_filter_shows(
    open_screen, tin_path: Path, codes, waiting
):
    async with open_screen(tin_path) as screen:
        await screen.press("space", "space", "l")
        assert [code for code, _, _ in waiting()] == [codes["lettuce"], codes["pea"]]
        await screen.press("escape", "L")
        assert "Queued 2 labels (2 waited already)" in screen.flat
        assert {code for code, _, _ in waiting()} == {
            codes[crop] for crop in ("lettuce", "pea", "bean", "tomato")
        }
        await screen.press("L")
        assert "All of these labels wait in the Labels tab already." in screen.flat
        await screen.press("u", "u")
        await screen.type("/moat")
        await screen.press("enter", "L")
        assert [code for code, _, _ in waiting()] == [codes["bean"]]


async def test_a_tray_and_all_trays(open_screen, tin_path: Path, tray, waiting):
    async with open_screen(tin_path) as screen:
        await screen.press("4")
        await screen.press("l")
        assert waiting() == [(tray, "", 1)]
        await screen.press("u", "L")
        assert waiting() == [(tray, "", 1)]
        await screen.press("u", "enter", "l")
        assert waiting() == [(tray, "", 1)]


async def test_slips_of_running_tests_alone(open_screen, tin_path: Path, codes, tested, waiting):
    async with open_screen(tin_path) as screen:
        await screen.press("3")
        await screen.press("L")
        assert {code for code, _, _ in waiting()} == {tested["bean"], tested["pea"]}
        await screen.press("u", "enter", "l")
        assert [code for code, _, _ in waiting()] == [tested["bean"]]
        await screen.press("u", "escape", "v", "l", "L")
        assert waiting() == []
        screen.app.jump(tested["finished"])
        await screen.settle()
        await screen.press("l")
        assert waiting() == []


async def test_nothing_to_queue_is_no_fault(open_screen, tmp_path: Path):
    async with open_screen(tmp_path / "none.tin") as screen:
        await screen.press("l", "L", "4", "l", "L", "3", "l", "L")
        assert "Queued" not in screen.text
    assert not (tmp_path / "none.tin").exists()


async def test_the_label_in_another_design_may_wait_beside_it(
    open_screen, tin_path: Path, codes, waiting
):
    with Tin.open(tin_path) as tin:
        queue_labels(tin, [codes["lettuce"]], "jar", 3)
    async with open_screen(tin_path) as screen:
        assert "Labels 1" in screen.lines[0]
        await screen.press("l")
        assert waiting() == [(codes["lettuce"], "jar", 3), (codes["lettuce"], "", 1)]


async def test_the_palette_knows_it(open_screen, tin_path: Path, waiting):
    async with open_screen(tin_path) as screen:
        await screen.press("ctrl+p")
        await screen.type("label of each line")
        await screen.press("enter")
        assert len(waiting()) == 4
