"""Lists of others are read and judged, one's own is written, and nothing private leaves."""

from __future__ import annotations

import csv
import json
from pathlib import Path

from seedbox.tin.file import Tin
from seedbox.tui.swap_lists_page import SwapListsPage
from seedbox.tui.written_files import FileNames, files_named


async def test_lists_are_read_shown_and_taken_away(
    open_swap, read_lists, swap_path: Path, lists: Path
):
    async with open_swap(swap_path) as screen:
        await read_lists(screen, lists / "maud.csv", lists / "nobody.csv")
        assert "There is no file" in screen.problems
        screen.app.screen.query_one("#field-files").value = f"{lists}"
        await screen.press("ctrl+s")
        page = screen.app.screen
        assert isinstance(page, SwapListsPage)
        assert "2 lists read" in screen.text and "1 file could not be read" in screen.flat
        rows = {line[2:16].strip(): line.split() for line in screen.lines if "csv" in line}
        assert rows["Maud Hollis"][2:7] == ["3", "1", "1", "1", "2"]
        assert rows["Iestyn Prys"][2:7] == ["1", "2", "1", "1", "-"]
        assert "No column names the crop" in screen.flat
        await screen.press("x")
        assert "could not be read" not in screen.flat
        await screen.press("escape")
        assert "2 lists read." in screen.text
        screen.app.action_show_tab("Tin")
        await screen.settle()
        screen.app.action_show_tab("Swap")
        await screen.settle()
        await screen.press("right")
        pea = next(line for line in screen.lines if line.startswith("> pea"))
        assert pea.split()[-1] == "3"
        assert "Maud Hollis, 3 portions of pea, Quay Marrow" in screen.flat


async def test_a_hostile_list_is_only_text_and_faults_name_row_and_field(
    open_swap, read_lists, swap_path: Path, lists: Path
):
    async with open_swap(swap_path, (120, 40)) as screen:
        await read_lists(screen, lists / "maud.csv")
        assert "Row 5, portions: “many” is no whole number" in screen.flat
        assert "Row 7, portions: 9,999,999 portions are more than" in screen.flat
        assert "Mystery root [@click=app.quit]go[/]" in screen.flat
        assert "kale, [red]x[/]" in screen.text and "\x1b" not in screen.text
        assert "They offer what you want" in screen.text and "worth 5 of 5" in screen.text


async def test_what_is_written_holds_nothing_private_and_is_known_again(
    open_swap, read_lists, swap_path: Path, tmp_path: Path
):
    async with open_swap(swap_path) as screen:
        for name, kind in (("a", "csv"), ("b", "json"), ("c", "pdf"), ("d", "txt")):
            await screen.press("w")
            screen.app.screen.query_one("#field-file").value = str(tmp_path / f"{name}.{kind}")
            await screen.press("ctrl+s")
        assert "End it in .csv" in screen.problems
        screen.app.screen.query_one("#field-file").value = str(tmp_path / "other.json")
        (tmp_path / "other.json").write_text('{"mine": 1}')
        screen.app.screen.query_one("#field-name").value = "Wren Ash"
        await screen.press("ctrl+s")
        assert "it is left alone" in screen.flat
        screen.app.screen.query_one("#field-file").value = str(tmp_path / "named.json")
        await screen.press("ctrl+s")
        assert "Wrote 2 offers and 2 wants" in screen.flat and "local law" in screen.flat
        await screen.press("w")
        form = screen.app.screen
        form.query_one("#field-file").value = str(tmp_path / "noted.pdf")
        form.query_one("#field-notes").focus()
        await screen.press("right", "ctrl+s")
        assert "no room for notes" in screen.problems
        form.query_one("#field-file").value = str(tmp_path / "noted.csv")
        await screen.press("ctrl+s")
        noted = (tmp_path / "noted.csv").read_text("utf-8-sig")
        assert "behind the jam" in noted and "Moorhen" not in noted and "arch" not in noted
        await read_lists(screen, tmp_path / "named.json")
        assert "is this the list that you wrote yourself" in screen.flat
    rows = list(csv.DictReader((tmp_path / "a.csv").read_text("utf-8-sig").splitlines()))
    assert [row["what"] for row in rows] == ["offer", "offer", "want", "want"]
    written = "".join((tmp_path / name).read_text("utf-8-sig") for name in ("a.csv", "b.json"))
    with Tin.open(swap_path) as tin:
        private = ["Moorhen", "jam", "arch", "jar in", *(one.source for one in tin.packets())]
    assert not [word for word in private if word and word in written]
    assert "Wren" not in written
    assert json.loads((tmp_path / "named.json").read_text())["grower"] == "Wren Ash"
    assert json.loads((tmp_path / "other.json").read_text()) == {"mine": 1}
    assert (tmp_path / "c.pdf").read_bytes().startswith(b"%PDF-")


def test_file_names_are_offered_for_the_last_one_typed(tmp_path: Path):
    (tmp_path / "maud.csv").touch()
    (tmp_path / "maud.png").touch()
    (tmp_path / ".maud.csv").touch()
    (tmp_path / "mau").mkdir()
    names = FileNames([".csv"])
    assert [name for name, _ in names(f"{tmp_path}/m")] == [
        f"{tmp_path}/mau/",
        f"{tmp_path}/maud.csv",
    ]
    assert names(f"a.csv;{tmp_path}/mau") == [
        (f"a.csv; {tmp_path}/mau/", "folder"),
        (f"a.csv; {tmp_path}/maud.csv", ""),
    ]
    assert names("~nobody-at-all/") == names("\0") == names(f"{tmp_path}/no/such/") == []
    assert files_named(" a.csv ;b.csv;; a.csv") == ["a.csv", "b.csv"]
