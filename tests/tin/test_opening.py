"""Opening: what is a tin, what is not, and a sentence for each."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from datetime import date
from pathlib import Path

import pytest

from seedbox.errors import ExitCode, TinError
from seedbox.tin import migrations
from seedbox.tin.file import Tin, default_path
from seedbox.tin.packets import PacketDraft, add_packet
from seedbox.tin.schema import APPLICATION_ID, TABLES

NOBODY = 65534

Opener = Callable[..., Tin]


def test_a_new_tin_is_marked_and_strict(tin_path: Path) -> None:
    with closing(sqlite3.connect(tin_path)) as db:
        assert db.execute("PRAGMA application_id").fetchone() == (APPLICATION_ID,)
        assert db.execute("PRAGMA user_version").fetchone() == (migrations.newest(),)
        assert db.execute("PRAGMA journal_mode").fetchone() == ("wal",)
        strict = dict(db.execute("SELECT name, strict FROM pragma_table_list WHERE schema='main'"))
    assert all(strict[table] for table in (*TABLES, "change", "change_step"))


def test_an_open_tin_keeps_promises(tin: Tin) -> None:
    assert tin.database.value("PRAGMA foreign_keys") == 1
    assert tin.database.value("PRAGMA synchronous") == 2  # FULL
    assert tin.database.value("PRAGMA busy_timeout") == 5000


def test_creating_leaves_one_file(tmp_path: Path) -> None:
    Tin.open(tmp_path / "garden.tin", create=True).close()
    assert [path.name for path in tmp_path.iterdir()] == ["garden.tin"]


def test_create_opens_what_is_there(tin_path: Path, open_tin: Opener, today: date) -> None:
    with open_tin(tin_path) as tin:
        added = add_packet(tin, PacketDraft("leek", "Ferry Blue"), today=today)
    with open_tin(tin_path, create=True) as tin:
        assert tin.packets() == [added]


def test_a_missing_tin(tmp_path: Path, open_tin: Opener) -> None:
    assert "There is no tin at" in refusal(open_tin, tmp_path / "none.tin")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("create", [False, True])
def test_a_missing_folder(tmp_path: Path, open_tin: Opener, create: bool) -> None:
    sentence = refusal(open_tin, tmp_path / "nowhere" / "garden.tin", create=create)
    assert f"There is no folder {tmp_path / 'nowhere'}" in sentence


def test_a_folder(tmp_path: Path, open_tin: Opener) -> None:
    assert "is a folder" in refusal(open_tin, tmp_path)
    assert "is a folder" in refusal(open_tin, tmp_path, create=True)


def test_an_empty_file(tmp_path: Path, open_tin: Opener) -> None:
    path = tmp_path / "garden.tin"
    path.touch()
    assert "is empty" in refusal(open_tin, path, create=True)
    assert path.stat().st_size == 0


def test_another_kind_of_file(tmp_path: Path, open_tin: Opener) -> None:
    path = tmp_path / "garden.tin"
    path.write_text("crop,variety\nleek,Ferry Blue\n")
    assert "some other kind of file" in refusal(open_tin, path)
    assert path.read_text().startswith("crop")


def test_a_database_of_another_program(tmp_path: Path, open_tin: Opener) -> None:
    path = tmp_path / "other.db"
    with closing(sqlite3.connect(path)) as db:
        db.execute("CREATE TABLE packet (id INTEGER PRIMARY KEY)")
        db.commit()
    before = path.read_bytes()
    assert "another program" in refusal(open_tin, path)
    assert path.read_bytes() == before
    assert list(tmp_path.iterdir()) == [path]


def test_a_newer_tin_is_refused_and_left_untouched(tin_path: Path, open_tin: Opener) -> None:
    with closing(sqlite3.connect(tin_path)) as db:
        db.execute(f"PRAGMA user_version = {migrations.newest() + 1}")
        db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    before, stamp = tin_path.read_bytes(), tin_path.stat().st_mtime_ns
    assert "newer Seedbox" in refusal(open_tin, tin_path)
    assert (tin_path.read_bytes(), tin_path.stat().st_mtime_ns) == (before, stamp)
    assert list(tin_path.parent.iterdir()) == [tin_path]


def test_a_newer_version_that_only_the_log_holds(
    tin_path: Path, tmp_path: Path, open_tin: Opener
) -> None:
    """As a newer program that crashed leaves it: the header is old, the log is new."""
    crashed = tmp_path / "crashed"
    crashed.mkdir()
    with closing(sqlite3.connect(tin_path)) as db:
        db.execute(f"PRAGMA user_version = {migrations.newest() + 1}")
        for name in ("garden.tin", "garden.tin-wal"):
            (crashed / name).write_bytes((tmp_path / name).read_bytes())
    before = [(crashed / name).read_bytes() for name in ("garden.tin", "garden.tin-wal")]
    assert before[1], "the log should hold the change"
    assert "newer Seedbox" in refusal(open_tin, crashed / "garden.tin")
    after = [(crashed / name).read_bytes() for name in ("garden.tin", "garden.tin-wal")]
    assert after == before


def test_a_tin_whose_end_is_missing(tin_path: Path, open_tin: Opener) -> None:
    tin_path.write_bytes(tin_path.read_bytes()[:-4096])
    assert "is damaged" in refusal(open_tin, tin_path)
    tin_path.write_bytes(tin_path.read_bytes()[:60])
    assert "is damaged" in refusal(open_tin, tin_path)


def test_a_tin_with_overwritten_pages(tin_path: Path, open_tin: Opener) -> None:
    whole = tin_path.read_bytes()
    tin_path.write_bytes(whole[:100] + b"\xa5" * (len(whole) - 100))
    with pytest.raises(TinError) as caught, open_tin(tin_path) as tin:
        tin.packets()
    assert "is damaged" in caught.value.sentence
    assert "backup" in caught.value.hint
    assert caught.value.exit_code == ExitCode.TIN


def test_an_entry_that_another_program_spoilt(tin: Tin, today: date) -> None:
    packet = add_packet(tin, PacketDraft("leek", sow_by=date(2027, 1, 1)), today=today)
    tin.database.run("UPDATE packet SET sow_by = 'next year' WHERE id = ?", (packet.id,))
    with pytest.raises(TinError, match="cannot read"):
        tin.dossiers()


@contextmanager
def as_nobody() -> Iterator[None]:
    """Root may do everything, so a test of permissions has to be somebody else."""
    if os.geteuid() != 0:
        yield
        return
    os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(0)


@pytest.fixture
def reachable(tin_path: Path) -> Iterator[Path]:
    """The tin, with folders above it that anybody may pass through while the test runs."""
    folders = [folder for folder in tin_path.parents if folder.is_relative_to("/tmp")]
    modes = {folder: folder.stat().st_mode for folder in folders}
    for folder in folders:
        folder.chmod(modes[folder] | 0o011)
    yield tin_path
    for folder, mode in modes.items():
        folder.chmod(mode)


@pytest.mark.skipif(not hasattr(os, "geteuid"), reason="permissions of this kind are Unix's")
@pytest.mark.parametrize(
    ("mode", "part"), [(0o444, "may only be read"), (0o000, "no permission to read")]
)
def test_a_file_without_permission(reachable: Path, open_tin: Opener, mode: int, part: str) -> None:
    reachable.chmod(mode)
    with as_nobody():
        assert part in refusal(open_tin, reachable)


def test_default_path_is_in_the_folder_for_user_data(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    monkeypatch.setenv("HOME", str(tmp_path))
    path = default_path()
    assert path.name == "garden.tin"
    assert not path.parent.exists()
    assert default_path(make_folder=True) == path
    assert path.parent.is_dir()


def refusal(open_tin: Opener, path: Path, **options: bool) -> str:
    with pytest.raises(TinError) as caught:
        open_tin(path, **options)
    assert str(path.parent) in caught.value.sentence
    return caught.value.sentence
