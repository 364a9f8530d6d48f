"""Labels that wait to be printed: put there from any list, printed together, taken out again."""

from __future__ import annotations

from collections.abc import Iterable

from seedbox.errors import BadDataError, NotFoundError
from seedbox.tin import codes
from seedbox.tin.changes import OpenChange
from seedbox.tin.file import Tin
from seedbox.tin.list_records import QueuedLabel
from seedbox.tin.text import clean_line

MOST_COPIES = 1_000
LONGEST_DESIGN = 80
_TABLE_OF = {"P": "packet", "S": "sowing", "T": "germination_test"}


def queue_labels(
    tin: Tin, code_texts: Iterable[str], design: str = "", copies: int = 1
) -> list[QueuedLabel]:
    """Puts a label of each code into the queue; returns their entries, each once.

    What waits already in that design gets the new number of copies, so that asking twice does not
    print twice. Raises BadDataError or NotFoundError, with nothing queued, for a code that is none
    or that the tin does not know.
    """
    wanted = list(dict.fromkeys(codes.parse(text) for text in code_texts))
    design = clean_line(design)
    _refuse(design, copies)
    for code in wanted:
        _refuse_unknown(tin, code)
    waiting = {one.code: one for one in tin.label_queue() if one.design == design}
    with tin.change(f"Queue {_counted(len(wanted))}") as change:
        return [_queued(change, waiting.get(code), code, design, copies) for code in wanted]


def unqueue(tin: Tin, ids: Iterable[int]) -> None:
    """Takes entries out of the queue."""
    known = {one.id for one in tin.label_queue()}
    wanted = list(dict.fromkeys(ids))
    unknown = [one for one in wanted if one not in known]
    if unknown:
        raise NotFoundError(f"No label number {unknown[0]} waits to be printed.")
    with tin.change(f"Take {_counted(len(wanted))} out of the queue") as change:
        for row_id in wanted:
            change.delete("label_queue", row_id)


def clear_queue(tin: Tin) -> int:
    """Empties the queue; returns how many entries waited."""
    waiting = [one.id for one in tin.label_queue()]
    unqueue(tin, waiting)
    return len(waiting)


def label_problem(design: str, copies: int) -> str:
    """What is wrong with an entry, as a sentence; empty when nothing is."""
    if not 1 <= copies <= MOST_COPIES:
        return f"Print 1 to {MOST_COPIES:,} copies of a label, not {copies}."
    if len(design) > LONGEST_DESIGN:
        return f"The name of a design has {LONGEST_DESIGN} characters at most."
    return ""


def forget_labels(tin: Tin, change: OpenChange, gone: Iterable[str]) -> None:
    """As part of a change: what is taken out of the record needs no label any more."""
    codes_gone = set(gone)
    for one in tin.label_queue():
        if one.code in codes_gone:
            change.delete("label_queue", one.id)


def _queued(
    change: OpenChange, before: QueuedLabel | None, code: str, design: str, copies: int
) -> QueuedLabel:
    columns = {"code": code, "design": design, "copies": copies}
    if before is None:
        return QueuedLabel(change.insert("label_queue", columns), code, design, copies)
    change.update("label_queue", before.id, columns)
    return QueuedLabel(before.id, code, design, copies)


def _refuse(design: str, copies: int) -> None:
    wrong = label_problem(design, copies)
    if wrong:
        raise BadDataError(wrong)


def _refuse_unknown(tin: Tin, code: str) -> None:
    if not tin.database.rows(f"SELECT 1 FROM {_TABLE_OF[code[0]]} WHERE code = ?", (code,)):
        raise NotFoundError(f"There is no {codes.KINDS[code[0]]} {codes.shown(code)} in the tin.")


def _counted(number: int) -> str:
    return f"{number} label{'' if number == 1 else 's'}"
