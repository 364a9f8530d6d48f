"""A tin of layout 3, opened today: nothing is lost, and what was done before is undone as ever."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from seedbox.errors import BadDataError
from seedbox.tin import migrations
from seedbox.tin.file import Tin
from seedbox.tin.history import redo, undo
from seedbox.tin.records import TestState

Opener = Callable[..., Tin]
LAYOUT_3 = Path(__file__).parent / "layouts" / "layout_3.sql"  # as that program wrote it


@pytest.fixture
def old_path(tmp_path: Path) -> Path:
    path = tmp_path / "garden.tin"
    with closing(sqlite3.connect(path)) as db:
        db.executescript(LAYOUT_3.read_text("utf-8"))
        db.execute("PRAGMA journal_mode = WAL")
    return path


def columns_of_layout_3() -> dict[str, str]:
    """The columns that the old program knew, by table."""
    with closing(sqlite3.connect(":memory:")) as db:
        db.executescript(LAYOUT_3.read_text("utf-8"))
        names = [row[0] for row in db.execute("SELECT name FROM sqlite_master WHERE type='table'")]
        return {
            name: ", ".join(row[1] for row in db.execute(f"PRAGMA table_info({name})"))
            for name in names
            if not name.startswith(("sqlite_", "_sqlite"))
        }


def contents(path: Path) -> dict[str, list[Any]]:
    """All that the old program would read of a file."""
    with closing(sqlite3.connect(path)) as db:
        return {
            table: db.execute(f"SELECT {columns} FROM {table} ORDER BY id").fetchall()
            for table, columns in columns_of_layout_3().items()
        }


def test_all_is_kept_with_a_copy_beside_it(old_path: Path, open_tin: Opener) -> None:
    before = contents(old_path)
    assert {len(before[table]) for table in ("packet", "store", "germination_test")} == {2}
    with open_tin(old_path) as tin:
        assert tin.database.value("PRAGMA user_version") == migrations.newest() >= 4
        assert tin.database.value("PRAGMA integrity_check") == "ok"
        assert (tin.wants(), tin.swap_choices(), tin.label_queue()) == ([], [], [])
        assert [one.reported_by for one in tin.tests(state=None)] == ["", ""]
        kept = tin.copy_kept
    assert contents(old_path) == before
    assert kept is not None
    assert kept.name == "garden.version-3-2026-03-14-093000.tin"
    assert contents(kept) == before
    with closing(sqlite3.connect(kept)) as db:
        assert db.execute("PRAGMA user_version").fetchone() == (3,)


def test_what_was_done_before_is_undone_and_done_again(old_path: Path, open_tin: Opener) -> None:
    with open_tin(old_path) as tin:
        done = [one.label for one in tin.history() if one.state == "done"]
        before = contents(old_path)
        assert [undo(tin) for _ in done] == done
        assert (tin.packets(), tin.stores(), tin.tests(state=None)) == ([], [], [])
        while tin.history()[0].state == "undone":
            redo(tin)
        assert [test.state for test in tin.tests(state=None)] == [
            TestState.FINISHED,
            TestState.RUNNING,
        ]
        assert [plan.crop_id for plan in tin.plans()] == ["kale", "leek"]  # one was undone before
        undo(tin)
    after = contents(old_path)
    assert {table: rows for table, rows in after.items() if not table.startswith("change")} == {
        table: rows for table, rows in before.items() if not table.startswith("change")
    }


def test_a_test_struck_out_before_comes_back_as_ones_own(old_path: Path, open_tin: Opener) -> None:
    with open_tin(old_path) as tin:
        while undo(tin) != "Remove test TS69 MQVZ":
            pass
        struck_out = tin.test("TS69MQVZ")
        assert (struck_out.note, struck_out.reported_by) == ("struck out", "")


def test_a_new_tin_and_a_migrated_one_have_the_same_tables(
    old_path: Path, tin_path: Path, open_tin: Opener, tmp_path: Path
) -> None:
    def layout(path: Path) -> list[tuple[str, ...]]:
        with closing(sqlite3.connect(path)) as db:
            return db.execute(
                "SELECT name, sql FROM sqlite_master WHERE name NOT LIKE '%sqlite%' ORDER BY name"
            ).fetchall()

    fresh = tmp_path / "fresh.tin"
    open_tin(fresh, create=True).close()
    open_tin(old_path).close()
    assert layout(fresh) == layout(old_path)


@pytest.mark.parametrize(
    "row",
    [
        "want (crop_id, portions) VALUES ('', 1)",
        "want (crop_id, portions) VALUES ('leek', 0)",
        "want (crop_id, portions, worth) VALUES ('leek', 1, 6)",
        "want (crop_id, variety, portions) VALUES ('leek', 'a', 1), ('leek', 'A', 1)",
        "swap_choice (packet_id, choice) VALUES (1, 'sell')",
        "swap_choice (packet_id, choice) VALUES (77, 'keep')",
        "swap_choice (packet_id, choice, portions) VALUES (1, 'keep', 1)",
        "swap_choice (packet_id, choice) VALUES (1, 'keep'), (1, 'offer')",
        "label_queue (code) VALUES ('P73C')",
        "label_queue (code, copies) VALUES ('P73C42CY', 1001)",
        "label_queue (code) VALUES ('P73C42CY'), ('P73C42CY')",
    ],
)
def test_the_tables_refuse_what_makes_no_sense(old_path: Path, open_tin: Opener, row: str) -> None:
    with open_tin(old_path) as tin, pytest.raises(BadDataError):
        tin.database.run(f"INSERT INTO {row}")
