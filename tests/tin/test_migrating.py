"""An older tin: a copy is kept, then it is brought up to date, wholly or not at all."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from seedbox.errors import TinError
from seedbox.tin import migrations
from seedbox.tin.file import Tin
from seedbox.tin.packets import PacketDraft, add_packet

Opener = Callable[..., Tin]

PRESENT = len(migrations.STEPS)  # the layout of today, before a test adds a step to it


def add_colour(db: Any) -> None:
    db.execute("ALTER TABLE packet ADD COLUMN colour TEXT")


@pytest.fixture
def old_tin(tin_path: Path, open_tin: Opener, today: date, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A tin of the present layout, before a program that knows one more."""
    with open_tin(tin_path) as tin:
        add_packet(tin, PacketDraft("leek", "Ferry Blue", amount=30), today=today)
    monkeypatch.setattr(migrations, "STEPS", [*migrations.STEPS, add_colour])
    return tin_path


def test_a_copy_is_kept_and_the_tin_brought_up_to_date(old_tin: Path, open_tin: Opener) -> None:
    with open_tin(old_tin) as tin:
        assert tin.database.value("PRAGMA user_version") == PRESENT + 1
        assert tin.database.value("PRAGMA foreign_keys") == 1
        assert tin.packets()[0].variety == "Ferry Blue"
        assert "colour" in columns(tin.database.connection)
        kept = tin.copy_kept
    assert kept == old_tin.with_name(f"garden.version-{PRESENT}-2026-03-14-093000.tin")
    with closing(sqlite3.connect(kept)) as db:
        assert db.execute("PRAGMA user_version").fetchone() == (PRESENT,)
        assert db.execute("SELECT variety FROM packet").fetchall() == [("Ferry Blue",)]
        assert "colour" not in columns(db)


def test_the_header_shows_the_new_version_at_once(old_tin: Path, open_tin: Opener) -> None:
    with open_tin(old_tin):
        assert int.from_bytes(old_tin.read_bytes()[60:64], "big") == PRESENT + 1


def test_up_to_date_means_no_copy(old_tin: Path, open_tin: Opener) -> None:
    open_tin(old_tin).close()
    with open_tin(old_tin) as tin:
        assert tin.copy_kept is None
    assert len(list(old_tin.parent.iterdir())) == 2


def test_a_copy_never_overwrites(old_tin: Path, open_tin: Opener) -> None:
    taken = old_tin.with_name(f"garden.version-{PRESENT}-2026-03-14-093000.tin")
    taken.write_text("somebody's notes")
    with open_tin(old_tin) as tin:
        assert tin.copy_kept == old_tin.with_name(
            f"garden.version-{PRESENT}-2026-03-14-093000-2.tin"
        )
    assert taken.read_text() == "somebody's notes"


def test_a_step_that_fails_leaves_the_old_layout(
    old_tin: Path, open_tin: Opener, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stumble(db: Any) -> None:
        db.execute("DELETE FROM packet")
        db.execute("ALTER TABLE nothing ADD COLUMN x")

    monkeypatch.setattr(migrations, "STEPS", [*migrations.STEPS, stumble])
    with pytest.raises(TinError):
        open_tin(old_tin)
    with closing(sqlite3.connect(old_tin)) as db:
        assert db.execute("PRAGMA user_version").fetchone() == (PRESENT,)
        assert db.execute("SELECT count(*) FROM packet").fetchone() == (1,)
        assert "colour" not in columns(db)


def test_a_step_that_orphans_rows_is_undone(
    old_tin: Path, open_tin: Opener, monkeypatch: pytest.MonkeyPatch
) -> None:
    def orphan(db: Any) -> None:
        db.execute("DELETE FROM packet")

    monkeypatch.setattr(migrations, "STEPS", [*migrations.STEPS, orphan])
    with pytest.raises(TinError, match="refer to nothing"):
        open_tin(old_tin)
    with closing(sqlite3.connect(old_tin)) as db:
        assert db.execute("SELECT count(*) FROM packet").fetchone() == (1,)


def test_the_older_program_refuses_what_the_newer_wrote(
    old_tin: Path, open_tin: Opener, monkeypatch: pytest.MonkeyPatch
) -> None:
    open_tin(old_tin).close()
    monkeypatch.setattr(migrations, "STEPS", migrations.STEPS[:PRESENT])
    before = old_tin.read_bytes()
    with pytest.raises(TinError, match="newer Seedbox"):
        open_tin(old_tin)
    assert old_tin.read_bytes() == before


def columns(db: sqlite3.Connection) -> set[str]:
    return {row[1] for row in db.execute("PRAGMA table_info(packet)")}
