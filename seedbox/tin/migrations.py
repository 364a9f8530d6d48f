"""From nothing, or from an older layout, to the present one. Only this module needs sqlite-utils.

A step is a function that takes a sqlite-utils database; step n makes layout n. Steps are never
changed once a tin may have been written with them: a new layout is a new step at the end.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

from seedbox.errors import TinError
from seedbox.tin.database import explained
from seedbox.tin.schema import (
    APPLICATION_ID,
    FIRST_LAYOUT,
    FOURTH_LAYOUT,
    SECOND_LAYOUT,
    THIRD_LAYOUT,
)


def first_layout(db: Any) -> None:
    for statement in FIRST_LAYOUT:
        db.execute(statement)


def running_tests_and_trays(db: Any) -> None:
    for statement in SECOND_LAYOUT:
        db.execute(statement)


def places_plans_and_sowings(db: Any) -> None:
    for statement in THIRD_LAYOUT:
        db.execute(statement)


def wants_swaps_and_labels(db: Any) -> None:
    for statement in FOURTH_LAYOUT:
        db.execute(statement)


STEPS: list[Callable[[Any], None]] = [
    first_layout,
    running_tests_and_trays,
    places_plans_and_sowings,
    wants_swaps_and_labels,
]


def newest() -> int:
    """The layout that this program writes; a file above it is newer than the program."""
    return len(STEPS)


def lay_down(connection: sqlite3.Connection) -> None:
    """Makes a tin in a new, empty file."""
    connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    connection.execute("PRAGMA journal_mode = WAL")
    _bring_up_to_date(connection)


def migrate(connection: sqlite3.Connection, path: Path, version: int, at: datetime) -> Path:
    """Brings an older tin up to date, after a copy; returns where the copy lies."""
    from seedbox.tin.backup import copy_to, free_name

    copy = free_name(path, f"version-{version}-{at:%Y-%m-%d-%H%M%S}")
    try:
        copy_to(connection, copy)
        _bring_up_to_date(connection)
    except sqlite3.Error as error:
        raise explained(error, path) from error
    return copy


def _bring_up_to_date(connection: sqlite3.Connection) -> None:
    """Runs what is pending as one transaction: the tin is of the old layout or of the new one."""
    # Rebuilding a table that others refer to needs the checks off; they are made good below.
    connection.execute("PRAGMA foreign_keys = OFF")
    connection.execute("BEGIN IMMEDIATE")
    try:
        _apply_steps(connection)
        if connection.execute("PRAGMA foreign_key_check").fetchone():
            raise TinError("The update would leave entries that refer to nothing: it was undone.")
        connection.execute("COMMIT")
    finally:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        connection.execute("PRAGMA foreign_keys = ON")
    # The header of the file itself must show the version: it is read before SQLite opens it.
    connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")


def _apply_steps(connection: sqlite3.Connection) -> None:
    from sqlite_utils import Database, Migrations

    migrations = Migrations("seedbox")
    for number, step in enumerate(STEPS, 1):
        migrations(name=f"{number:03}_{step.__name__}")(_numbered(number, step))
    migrations.apply(Database(connection, execute_plugins=False))


def _numbered(number: int, step: Callable[[Any], None]) -> Callable[[Any], None]:
    def numbered(db: Any) -> None:
        step(db)
        db.execute(f"PRAGMA user_version = {number}")

    return numbered
