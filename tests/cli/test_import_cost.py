"""What a command imports is what it costs to start: heavy modules only where they are used."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

PRINTING = {"reportlab", "segno", "barcode", "zxingcpp", "pypdfium2"}
HEAVY = PRINTING | {"textual", "rich", "openpyxl", "sqlite_utils", "numpy", "scipy", "icalendar"}
CODE = "P1G1D22F"
_ASK = """
import json, sys
from seedbox.cli.main import seedbox
try:
    seedbox(sys.argv[1:], prog_name="seedbox")
except SystemExit as end:
    print(json.dumps({"code": end.code, "modules": sorted(sys.modules)}), file=sys.stderr)
"""


def modules_after(tin: Path, *words: str) -> set[str]:
    """Top-level modules in memory when the command has ended well."""
    done = subprocess.run(
        [sys.executable, "-c", _ASK, *words, "--tin", str(tin), "--today", "2027-02-20"],
        capture_output=True, text=True, check=True, timeout=60,
    )  # fmt: skip
    told = json.loads(done.stderr.splitlines()[-1])
    assert told["code"] in (0, None), done.stderr
    return {name.partition(".")[0] for name in told["modules"]}


@pytest.fixture(scope="module")
def tin(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("cost") / "garden.tin"
    modules_after(path, "store", "add", "Shed", "--temperature", "12", "--humidity", "60")
    modules_after(path, "add", "leek", "Long Hill", "--harvest", "2024", "--store", "Shed",
                  "--seeds", "90", "--code", CODE)  # fmt: skip
    modules_after(path, "garden", "--last-frost", "04-25", "--first-frost", "10-25",
                  "--latitude", "52")  # fmt: skip
    modules_after(path, "place", "add", "Sill", "--kind", "windowsill", "--temperature", "18")
    modules_after(path, "plan", "add", "leek", "--plants", "20")
    return path


@pytest.mark.parametrize(
    "words",
    [
        ("list",),
        ("list", "--json"),
        ("show", CODE),
        ("forecast", "leek", "--germination", "0.9", "--temperature", "12", "--humidity", "60",
         "--years", "2"),
        ("crop", "leek"),
        ("history",),
        ("store", "list"),
        ("settings",),
        ("today",),
        ("garden",),
        ("place", "list"),
        ("plan", "list"),
        ("now", "--left-out"),
        ("sow", CODE, "--cells", "5", "--place", "sill"),
        ("sowings",),
        ("year",),
        ("buy",),
        ("buy", "--csv", "{folder}/order.csv"),
        ("swap", "spare"),
        ("swap", "want", "tomato"),
        ("swap", "list", "{folder}/list.csv"),
        ("swap", "give", CODE, "--seeds", "2"),
        ("save-seed",),
        ("save-seed", CODE, "--dry", "12"),
        ("test", "plan"),
        ("test", "list"),
        ("test", "start", CODE, "--seeds", "10"),
        ("test", "tray", CODE, "--sown", "10", "--emerged", "4"),
        ("add", "onion", "Red Barn"),
        ("undo",),
        ("labels", "--sheets"),
        ("labels", "--designs"),
        ("labels", "measured", "--left", "30"),
        ("fold", "--sizes"),
        ("completion", "fish"),
    ],
    ids=" ".join,
)  # fmt: skip
def test_everyday_commands_load_nothing_heavy(
    tin: Path, words: tuple[str, ...], tmp_path: Path
) -> None:
    assert not modules_after(tin, *(word.format(folder=tmp_path) for word in words)) & HEAVY


def test_only_a_calendar_loads_the_library_for_calendars(tin: Path, tmp_path: Path) -> None:
    loaded = modules_after(tin, "calendar", str(tmp_path / "garden.ics"))
    assert loaded & HEAVY == {"icalendar"}


def test_the_page_for_the_shed_door_reads_no_codes(tin: Path, tmp_path: Path) -> None:
    loaded = modules_after(tin, "year", "--pdf", str(tmp_path / "door.pdf"))
    assert "reportlab" in loaded
    assert not loaded & {"textual", "openpyxl", "sqlite_utils", "icalendar"}


def test_csv_does_not_load_the_spreadsheet_library(tin: Path, tmp_path: Path) -> None:
    table = tmp_path / "mine.csv"
    table.write_text("crop,variety\nleek,Long Hill\n", encoding="utf-8")
    assert "openpyxl" not in modules_after(tin, "import", str(table), "--dry-run")
    assert "openpyxl" not in modules_after(tin, "export", str(tmp_path / "out.csv"))


def test_a_spreadsheet_does_load_it(tin: Path, tmp_path: Path) -> None:
    """Without this the test above could pass by looking at the wrong thing."""
    assert "openpyxl" in modules_after(tin, "export", str(tmp_path / "out.xlsx"))


def test_labels_load_the_printing_room(tin: Path, tmp_path: Path) -> None:
    loaded = modules_after(tin, "labels", str(tmp_path / "labels.pdf"))
    assert loaded >= {"reportlab", "segno", "zxingcpp", "pypdfium2"}
    assert not loaded & {"textual", "openpyxl", "sqlite_utils"}


def test_one_command_does_not_import_the_others(tin: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-c", _ASK, "history", "--tin", str(tin)],
        capture_output=True, text=True, check=True, timeout=60,
    )  # fmt: skip
    modules = json.loads(done.stderr.splitlines()[-1])["modules"]
    commands = [name for name in modules if name.startswith("seedbox.cli.commands.")]
    assert commands == ["seedbox.cli.commands.history"]
