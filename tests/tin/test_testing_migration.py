"""A tin written at layout 1, opened today: nothing of it is lost, and its history still works."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import date, datetime
from pathlib import Path
from typing import Any

import pytest

from seedbox.tin import migrations
from seedbox.tin.file import Tin
from seedbox.tin.history import redo, undo
from seedbox.tin.records import GerminationTest, TestState
from seedbox.tin.schema import APPLICATION_ID, FIRST_LAYOUT

Opener = Callable[..., Tin]

PACKETS = [
    (1, "P000003E", "leek", "Ferry Blue", "seed", "bought", 2024, "seeds"),
    (2, "P00000A0", "parsnip", "Tollgate Long", "seed", "saved", 2022, "grams"),
]
TESTS = [
    (1, "T000003K", 1, "2025-03-01", 20, 16, 0, "by the boiler"),
    (2, "T00000A6", 2, "2025-11-20", 50, 21, 4, ""),
]
OLD_COLUMNS = "id, code, packet_id, on_date, seeds, germinated, hard, note"


def write_first_layout(path: Path) -> None:
    """As the first program wrote it: its tables, the record of its step, one change and data."""
    with closing(sqlite3.connect(path)) as db:
        db.execute("PRAGMA journal_mode = WAL")
        db.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        for statement in FIRST_LAYOUT:
            db.execute(statement)
        db.execute(
            "CREATE TABLE _sqlite_migrations (migration_set TEXT, name TEXT, applied_at TEXT,"
            " PRIMARY KEY (migration_set, name))"
        )
        db.execute(
            "INSERT INTO _sqlite_migrations VALUES ('seedbox', '001_first_layout', ?)",
            (datetime(2026, 1, 2, 3, 4).isoformat(),),
        )
        db.execute("PRAGMA user_version = 1")
        db.execute("INSERT INTO store (id, name, coolest_c, warmest_c) VALUES (1, 'Shed', 3, 19)")
        db.executemany(
            "INSERT INTO packet (id, code, crop_id, variety, kind, origin, harvest_year, unit)"
            " VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
            PACKETS,
        )
        db.executemany(
            "INSERT INTO movement (packet_id, on_date, kind, amount) VALUES (?, ?, ?, ?)",
            [(1, "2024-12-01", "received", 50), (2, "2022-10-01", "received", 12.5)],
        )
        db.execute(
            "INSERT INTO storage_period (packet_id, from_date, store_id)"
            " VALUES (1, '2024-12-01', 1)"
        )
        db.executemany(
            f"INSERT INTO germination_test ({OLD_COLUMNS}) VALUES (?,?,?,?,?,?,?,?)", TESTS
        )
        _write_history(db)
        db.commit()


def _write_history(db: sqlite3.Connection) -> None:
    """The second test was written down; a third was struck out before, as that program logs it."""
    gone = (3, "T00000B4", 1, "2025-02-01", 10, 9, 0, "struck out")
    db.executemany(
        "INSERT INTO change (id, made_at, label) VALUES (?, ?, ?)",
        [(1, "2025-02-02T10:00:00", "Remove test"), (2, "2025-11-20T10:00:00", "Test: 21 of 50")],
    )
    db.execute(
        "INSERT INTO change_step (change_id, action, table_name, columns, kept)"
        " VALUES (1, 'delete', 'germination_test', ?, ?)",
        (OLD_COLUMNS.replace(" ", ""), json.dumps([gone])),
    )
    db.execute(
        "INSERT INTO change_step (change_id, action, table_name, first_id, last_id)"
        " VALUES (2, 'insert', 'germination_test', 2, 2)"
    )


@pytest.fixture
def old_path(tmp_path: Path) -> Path:
    path = tmp_path / "garden.tin"
    write_first_layout(path)
    return path


def first_columns(path: Path) -> dict[str, list[Any]]:
    """What the first layout knew, as any program reads it."""
    with closing(sqlite3.connect(path)) as db:
        return {
            "packet": db.execute("SELECT * FROM packet").fetchall(),
            "movement": db.execute("SELECT * FROM movement").fetchall(),
            "storage_period": db.execute("SELECT * FROM storage_period").fetchall(),
            "store": db.execute("SELECT * FROM store").fetchall(),
            "test": db.execute(f"SELECT {OLD_COLUMNS} FROM germination_test").fetchall(),
            "change": db.execute("SELECT * FROM change").fetchall(),
        }


def test_everything_is_kept_and_a_copy_beside_it(old_path: Path, open_tin: Opener) -> None:
    before = first_columns(old_path)
    with open_tin(old_path) as tin:
        assert tin.database.value("PRAGMA user_version") == migrations.newest()
        kept = tin.copy_kept
        assert tin.database.value("PRAGMA integrity_check") == "ok"
    assert first_columns(old_path) == before
    assert kept is not None
    assert kept.name == "garden.version-1-2026-03-14-093000.tin"
    assert first_columns(kept) == before
    with closing(sqlite3.connect(kept)) as db:
        assert db.execute("PRAGMA user_version").fetchone() == (1,)


def test_old_tests_are_finished_tests(old_path: Path, open_tin: Opener) -> None:
    with open_tin(old_path) as tin:
        assert tin.tests() == [
            GerminationTest(1, "T000003K", 1, date(2025, 3, 1), 20, 16, 0, "by the boiler"),
            GerminationTest(2, "T00000A6", 2, date(2025, 11, 20), 50, 21, 4),
        ]
        assert tin.tests()[0].state is TestState.FINISHED
        assert tin.dossiers()[1].tests == (tin.tests()[1],)


def test_what_was_done_before_can_still_be_undone(old_path: Path, open_tin: Opener) -> None:
    with open_tin(old_path) as tin:
        assert undo(tin) == "Test: 21 of 50"
        assert undo(tin) == "Remove test"
        assert [test.note for test in tin.tests()] == ["struck out", "by the boiler"]
        assert tin.test("T00000B4").state is TestState.FINISHED
        redo(tin)
        redo(tin)
        assert [test.germinated for test in tin.tests()] == [16, 21]


def test_a_new_tin_and_a_migrated_one_have_the_same_tables(
    old_path: Path, tin_path: Path, open_tin: Opener, tmp_path: Path
) -> None:
    fresh = tmp_path / "fresh.tin"
    open_tin(fresh, create=True).close()
    open_tin(old_path).close()
    assert layout(fresh) == layout(old_path)


def layout(path: Path) -> list[tuple[str, ...]]:
    with closing(sqlite3.connect(path)) as db:
        return db.execute(
            "SELECT name, sql FROM sqlite_master WHERE name NOT LIKE '%sqlite%' ORDER BY name"
        ).fetchall()
