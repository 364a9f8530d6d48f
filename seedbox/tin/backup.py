"""Copies of a tin: consistent while it is in use, and never over another file."""

from __future__ import annotations

import contextlib
import os
import sqlite3
from pathlib import Path
from typing import TYPE_CHECKING

from seedbox.errors import TinError
from seedbox.tin.database import address, connect, explained

if TYPE_CHECKING:
    from seedbox.tin.file import Tin


def backup(tin: Tin, path: Path) -> Path:
    """Writes a whole copy of the tin to `path`, which must not exist yet; returns it."""
    copy_to(tin.database.connection, path)
    return path


def copy_to(connection: sqlite3.Connection, path: Path) -> None:
    """The tin behind `connection` as one file at `path`, checked before it gets its name."""
    _refuse_bad_place(path)
    unfinished = free_name(path, "unfinished")
    try:
        _copy_and_check(connection, unfinished)
        publish(unfinished, path)
    except FileExistsError as error:
        raise _exists(path) from error
    finally:
        unfinished.unlink(missing_ok=True)


def publish(unfinished: Path, path: Path) -> None:
    """Gives a finished file its name in one stroke; FileExistsError when the name is taken."""
    try:
        os.link(unfinished, path)
    except FileExistsError:
        raise
    except OSError:  # file systems without links
        if path.exists():
            raise FileExistsError(path) from None
        unfinished.rename(path)


def free_name(path: Path, word: str) -> Path:
    """A name beside `path` that nobody uses: `garden.<word>.tin`, then `garden.<word>-2.tin`."""
    number = 1
    while True:
        counted = word if number == 1 else f"{word}-{number}"
        name = path.with_name(f"{path.stem}.{counted}{path.suffix}")
        if not name.exists():
            return name
        number += 1


def _copy_and_check(connection: sqlite3.Connection, path: Path) -> None:
    try:
        with contextlib.closing(connect(address(path, "rwc"), wait_seconds=5)) as target:
            connection.backup(target)
            target.execute("PRAGMA journal_mode = DELETE")  # one file, nothing beside it
            verdict = target.execute("PRAGMA quick_check").fetchone()[0]
    except sqlite3.Error as error:
        raise explained(error, path) from error
    if verdict != "ok":
        raise TinError(f"The tin is damaged, so no good copy could be made: {verdict}.")


def _refuse_bad_place(path: Path) -> None:
    if path.is_dir():
        raise TinError(f"{path} is a folder: name a file for the copy.")
    if path.exists():
        raise _exists(path)
    if not path.parent.is_dir():
        raise TinError(f"There is no folder {path.parent} to put the copy in.")


def _exists(path: Path) -> TinError:
    return TinError(f"{path} exists already and is left as it is.", hint="Choose another name.")
