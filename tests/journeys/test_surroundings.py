"""Bad surroundings: locales, closed pipes, folders that may not be written, spoilt tins."""

from __future__ import annotations

import os
import shutil
import signal
import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from seedbox.cli.edge import INTERRUPTED, READER_GONE
from seedbox.errors import ExitCode
from seedbox.tin.file import Tin
from seedbox.tin.packets import PacketDraft, add_packet

Run = Callable[..., Any]
PROGRAM = (sys.executable, "-m", "seedbox")
PLAIN_LOCALES = (
    {"LANG": "C"},
    {"LC_ALL": "POSIX", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"},
    {"LANG": "C", "PYTHONIOENCODING": "ascii"},
)


@pytest.fixture
def a_packet(tin_path: Path) -> None:
    """A tin with one packet, made without a process of its own."""
    draft = PacketDraft("tomato", "Łucja 阿梅 Ελένη", harvest_year=2024, amount=40)
    with Tin.open(tin_path, create=True) as tin:
        add_packet(tin, draft, today=date(2027, 2, 20))


@pytest.mark.parametrize("env", PLAIN_LOCALES, ids=str)
def test_names_in_every_script_under_a_plain_locale(
    run: Run, a_packet: None, env: dict[str, str]
) -> None:
    assert "Łucja 阿梅 Ελένη" in run("list", env=env).out
    assert run("list", "--json", env=env).json[0]["variety"] == "Łucja 阿梅 Ελένη"


def test_a_narrow_old_encoding_gets_question_marks_not_a_fault(run: Run, a_packet: None) -> None:
    said = run("list", env={"PYTHONIOENCODING": "latin-1"})
    assert "tomato" in said.out
    assert "?" in said.out


def test_text_that_is_no_text_is_refused(run: Run, surroundings: dict[str, str]) -> None:
    done = subprocess.run(
        [*PROGRAM, "add", "leek", b"\xff\xfe", "--note", b"caf\xe9"],
        capture_output=True, check=False, env=surroundings, timeout=60,
    )  # fmt: skip
    assert b"Traceback" not in done.stderr
    assert done.returncode in {ExitCode.USAGE, ExitCode.DONE}
    assert run("list", code=None).code in {ExitCode.DONE, ExitCode.TIN}


def test_a_reader_that_goes_away_ends_the_listing_quietly(
    run: Run, surroundings: dict[str, str], tmp_path: Path
) -> None:
    rows = "".join(f"leek,Variety number {n} with a long name\n" for n in range(3000))
    (tmp_path / "many.csv").write_text("crop,variety\n" + rows, encoding="utf-8")
    run("import", "many.csv")
    with subprocess.Popen(
        [*PROGRAM, "list"], stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=surroundings
    ) as listing:
        assert listing.stdout is not None
        assert listing.stderr is not None
        listing.stdout.readline()
        listing.stdout.close()
        said = listing.stderr.read()
        listing.wait(timeout=60)
    assert said == b""
    assert listing.returncode == READER_GONE


def test_ctrl_c_is_quiet_and_changes_nothing(
    run: Run, surroundings: dict[str, str], tmp_path: Path
) -> None:
    """The import waits for a pipe that nobody writes to, and is interrupted there."""
    waiting = tmp_path / "slow.csv"
    os.mkfifo(waiting)
    with subprocess.Popen(
        [*PROGRAM, "import", str(waiting)], stderr=subprocess.PIPE, stdout=subprocess.PIPE,
        env=surroundings,
    ) as importing:  # fmt: skip
        time.sleep(1.0)
        still_waiting = importing.poll() is None
        if still_waiting:
            importing.send_signal(signal.SIGINT)
        _, said = importing.communicate(timeout=60)
    assert b"Traceback" not in said
    if still_waiting:
        assert importing.returncode == INTERRUPTED
        assert said.strip() == b""


def test_a_missing_tin_tells_how_to_begin(run: Run) -> None:
    said = run("list", code=ExitCode.TIN)
    assert "There is no tin" in said.err
    assert "seedbox add" in said.err
    assert said.out == ""


def test_a_damaged_tin(run: Run, a_packet: None, tin_path: Path) -> None:
    tin_path.write_bytes(b"no tin at all, a shopping list")
    for words in (("list",), ("add", "leek"), ("undo",), ("export", "x.json")):
        assert str(tin_path) in run(*words, code=ExitCode.TIN).err
    assert tin_path.read_bytes() == b"no tin at all, a shopping list"


def test_another_programs_database_is_left_alone(run: Run, tin_path: Path) -> None:
    with sqlite3.connect(tin_path) as other:
        other.execute("CREATE TABLE notes (text TEXT)")
    other.close()
    before = tin_path.read_bytes()
    run("list", code=ExitCode.TIN)
    run("add", "leek", code=ExitCode.TIN)
    assert tin_path.read_bytes() == before


def test_a_newer_tin_is_refused_and_left_untouched(
    run: Run, a_packet: None, tin_path: Path
) -> None:
    with sqlite3.connect(tin_path) as tin:
        tin.execute("PRAGMA user_version = 999")
        tin.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    tin.close()
    before = tin_path.read_bytes()
    assert "newer Seedbox" in run("list", code=ExitCode.TIN).err
    assert "newer Seedbox" in run("add", "leek", code=ExitCode.TIN).err
    assert tin_path.read_bytes() == before


def test_a_locked_tin_can_be_read_and_says_who_is_in_the_way_of_writing(
    run: Run, a_packet: None, tin_path: Path
) -> None:
    holder = sqlite3.connect(tin_path, isolation_level=None)
    holder.execute("BEGIN IMMEDIATE")
    try:
        assert "tomato" in run("list").out
        said = run("add", "leek", code=ExitCode.TIN)
        assert "in use by another program" in said.err
        assert "Nothing was changed" in said.err
    finally:
        holder.execute("ROLLBACK")
        holder.close()
    assert len(run("list", "--json").json) == 1


@pytest.fixture
def read_only(tmp_path: Path) -> Any:
    folder = tmp_path / "locked"
    folder.mkdir()
    folder.chmod(0o555)
    yield folder
    folder.chmod(0o755)


def test_a_folder_that_may_only_be_read(run: Run, a_packet: None, read_only: Path) -> None:
    if os.access(read_only, os.W_OK):
        pytest.skip("an administrator may write everywhere")
    for words, code in (
        (("add", "leek", "--tin", str(read_only / "x.tin")), ExitCode.TIN),
        (("labels", str(read_only / "x.pdf")), ExitCode.USAGE),
        (("export", str(read_only / "x.json")), ExitCode.BAD_DATA),
        (("backup", str(read_only / "x.tin")), ExitCode.TIN),
        (("demo", "--into", str(read_only / "demo")), ExitCode.NOT_DONE),
    ):
        assert str(read_only) in run(*words, code=code).err


@pytest.mark.parametrize("nowhere", ["no/such", "a file/such"])
def test_a_folder_that_cannot_be(run: Run, a_packet: None, tmp_path: Path, nowhere: str) -> None:
    """Neither what does not exist nor a file can hold anything, for an administrator either."""
    (tmp_path / "a file").write_text("dear diary", encoding="utf-8")
    for words in (
        ("add", "leek", "--tin", f"{nowhere}/x.tin"),
        ("labels", f"{nowhere}/x.pdf"),
        ("export", f"{nowhere}/x.json"),
        ("backup", f"{nowhere}/x.tin"),
        ("import", f"{nowhere}/x.csv"),
        ("list", "--tin", f"{nowhere}/x.tin"),
    ):
        said = run(*words, code=None)
        assert said.code != 0
        assert nowhere in said.err or Path(words[-1]).name in said.err
    assert not (tmp_path / "no").exists()
    assert (tmp_path / "a file").read_text(encoding="utf-8") == "dear diary"


def test_a_full_disk_is_told_and_nothing_is_lost(run: Run, a_packet: None) -> None:
    if not Path("/dev/full").exists():
        pytest.skip("this system has no /dev/full")
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run(
            [*PROGRAM, "crop", "--json"], stdout=full, stderr=subprocess.PIPE, check=False,
            timeout=60,
        )  # fmt: skip
    assert done.returncode == ExitCode.NOT_DONE
    assert b"Traceback" not in done.stderr
    assert b"space" in done.stderr


def test_the_demo_needs_no_terminal_and_no_home(run: Run, tmp_path: Path) -> None:
    said = run("demo", env={"HOME": str(tmp_path / "nobody"), "TERM": "dumb", "COLUMNS": "40"})
    assert "Every code was read back" in said.out
    assert "\x1b" not in said.out
    assert (tmp_path / "seedbox-demo" / "packet-labels.pdf").stat().st_size > 10_000
    shutil.rmtree(tmp_path / "seedbox-demo")
