"""One change to the tin: a transaction that writes down how to take itself back.

Steps are logged set-wise. An insert logs the table and a range of ids; an update the changed
columns before and after; a delete the row. Ten thousand inserted rows are one logged step.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from seedbox.errors import NotFoundError, TinError
from seedbox.tin.database import Database, Row
from seedbox.tin.schema import TABLES


@dataclass(slots=True)
class Step:
    """What was done to one table; `kept` holds the rows that undo or redo needs.

    insert: ids `first_id` to `last_id`; `kept` is filled only while the insert is undone.
    update: `columns` names the changed columns; each kept row is (id, before..., after...).
    delete: `columns` names all columns; each kept row is a whole row.
    """

    action: str
    table: str
    first_id: int | None = None
    last_id: int | None = None
    columns: tuple[str, ...] = ()
    kept: list[Row] = field(default_factory=list)

    def takes_in(self, later: Step) -> bool:
        """Joins `later` to this step when both do the same to the same table, one after another."""
        if (self.action, self.table, self.columns) != (later.action, later.table, later.columns):
            return False
        if self.action == "insert":
            self.last_id = later.last_id  # ids of one change follow each other without gaps
        self.kept.extend(later.kept)
        return True


class OpenChange:
    """The change being made. Every write to the tin's own tables goes through one of these."""

    def __init__(self, database: Database) -> None:
        self.database = database
        self.steps: list[Step] = []
        self.spoilt = False
        self._next_ids: dict[str, int] = {}

    @contextmanager
    def part(self) -> Iterator[OpenChange]:
        """A part of the change. When it fails, the whole can no longer be recorded."""
        try:
            yield self
        except BaseException:
            self.spoilt = True
            raise

    def insert(self, table: str, values: Mapping[str, Any]) -> int:
        """Adds a row and returns its id."""
        return self.insert_many(table, tuple(values), [tuple(values.values())])[0]

    def insert_many(
        self, table: str, columns: Sequence[str], rows: Iterable[Sequence[Any]]
    ) -> tuple[int, int]:
        """Adds rows with consecutive ids; returns the first and last (last < first: no rows)."""
        first = self._next_id(table)
        names = ", ".join(("id", *columns))
        marks = ", ".join("?" * (len(columns) + 1))
        with self.part():  # a failure half way leaves rows that no step knows of
            count = self.database.run_many(
                f"INSERT INTO {_known(table)} ({names}) VALUES ({marks})",
                ((row_id, *row) for row_id, row in enumerate(rows, first)),
            )
        last = first + max(count, 0) - 1
        if last >= first:
            self._next_ids[table] = last + 1
            self._log(Step("insert", table, first, last))
        return first, last

    def update(self, table: str, row_id: int, values: Mapping[str, Any]) -> bool:
        """Sets columns of one row; says whether anything was different."""
        if not values:
            return False
        columns = tuple(values)
        before = self._row(table, row_id, columns)
        settings = ", ".join(f"{column} = ?" for column in columns)
        self.database.run(
            f"UPDATE {_known(table)} SET {settings} WHERE id = ?", (*values.values(), row_id)
        )
        after = self._row(table, row_id, columns)
        if before == after:
            return False
        self._log(Step("update", table, columns=columns, kept=[(row_id, *before, *after)]))
        return True

    def delete(self, table: str, row_id: int) -> None:
        """Takes one row out."""
        columns = columns_of(self.database, table)
        row = self._row(table, row_id, columns)
        self.database.run(f"DELETE FROM {_known(table)} WHERE id = ?", (row_id,))
        self._log(Step("delete", table, columns=columns, kept=[row]))

    def _row(self, table: str, row_id: int, columns: Sequence[str]) -> Row:
        found = self.database.rows(
            f"SELECT {', '.join(columns)} FROM {_known(table)} WHERE id = ?", (row_id,)
        )
        if not found:
            raise NotFoundError(f"There is no entry {row_id} in {table}.")
        return found[0]

    def _next_id(self, table: str) -> int:
        if table not in self._next_ids:
            top = self.database.value(f"SELECT max(id) FROM {_known(table)}")
            self._next_ids[table] = (top or 0) + 1
        return self._next_ids[table]

    def _log(self, step: Step) -> None:
        if not (self.steps and self.steps[-1].takes_in(step)):
            self.steps.append(step)


def record(change: OpenChange, label: str, made_at: datetime) -> None:
    """Writes the history entry; a change that did nothing leaves none."""
    if change.spoilt:
        raise TinError("A part of this change failed, so none of it was made.")
    if not change.steps:
        return
    _drop_undone(change.database)
    change_id = change.database.rows(
        "INSERT INTO change (made_at, label) VALUES (?, ?) RETURNING id",
        (made_at.isoformat(timespec="seconds"), label),
    )[0][0]
    change.database.run_many(
        "INSERT INTO change_step (change_id, action, table_name, first_id, last_id,"
        " columns, kept) VALUES (?, ?, ?, ?, ?, ?, ?)",
        [(change_id, *_stored(step)) for step in change.steps],
    )


def columns_of(database: Database, table: str) -> tuple[str, ...]:
    """All columns of a table, in its own order."""
    return tuple(row[1] for row in database.rows(f"PRAGMA table_info({_known(table)})"))


def kept_as_text(rows: Sequence[Row]) -> str | None:
    """Rows for the history; numbers come back exactly as they were."""
    import json

    return json.dumps(rows, ensure_ascii=False, separators=(",", ":")) if rows else None


def _stored(step: Step) -> Row:
    columns = ",".join(step.columns) or None
    kept = kept_as_text(step.kept)
    return (step.action, step.table, step.first_id, step.last_id, columns, kept)


def _drop_undone(database: Database) -> None:
    """What was undone before a new change can no longer be done again."""
    database.run(
        "DELETE FROM change_step WHERE change_id IN (SELECT id FROM change WHERE state = 'undone')"
    )
    database.run("UPDATE change SET state = 'dropped' WHERE state = 'undone'")


def _known(table: str) -> str:
    if table not in TABLES:
        raise ValueError(f"{table} is not a table of the tin")
    return table
