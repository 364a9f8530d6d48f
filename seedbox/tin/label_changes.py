"""Labels that wait are given another design or number, and go out of the queue once printed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from seedbox.errors import BadDataError, NotFoundError
from seedbox.tin.changes import OpenChange
from seedbox.tin.file import Tin
from seedbox.tin.label_queue import MOST_COPIES, label_problem
from seedbox.tin.list_records import QueuedLabel
from seedbox.tin.preferences import parse_setting
from seedbox.tin.settings import write_settings
from seedbox.tin.text import clean_line


def change_queued(
    tin: Tin, ids: Iterable[int], *, design: str | None = None, copies: int | None = None
) -> None:
    """Gives entries of the queue another design, another number of copies, or both.

    Where the same thing waits in that design already, the two become one and their copies are
    added up: what was asked for is still printed. Raises BadDataError or NotFoundError.
    """
    waiting = {one.id: one for one in tin.label_queue()}
    _put_all(tin, waiting, [_changed(one, design, copies) for one in _known(waiting, ids)])


def add_copies(tin: Tin, ids: Iterable[int], more: int) -> None:
    """So many copies more of each of these entries, or fewer; raises as `change_queued` does."""
    waiting = {one.id: one for one in tin.label_queue()}
    _put_all(tin, waiting, [_changed(one, None, one.copies + more) for one in _known(waiting, ids)])


def labels_printed(tin: Tin, ids: Iterable[int], next_start: int) -> None:
    """What was printed goes out of the queue, and the sheet's first free label moves on.

    One change. An entry that is out already is no fault: it was printed all the same.
    """
    start = parse_setting("label_start", str(next_start))
    waiting = {one.id for one in tin.label_queue()}
    gone = [one for one in dict.fromkeys(ids) if one in waiting]
    with tin.change(f"Labels printed; {start} is the next free one") as change:
        for row_id in gone:
            change.delete("label_queue", row_id)
        write_settings(tin, change, {"label_start": start})


def _known(waiting: dict[int, QueuedLabel], ids: Iterable[int]) -> list[QueuedLabel]:
    wanted = list(dict.fromkeys(ids))
    unknown = [one for one in wanted if one not in waiting]
    if unknown:
        raise NotFoundError(f"No label number {unknown[0]} waits to be printed.")
    return [waiting[one] for one in wanted]


def _changed(one: QueuedLabel, design: str | None, copies: int | None) -> QueuedLabel:
    new = replace(
        one,
        design=one.design if design is None else clean_line(design),
        copies=one.copies if copies is None else copies,
    )
    wrong = label_problem(new.design, new.copies)
    if wrong:
        raise BadDataError(wrong)
    return new


def _put_all(tin: Tin, waiting: dict[int, QueuedLabel], changed: list[QueuedLabel]) -> None:
    what = f"{len(changed)} label{'' if len(changed) == 1 else 's'}"
    with tin.change(f"Change {what} in the queue") as change:
        for one in changed:
            _put(change, waiting, one)


def _put(change: OpenChange, waiting: dict[int, QueuedLabel], new: QueuedLabel) -> None:
    """Into the place of the entry that it was; what is the same now goes into it."""
    for other in list(waiting.values()):
        if other.id != new.id and (other.code, other.design) == (new.code, new.design):
            new = replace(new, copies=min(MOST_COPIES, new.copies + other.copies))
            change.delete("label_queue", other.id)
            del waiting[other.id]
    if new.id in waiting:
        change.update("label_queue", new.id, {"design": new.design, "copies": new.copies})
        waiting[new.id] = new
