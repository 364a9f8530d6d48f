"""One connection to the tin, and the edge at which SQLite's errors become sentences."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Any, TypeVar

from seedbox.errors import BadDataError, SeedboxError, TinError

Row = tuple[Any, ...]
T = TypeVar("T")

_PRIMARY_CODE = 0xFF  # SQLite's extended result codes keep the primary code in the low byte


def _sentences(path: Path) -> dict[int, str]:
    return {
        sqlite3.SQLITE_BUSY: f"{path} is in use by another program. Nothing was changed.",
        sqlite3.SQLITE_LOCKED: f"{path} is in use by another program. Nothing was changed.",
        sqlite3.SQLITE_READONLY: f"{path} may only be read, so nothing was changed.",
        sqlite3.SQLITE_FULL: f"The disk that holds {path} is full. Nothing was changed.",
        sqlite3.SQLITE_CORRUPT: f"{path} is damaged.",
        sqlite3.SQLITE_NOTADB: f"{path} is damaged.",
        sqlite3.SQLITE_IOERR: f"{path} could not be read or written: the disk reports a fault.",
        sqlite3.SQLITE_CANTOPEN: f"{path} could not be opened.",
    }


_HINTS = {
    sqlite3.SQLITE_BUSY: "Try again when the other program has finished.",
    sqlite3.SQLITE_LOCKED: "Try again when the other program has finished.",
    sqlite3.SQLITE_READONLY: "Check the permissions of the file and its folder.",
    sqlite3.SQLITE_CORRUPT: "Put the file aside and go back to a backup.",
    sqlite3.SQLITE_NOTADB: "Put the file aside and go back to a backup.",
    sqlite3.SQLITE_CANTOPEN: "Check the permissions of the file and its folder.",
}


def explained(error: sqlite3.Error, path: Path) -> SeedboxError:
    """The error as a sentence; raise it `from` the original."""
    if isinstance(error, sqlite3.IntegrityError):
        return BadDataError(f"The tin does not accept this entry: {error}. Nothing was changed.")
    code = getattr(error, "sqlite_errorcode", 0) & _PRIMARY_CODE
    sentence = _sentences(path).get(code, f"{path} could not be used: {error}.")
    return TinError(sentence, hint=_HINTS.get(code, ""))


def connect(target: str, *, wait_seconds: float) -> sqlite3.Connection:
    """A connection to a `file:` address that starts transactions only when told to."""
    connection = sqlite3.connect(target, uri=True, timeout=wait_seconds, isolation_level=None)
    try:
        connection.execute("PRAGMA foreign_keys = ON")
        connection.execute("PRAGMA synchronous = FULL")
    except sqlite3.Error:
        connection.close()
        raise
    return connection


def address(path: Path, mode: str) -> str:
    """`path` as a `file:` address; mode `ro`, `rw` or `rwc`."""
    return f"{path.absolute().as_uri()}?mode={mode}"


class Database:
    """Runs SQL on one tin; every SQLite error leaves as a `SeedboxError`."""

    def __init__(self, path: Path, connection: sqlite3.Connection) -> None:
        self.path = path
        self.connection = connection

    def rows(self, sql: str, values: Sequence[Any] = ()) -> list[Row]:
        return self._guarded(lambda: self.connection.execute(sql, values).fetchall())

    def value(self, sql: str, values: Sequence[Any] = ()) -> Any:
        """First column of the first row, or None."""
        found = self.rows(sql, values)
        return found[0][0] if found else None

    def run(self, sql: str, values: Sequence[Any] = ()) -> int:
        """Carries out one statement; returns how many rows it touched."""
        return self._guarded(lambda: self.connection.execute(sql, values).rowcount)

    def run_many(self, sql: str, rows: Iterable[Sequence[Any]]) -> int:
        return self._guarded(lambda: self.connection.executemany(sql, rows).rowcount)

    def roll_back(self) -> None:
        if self.connection.in_transaction:
            self.run("ROLLBACK")

    def close(self) -> None:
        self._guarded(self.connection.close)

    def _guarded(self, work: Callable[[], T]) -> T:
        try:
            return work()
        except sqlite3.Error as error:
            raise explained(error, self.path) from error


def read_records(
    database: Database, sql: str, make: Callable[[Row], T], values: Sequence[Any] = ()
) -> list[T]:
    """Rows as records. What only another program can have written is a fault of the file."""
    found = database.rows(sql, values)
    try:
        return [make(row) for row in found]
    except (KeyError, TypeError, ValueError) as error:
        raise TinError(
            f"{database.path} holds an entry that Seedbox cannot read ({error}).",
            hint="Another program must have changed it. Go back to a backup.",
        ) from error
