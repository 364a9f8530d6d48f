"""A tin of layout 2, opened today: nothing of it is lost, a copy is kept, the garden is empty."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import datetime
from pathlib import Path

import pytest

from seedbox.tin import migrations
from seedbox.tin.file import Tin
from seedbox.tin.schema import APPLICATION_ID, FIRST_LAYOUT, SECOND_LAYOUT, THIRD_LAYOUT

Opener = Callable[..., Tin]
STEPS = ("001_first_layout", "002_running_tests_and_trays")


@pytest.fixture
def old_path(tmp_path: Path) -> Path:
    """As the second program wrote it: its tables, the record of its steps, a packet and a tray."""
    path = tmp_path / "old.tin"
    with closing(sqlite3.connect(path)) as db:
        db.execute("PRAGMA journal_mode = WAL")
        db.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        for statement in (*FIRST_LAYOUT, *SECOND_LAYOUT):
            db.execute(statement)
        db.execute(
            "CREATE TABLE _sqlite_migrations (migration_set TEXT, name TEXT, applied_at TEXT,"
            " PRIMARY KEY (migration_set, name))"
        )
        at = datetime(2026, 1, 2, 3, 4).isoformat()
        db.executemany(
            "INSERT INTO _sqlite_migrations VALUES ('seedbox', ?, ?)", [(s, at) for s in STEPS]
        )
        db.execute("PRAGMA user_version = 2")
        db.execute(
            "INSERT INTO packet (id, code, crop_id, unit) VALUES (1, 'P000003E', 'leek', 'seeds')"
        )
        db.execute(
            "INSERT INTO movement (packet_id, on_date, kind, amount)"
            " VALUES (1, '2025-01-01', 'received', 80)"
        )
        db.execute(
            "INSERT INTO tray_count (packet_id, on_date, place, sown, emerged)"
            " VALUES (1, '2026-02-01', 'sill', 24, 19)"
        )
        db.commit()
    return path


def test_the_step_keeps_all_and_adds_an_empty_garden(old_path: Path, open_tin: Opener) -> None:
    with open_tin(old_path) as tin:
        assert tin.database.value("PRAGMA user_version") == migrations.newest() >= 3
        assert (tin.places(), tin.plans(), tin.sowings(), tin.sowing_events()) == ([], [], [], [])
        dossier = tin.dossiers()[0]
        assert dossier.left == 80
        assert [(tray.place, tray.emerged) for tray in dossier.trays] == [("sill", 19)]
        kept = tin.copy_kept
    assert kept is not None
    with closing(sqlite3.connect(kept)) as db:
        assert db.execute("PRAGMA user_version").fetchone() == (2,)


def test_the_tables_are_those_of_a_new_tin(
    old_path: Path, tin_path: Path, open_tin: Opener
) -> None:
    def tables(path: Path) -> list[tuple[str, str]]:
        with open_tin(path) as tin:
            return tin.database.rows(  # type: ignore[return-value]
                "SELECT name, sql FROM sqlite_master WHERE tbl_name IN"
                " ('place', 'plan', 'sowing', 'sowing_event') ORDER BY name"
            )

    assert tables(old_path) == tables(tin_path)
    assert len(THIRD_LAYOUT) == 9
