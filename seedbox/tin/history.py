"""What was done to the tin, and taking it back or doing it again, exactly."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence

from seedbox.errors import BadDataError, SeedboxError, TinError
from seedbox.tin.changes import Step, columns_of, kept_as_text
from seedbox.tin.database import Database, Row
from seedbox.tin.file import Tin


class NothingToUndoError(SeedboxError):
    """No change is left to take back, or to do again."""


def undo(tin: Tin) -> str:
    """Takes the latest change back; returns its label."""
    return _step_through(
        tin,
        "SELECT id, label FROM change WHERE state = 'done' ORDER BY id DESC LIMIT 1",
        "There is nothing to undo.",
        _undo_change,
    )


def redo(tin: Tin) -> str:
    """Does the latest undone change again; returns its label."""
    return _step_through(
        tin,
        "SELECT id, label FROM change WHERE state = 'undone' ORDER BY id LIMIT 1",
        "There is nothing to do again.",
        _redo_change,
    )


def _step_through(
    tin: Tin, choice: str, nothing: str, work: Callable[[Database, int, str], None]
) -> str:
    with tin.writing() as database:
        found = database.rows(choice)
        if not found:
            raise NothingToUndoError(nothing)
        change_id, label = found[0]
        try:
            work(database, change_id, label)
        except BadDataError as error:
            # A constraint stands in the way: something else now leans on these rows.
            raise _edited_elsewhere(label) from error
        return str(label)


def _undo_change(database: Database, change_id: int, label: str) -> None:
    for step_id, step in reversed(_steps(database, change_id)):
        if step.action == "insert":
            _keep_and_remove(database, step_id, step, label)
        elif step.action == "update":
            _set_back(database, step, label, forward=False)
        else:
            _put(database, step.table, step.columns, step.kept[::-1])
    database.run("UPDATE change SET state = 'undone' WHERE id = ?", (change_id,))


def _redo_change(database: Database, change_id: int, label: str) -> None:
    for step_id, step in _steps(database, change_id):
        if step.action == "insert":
            _put(database, step.table, step.columns, step.kept)
            database.run(
                "UPDATE change_step SET columns = NULL, kept = NULL WHERE id = ?", (step_id,)
            )
        elif step.action == "update":
            _set_back(database, step, label, forward=True)
        else:
            _remove_again(database, step, label)
    database.run("UPDATE change SET state = 'done' WHERE id = ?", (change_id,))


def _keep_and_remove(database: Database, step_id: int, step: Step, label: str) -> None:
    """Undoes an insert: the rows go into the history, so that redo can put them back."""
    columns = columns_of(database, step.table)
    span = (step.first_id, step.last_id)
    rows = database.rows(
        f"SELECT {', '.join(columns)} FROM {step.table} WHERE id BETWEEN ? AND ? ORDER BY id", span
    )
    if step.first_id is None or step.last_id is None:
        raise _damaged(database)
    if len(rows) != step.last_id - step.first_id + 1:
        raise _edited_elsewhere(label)
    database.run(f"DELETE FROM {step.table} WHERE id BETWEEN ? AND ?", span)
    database.run(
        "UPDATE change_step SET columns = ?, kept = ? WHERE id = ?",
        (",".join(columns), kept_as_text(rows), step_id),
    )


def _set_back(database: Database, step: Step, label: str, *, forward: bool) -> None:
    """Undoes or redoes updates, after a look whether the rows are as the change left them."""
    width = len(step.columns)
    reading = f"SELECT {', '.join(step.columns)} FROM {step.table} WHERE id = ?"
    writing = ", ".join(f"{column} = ?" for column in step.columns)
    for row in step.kept if forward else step.kept[::-1]:
        before, after = row[1 : width + 1], row[width + 1 :]
        expected, wanted = (before, after) if forward else (after, before)
        if [tuple(expected)] != database.rows(reading, (row[0],)):
            raise _edited_elsewhere(label)
        database.run(f"UPDATE {step.table} SET {writing} WHERE id = ?", (*wanted, row[0]))


def _put(database: Database, table: str, columns: Sequence[str], rows: Sequence[Row]) -> None:
    marks = ", ".join("?" * len(columns))
    database.run_many(f"INSERT INTO {table} ({', '.join(columns)}) VALUES ({marks})", rows)


def _remove_again(database: Database, step: Step, label: str) -> None:
    place = step.columns.index("id")
    for row in step.kept:
        reading = f"SELECT {', '.join(step.columns)} FROM {step.table} WHERE id = ?"
        if [tuple(row)] != database.rows(reading, (row[place],)):
            raise _edited_elsewhere(label)
        database.run(f"DELETE FROM {step.table} WHERE id = ?", (row[place],))


def _steps(database: Database, change_id: int) -> list[tuple[int, Step]]:
    rows = database.rows(
        "SELECT id, action, table_name, first_id, last_id, columns, kept FROM change_step"
        " WHERE change_id = ? ORDER BY id",
        (change_id,),
    )
    return [(row[0], _read_step(row)) for row in rows]


def _read_step(row: Row) -> Step:
    columns = tuple(row[5].split(",")) if row[5] else ()
    kept = [tuple(values) for values in json.loads(row[6])] if row[6] else []
    return Step(row[1], row[2], row[3], row[4], columns, kept)


def _edited_elsewhere(label: str) -> TinError:
    return TinError(
        f"“{label}” cannot be taken back or done again: its entries were changed by another"
        " program since. Nothing was changed."
    )


def _damaged(database: Database) -> TinError:
    return TinError(f"The history in {database.path} is damaged. Nothing was changed.")
