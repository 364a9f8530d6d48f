"""From the queue to paper: sheet, first free label, the file and its proof, and what follows."""

from __future__ import annotations

import threading
from pathlib import Path

import pypdfium2
import pytest
import zxingcpp

from seedbox.errors import BadDataError, SeedboxError, UsageError
from seedbox.tin.file import Tin
from seedbox.tin.settings import set_settings
from seedbox.tui.form import Form
from seedbox.tui.labels_start_page import StartPage
from seedbox.tui.labels_tab import LabelsTab

pytestmark = pytest.mark.usefixtures("no_pictures")


def settings(path: Path) -> tuple[str, int]:
    with Tin.open(path) as tin:
        found = tin.settings()
        return found.label_sheet, found.label_start


def codes_on(path: Path) -> list[str]:
    """What an independent reader finds on the pages, sorted."""
    with pypdfium2.PdfDocument(path) as document:
        images = [page.render(scale=300 / 72, grayscale=True).to_pil() for page in document]
    return sorted(one.text for image in images for one in zxingcpp.read_barcodes(image))


async def test_another_sheet_is_a_fresh_one(open_screen, queued_path: Path, labels_key, facts):
    with Tin.open(queued_path) as tin:
        set_settings(tin, {"label_start": "7"})
    async with open_screen(queued_path) as screen:
        await screen.press(labels_key)
        assert "label 7 of 24" in facts(screen)
        await screen.press("s")
        await screen.type("65 butt")
        assert "1 of" in screen.lines[1]
        await screen.press("enter")
        assert "65 labels of 38.1 x 21.2 mm" in facts(screen)
        assert settings(queued_path) == ("a4-65-38x21-butt", 1)
        await screen.press("u")
        assert settings(queued_path) == ("", 7)
        assert "label 7 of 24" in facts(screen)
        await screen.press("s", "enter")  # the one in use keeps its place
        assert settings(queued_path) == ("", 7)


async def test_the_first_free_label_is_chosen_on_the_drawn_sheet(
    open_screen, queued_path: Path, labels_key, facts
):
    async with open_screen(queued_path) as screen:
        await screen.press(labels_key)
        await screen.press("f")
        assert isinstance(screen.app.screen, StartPage)
        assert "6 labels go onto 1 to 6." in screen.flat
        await screen.press("right", "down", "up", "down")
        assert "Label 5 of 24: row 2, column 2. 6 labels go onto 5 to 10." in screen.flat
        assert screen.text.count("░") > 4
        await screen.press("G")
        assert "onto 2 pages, on the last of them labels 1 to 5." in screen.flat
        await screen.press("right", "down")
        assert screen.app.screen.start == 24
        await screen.press("g", "left", "up", "j", "enter")
        assert settings(queued_path) == ("", 4)
        assert "label 4 of 24" in facts(screen)
        await screen.press("u")
        assert settings(queued_path) == ("", 1)
        await screen.press("f", "right", "escape")
        assert settings(queued_path) == ("", 1)
        await screen.press("f")
        await screen.pilot.click("#drawn-sheet", offset=(5 + 9 + 2, 2 * 2))
        await screen.settle()
        assert screen.app.screen.start == 8
        await screen.pilot.click("#drawn-sheet", offset=(5 + 9 + 2, 2 * 2))
        await screen.settle()
        assert settings(queued_path) == ("", 8)


async def test_written_proved_printed_and_out_of_the_queue(
    open_screen, queued_path, labels_key, facts, codes, tray, tested, waiting, tmp_path, monkeypatch
):
    monkeypatch.chdir(tmp_path)
    handed: list[tuple[str, Path]] = []
    for what in ("open_file", "print_file"):
        name = f"seedbox.printing.handing_over.{what}"
        monkeypatch.setattr(name, lambda path, what=what: handed.append((what, path)))
    file = tmp_path / "labels-2026-11-24.pdf"
    before = waiting()
    async with open_screen(queued_path) as screen:
        await screen.press(labels_key)
        await screen.press("j", "plus", "w")
        assert isinstance(screen.app.screen, Form)
        assert "Write 7 labels" in screen.text
        await screen.press("ctrl+s")
        assert isinstance(screen.app.screen, LabelsTab)
        assert "every code was read back" in screen.flat
        assert f"{file.name}, 7 labels on 1 page" in facts(screen)
        assert settings(queued_path) == ("", 1)  # writing is not printing
        assert handed == []
        await screen.press("o", "i")
        assert handed == [("open_file", file), ("print_file", file)]
        assert (
            "Sent labels-2026-11-24.pdf to the printer. Once it is on paper, a says so"
            in screen.flat
        )
        assert len(waiting()) == 5
        await screen.press("a")
        assert waiting() == []
        assert settings(queued_path) == ("", 8)
        assert "Printed 7 labels: label 8 is free next. u takes it back." in screen.flat
        await screen.press("u", "u")
        assert waiting() == before
        assert settings(queued_path) == ("", 1)
    # Read by zxing-cpp, an independent reader: ISO/IEC 18004 symbols on the written page.
    bean, lettuce, tomato = (codes[crop] for crop in ("bean", "lettuce", "tomato"))
    wanted = [bean, lettuce, lettuce, tomato, tray, tested["bean"], tested["bean"]]
    assert codes_on(file) == sorted(wanted)


async def test_what_came_after_the_file_stays_in_the_queue(
    open_screen, queued_path, labels_key, facts, codes, waiting, tmp_path, monkeypatch
):
    monkeypatch.chdir(tmp_path)
    async with open_screen(queued_path) as screen:
        await screen.press(labels_key)
        await screen.press("w", "ctrl+s")
        await screen.press("2")
        screen.app.jump(codes["pea"])
        await screen.settle()
        await screen.press("l", labels_key)
        assert "The queue is another now: w writes it again." in facts(screen)
        await screen.press("a")
        assert waiting() == [(codes["pea"], "", 1)]
        assert "label 7 of 24" in facts(screen)


async def test_while_a_file_is_written_its_keys_say_so(
    open_screen, queued_path, labels_key, tmp_path, monkeypatch
):
    go_on = threading.Event()

    def slowly(*given: object) -> None:
        go_on.wait(5)
        raise UsageError("The disk is full.")

    monkeypatch.setattr("seedbox.tui.labels_job.Order.write", slowly)
    monkeypatch.chdir(tmp_path)
    async with open_screen(queued_path) as screen:
        await screen.press(labels_key)
        screen.app.screen._write(tmp_path / "slow.pdf")
        for key in ("w", "o", "i", "a"):
            screen.app.screen.say("")
            await screen.pilot.press(key)
            await screen.pilot.pause()
            assert "The file is still being written and read back" in screen.flat
        go_on.set()
        await screen.settle()
        assert "! The disk is full." in screen.flat
        await screen.press("w")
        assert isinstance(screen.app.screen, Form)


async def test_a_file_in_the_way_is_refused_and_the_name_kept(
    open_screen, queued_path, labels_key, tmp_path
):
    other = tmp_path / "diary.txt"
    other.write_text("do not lose me")
    async with open_screen(queued_path) as screen:
        await screen.press(labels_key)
        await screen.press("w")
        screen.app.screen.query_one("#field-file").value = str(other)
        await screen.press("ctrl+s")
        assert isinstance(screen.app.screen, Form)
        assert "is no PDF" in screen.flat
        screen.app.screen.query_one("#field-file").value = ""
        await screen.press("ctrl+s")
        assert "Name a file" in screen.problems
    assert other.read_text() == "do not lose me"


async def test_no_command_to_open_or_print_is_a_sentence(
    open_screen, queued_path, labels_key, tmp_path, monkeypatch
):
    def refuse(path: Path) -> None:
        raise SeedboxError("There is no command here that prints files (lp).", hint="Open it.")

    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("seedbox.printing.handing_over.print_file", refuse)
    async with open_screen(queued_path) as screen:
        await screen.press(labels_key)
        await screen.press("w", "ctrl+s")
        await screen.press("i")
        assert "! There is no command here that prints files (lp). Open it." in screen.flat
        (tmp_path / "labels-2026-11-24.pdf").unlink()
        await screen.press("i")
        assert "is not there any more: w writes it again." in screen.flat


async def test_code_outlines_cells_and_the_printer_are_chosen_by_keys(
    open_screen, queued_path, labels_key, facts
):
    async with open_screen(queued_path, (80, 30)) as screen:
        await screen.press(labels_key)
        await screen.press("r")
        assert "rugged: twice, for mud" in screen.flat
        await screen.press("r")
        assert "Code once" in facts(screen)
        await screen.press("r", "t")
        assert "Outlines drawn" in facts(screen)
        await screen.press("t")
        assert "Outlines not drawn" in facts(screen)
        await screen.press("t", "m")
        assert "Sowings a label for each cell" in facts(screen)
        assert "17 labels to print" in screen.text  # 12 cells instead of the tray
        await screen.press("m")
        assert "6 labels to print" in screen.text
        await screen.press("e")
        screen.app.screen.query_one("#field-label_scale_x").value = "2"
        await screen.press("ctrl+s")
        assert "label_scale_x takes a number from 0.9 to 1.1" in screen.flat
        screen.app.screen.query_one("#field-label_scale_x").value = "1.01"
        screen.app.screen.query_one("#field-label_offset_y_mm").value = "-1.5"
        await screen.press("ctrl+s")
        assert "moved 0 mm right, -1.5 mm down, makes 1.01 x 1 of 1 mm" in facts(screen)
        await screen.press("u")
        assert "moved" not in screen.text


async def test_a_file_of_sheets_with_a_fault_is_named(
    open_screen, queued_path, labels_key, monkeypatch
):
    def faulty() -> None:
        raise BadDataError("a4.toml, [mine], rows: a whole number is needed.")

    async with open_screen(queued_path) as screen:
        await screen.press(labels_key)
        monkeypatch.setattr("seedbox.printing.sheets.sheets", faulty)
        await screen.press("s")
        assert "! a4.toml, [mine], rows: a whole number is needed." in screen.flat
        await screen.press("escape")
        assert isinstance(screen.app.screen, LabelsTab)


async def test_a_sheet_that_cannot_be_read_can_be_left(open_screen, queued_path, labels_key, facts):
    with Tin.open(queued_path) as tin:
        set_settings(tin, {"label_sheet": "/no/such/mine.toml"})
    async with open_screen(queued_path) as screen:
        await screen.press(labels_key)
        assert "s chooses another sheet." in screen.flat
        await screen.press("f", "enter", "d", "s")
        await screen.type("letter 30")
        await screen.press("enter")
        assert "30 labels of" in facts(screen)
