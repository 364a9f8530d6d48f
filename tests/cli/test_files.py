"""Import, export, labels, demo: what goes in, what comes out, what is left alone."""

from __future__ import annotations

import csv
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from seedbox.errors import ExitCode

Type = Callable[..., Any]
Code = Callable[..., str]
LIST = """Vegetable;Sort;Year;Qty;Where
Leek;Long Hill;2024;90;Drawer
Onion;Barrow Light;2025;2,5 g;Drawer
Marigold;Sunny;2024;10;Drawer
Kale;Rookery;2204;30;Shed
=cmd|' /C calc'!A0;Bad;2024;1;Shed
"""


@pytest.fixture
def grower_list(tmp_path: Path) -> Path:
    path = tmp_path / "my list.csv"
    path.write_text(LIST, encoding="utf-8")
    return path


def test_good_rows_come_in_and_bad_ones_are_told_row_by_row(
    type_in: Type, grower_list: Path, tmp_path: Path
) -> None:
    rejects = tmp_path / "rejects.csv"
    said = type_in("import", str(grower_list), "--rejects", str(rejects))
    assert "Added 2 packets" in said.out
    assert "3 rows are left out" in said.out
    assert "row 4, Vegetable: “Marigold” is the name of several crops" in said.out
    assert "row 5, Year" in said.out
    assert "Undo with: seedbox undo" in said.out
    with rejects.open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.reader(file))
    assert len(rows) == 4
    assert "pot marigold" in rows[1][-1]
    assert not any(cell.startswith("=") for row in rows for cell in row)
    assert {packet["variety"] for packet in type_in("list", "--json").json} == {
        "Long Hill", "Barrow Light",
    }  # fmt: skip


def test_a_file_without_packets_says_what_came_in(type_in: Type, tmp_path: Path) -> None:
    wants = '"wants": [{"crop_id": "leek", "portions": 2}]'
    path = tmp_path / "wants.json"
    path.write_text(f'{{"format": "seedbox-tin", "version": 4, {wants}}}', encoding="utf-8")
    assert type_in("import", str(path)).lines == ["Added 1 want.", "Undo with: seedbox undo"]
    assert type_in("undo").lines[0] == "Undone: Import 1 want from wants.json."
    assert "Would add 1 want." in type_in("import", str(path), "--dry-run").out


def test_the_same_file_twice_adds_nothing_and_one_undo_takes_it_back(
    type_in: Type, grower_list: Path
) -> None:
    type_in("import", str(grower_list))
    again = type_in("import", str(grower_list))
    assert "Added 0 packets" in again.out
    assert "2 rows are in the tin already" in again.out
    assert "Undo" not in again.out
    assert "Added 2 packets" in type_in("import", str(grower_list), "--again").out
    type_in("undo")
    type_in("undo")
    assert type_in("list", "--json").json == []
    assert type_in("store", "list", "--json").json == []


def test_a_dry_run_and_a_strict_one_change_nothing(
    type_in: Type, grower_list: Path, tin_path: Path
) -> None:
    assert "Would add 2 packets" in type_in("import", str(grower_list), "--dry-run").out
    strict = type_in("import", str(grower_list), "--strict", code=ExitCode.BAD_DATA)
    assert "Nothing was imported" in strict.err
    assert not tin_path.exists()


def test_columns_can_be_mapped_and_unknown_crops_kept(type_in: Type, tmp_path: Path) -> None:
    path = tmp_path / "odd.csv"
    path.write_text("A thing,B thing\nBeckweed,Blue\n", encoding="utf-8")
    said = type_in(
        "import", str(path), "--map", "A thing=crop", "--map", "B thing=variety",
        "--keep-unknown", "--json",
    )  # fmt: skip
    assert said.json["added"] == 1
    assert said.json["own_crops_added"] == ["Beckweed"]
    assert type_in("list", "--json").json[0]["variety"] == "Blue"


@pytest.mark.parametrize(
    ("words", "code", "part"),
    [
        (("missing.csv",), ExitCode.NOT_FOUND, "missing.csv"),
        (("{list}", "--map", "Nothing=crop"), None, "Nothing"),
        (("{list}", "--map", "Sort=colour"), None, "colour"),
        (("{list}", "--map", "Sort"), ExitCode.USAGE, "Column=field"),
    ],
)
def test_imports_that_cannot_be(
    type_in: Type, grower_list: Path, words: Any, code: int | None, part: str
) -> None:
    said = type_in("import", *(word.replace("{list}", str(grower_list)) for word in words),
                   code=code)  # fmt: skip
    assert said.code != 0
    assert part in said.err


def test_nothing_usable_is_an_error(type_in: Type, tmp_path: Path) -> None:
    path = tmp_path / "bad.csv"
    path.write_text("crop,variety\nBlorpweed,x\n", encoding="utf-8")
    assert "No row could be used" in type_in("import", str(path), code=ExitCode.BAD_DATA).err


@pytest.mark.parametrize("name", ["whole.json", "whole.xlsx", "whole"])
def test_what_is_exported_comes_back_equal(
    type_in: Type, code_of: Code, tmp_path: Path, name: str
) -> None:
    type_in("store", "add", "Jar", "--temperature", "5", "--sealed", "--moisture", "6")
    code = code_of("leek", "=1+1 Früher", "--seeds", "40", "--store", "Jar", "--tag", "a")
    type_in("take", code, "5", "--given")
    type_in("test", "record", code, "--seeds", "10", "--germinated", "8")
    before = type_in("show", code, "--json").json
    path = tmp_path / name
    assert "Wrote 1 packet" in type_in("export", str(path)).out
    other = str(tmp_path / "other.tin")
    type_in("import", str(path), "--tin", other)
    after = type_in("show", code, "--tin", other, "--json").json
    assert after == before


def test_export_leaves_alone_what_is_no_export(
    type_in: Type, code_of: Code, tmp_path: Path
) -> None:
    code_of("leek")
    path = tmp_path / "mine.csv"
    path.write_text("my own notes\n", encoding="utf-8")
    assert "left alone" in type_in("export", str(path), code=ExitCode.BAD_DATA).err
    assert path.read_text(encoding="utf-8") == "my own notes\n"
    type_in("export", str(path), "--force")
    assert "leek" in path.read_text(encoding="utf-8-sig")
    assert ".pdf" in type_in("export", str(tmp_path / "x.pdf"), code=ExitCode.USAGE).err


def test_labels_for_codes_filters_and_a_part_used_sheet(
    type_in: Type, code_of: Code, tmp_path: Path
) -> None:
    first = code_of("leek", "Long Hill", "--tag", "new")
    code_of("onion", "Barrow Light")
    path = str(tmp_path / "labels.pdf")
    assert type_in("labels", path, "--json").json == {
        "path": path, "labels": 2, "pages": 1, "proofed": True, "unreadable": [], "warnings": [],
    }  # fmt: skip
    assert type_in("labels", path, first, "--json").json["labels"] == 1
    assert type_in("labels", path, "--tag", "new", "--copies", "3", "--json").json["labels"] == 3
    assert type_in("labels", path, "--text", "barrow", "--json").json["labels"] == 1
    late = type_in("labels", path, "--start", "24", "--json").json
    assert (late["labels"], late["pages"]) == (2, 2)
    unproofed = type_in("labels", path, "--no-proof", "--design", "tray")
    assert "not read back" in unproofed.out
    type_in("settings", "page", "letter")
    assert type_in("labels", path, "--json").json["labels"] == 2


@pytest.mark.parametrize(
    ("words", "code", "part"),
    [
        ((), ExitCode.USAGE, "Name the file"),
        (("{pdf}", "--sheet", "a4-24-64x34"), ExitCode.NOT_FOUND, "a4-24-64x34-gap"),
        (("{pdf}", "--design", "pocket"), ExitCode.NOT_FOUND, "packet"),
        (("{pdf}", "--start", "99"), ExitCode.USAGE, "24"),
        (("{pdf}", "--tag", "none"), ExitCode.NOT_FOUND, "No packet fits"),
        (("{pdf}", "P0000000"), ExitCode.BAD_DATA, "check character"),
        (("{pdf}/no/such.pdf",), ExitCode.USAGE, "no folder"),
        (("{tin}",), ExitCode.USAGE, "no PDF"),
    ],
)
def test_labels_that_cannot_be(
    type_in: Type, tmp_path: Path, words: Any, code: int, part: str
) -> None:
    type_in("add", "leek")
    tin_path = tmp_path / "garden.tin"
    before = tin_path.read_bytes()
    filled = [w.replace("{pdf}", str(tmp_path / "x.pdf")).replace("{tin}", str(tin_path))
              for w in words]  # fmt: skip
    assert part in type_in("labels", *filled, code=code).err
    assert tin_path.read_bytes() == before


def test_a_code_that_cannot_be_read_back_has_its_own_exit_code(
    type_in: Type, code_of: Code, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The page cannot be spoilt from outside, so the reader is made to see nothing."""
    import zxingcpp

    code_of("leek")
    monkeypatch.setattr(zxingcpp, "read_barcodes", lambda *args, **more: [])
    said = type_in("labels", str(tmp_path / "x.pdf"), code=ExitCode.UNREADABLE_CODE)
    assert "Could not be read back" in said.err


def test_sheets_and_designs_are_listed_by_geometry(type_in: Type) -> None:
    sheets = type_in("labels", "--sheets", "--json").json
    assert len(sheets) >= 33  # sheet_geometries.csv of the reference figures
    assert "63.5 x 33.9" in type_in("labels", "--sheets").out
    assert {design["name"] for design in type_in("labels", "--designs", "--json").json} >= {
        "packet", "tray",
    }  # fmt: skip


def test_the_demo_runs_twice_and_never_over_somebodys_folder(type_in: Type, tmp_path: Path) -> None:
    folder = tmp_path / "demo"
    first = type_in("demo", "--into", str(folder))
    (folder / "demo.tin").write_bytes(b"spoilt")
    second = type_in("demo", "--into", str(folder))
    assert second.out == first.out
    for part in ("Use up", "Sow thick", "Test before sowing", "Spent", "Every code was read back",
                 "--today 2027-02-20", "It rests on"):  # fmt: skip
        assert part in first.out
    tin = str(folder / "demo.tin")
    assert len(type_in("list", "--tin", tin, "--json").json) > 100
    assert "Would add" in type_in(
        "import", str(folder / "grower_list.csv"), "--tin", tin, "--dry-run"
    ).out  # fmt: skip
    own = tmp_path / "own"
    own.mkdir()
    (own / "letter.txt").write_text("dear", encoding="utf-8")
    assert "left alone" in type_in("demo", "--into", str(own), code=ExitCode.USAGE).err
    assert [path.name for path in own.iterdir()] == ["letter.txt"]


def test_the_demo_and_the_sample_data_agree_on_the_day() -> None:
    from seedbox.cli.commands.demo import DEMO_DAY
    from seedbox.cli.words import day
    from seedbox.resources import sample_data_dir

    assert day(DEMO_DAY) in (sample_data_dir() / "README.md").read_text(encoding="utf-8")


def test_every_json_answer_is_plain_json(type_in: Type, code_of: Code, tmp_path: Path) -> None:
    code = code_of("leek", "Long Hill", "--seeds", "4")
    for words in (
        ("list",), ("show", code), ("store", "list"), ("test", "list"), ("crop", "leek"), ("crop",),
        ("history",), ("settings",), ("undo",), ("redo",), ("labels", "--sheets"),
        ("labels", "--designs"), ("backup", str(tmp_path / "b.tin")),
        ("export", str(tmp_path / "e.json")),
    ):  # fmt: skip
        json.loads(type_in(*words, "--json").out)
