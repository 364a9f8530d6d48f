"""Wants: what one would take at a swap, how much of it, and how dearly."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict, fields, replace
from typing import Any

from seedbox.errors import BadDataError, NotFoundError
from seedbox.problems import Problem
from seedbox.tin.drafts import LONGEST_LINE, LONGEST_NOTE
from seedbox.tin.file import Tin
from seedbox.tin.list_records import USUAL_WORTH, Want
from seedbox.tin.text import clean_line, clean_note

MOST_PORTIONS = 1_000
WORTHS = range(1, 6)
_EDITABLE = {field.name for field in fields(Want)} - {"id"}


def add_want(
    tin: Tin,
    crop_id: str,
    *,
    variety: str = "",
    portions: int = 1,
    worth: int = USUAL_WORTH,
    note: str = "",
) -> Want:
    """Writes a want down. Raises BadDataError when it is on the list already, or unsound."""
    want = _checked(tin, Want(0, crop_id, variety, portions, worth, note))
    with tin.change(f"Want {_told(want)}") as change:
        return replace(want, id=change.insert("want", want_columns(want)))


def change_want(tin: Tin, want_id: int, /, **changed: Any) -> Want:
    """Changes fields of a want: crop_id, variety, portions, worth, note."""
    wrong = sorted(changed.keys() - _EDITABLE)
    if wrong:
        raise BadDataError(f"A want's {', '.join(wrong)} cannot be edited.")
    want = _checked(tin, replace(_found(tin, want_id), **changed))
    with tin.change(f"Change the want of {_subject(want)}") as change:
        change.update("want", want_id, want_columns(want))
    return want


def remove_want(tin: Tin, want_id: int) -> None:
    """Strikes a want out."""
    want = _found(tin, want_id)
    with tin.change(f"Strike out the want of {_subject(want)}") as change:
        change.delete("want", want_id)


def tidied(want: Want) -> Want:
    """The want without control characters and stray spaces."""
    return replace(
        want,
        crop_id=clean_line(want.crop_id),
        variety=clean_line(want.variety),
        note=clean_note(want.note),
    )


def check_want(want: Want) -> list[Problem]:
    """Everything wrong with a want by itself, each with its field; empty when it is sound."""
    return [Problem(sentence, field=field) for field, sentence in _faults(want)]


def want_key(want: Want) -> tuple[str, str]:
    """By what two wants are one: crop and variety, whatever the capitals."""
    return want.crop_id, want.variety.casefold()


def want_columns(want: Want) -> dict[str, Any]:
    """A want as it lies in the table."""
    columns = asdict(want)
    del columns["id"]
    return columns


def _checked(tin: Tin, want: Want) -> Want:
    want = tidied(want)
    problems = check_want(want)
    if any(one.id != want.id and want_key(one) == want_key(want) for one in tin.wants()):
        problems.append(Problem(f"{_subject(want)} is on the list of wants already.", field="crop"))
    if problems:
        raise BadDataError(" ".join(problem.sentence for problem in problems))
    return want


def _found(tin: Tin, want_id: int) -> Want:
    found = next((one for one in tin.wants() if one.id == want_id), None)
    if found is None:
        raise NotFoundError(f"There is no want number {want_id} in the tin.")
    return found


def _faults(want: Want) -> Iterator[tuple[str, str]]:
    if not want.crop_id:
        yield "crop", "A want needs a crop."
    if not 1 <= want.portions <= MOST_PORTIONS:
        yield "portions", f"Want 1 to {MOST_PORTIONS:,} portions, not {want.portions}."
    if want.worth not in WORTHS:
        yield "worth", f"Worth is 1 (nice to have) to 5 (badly wanted), not {want.worth}."
    if max(len(want.crop_id), len(want.variety)) > LONGEST_LINE:
        yield "variety", f"A name has {LONGEST_LINE} characters at most."
    if len(want.note) > LONGEST_NOTE:
        yield "note", f"The note has {len(want.note)} characters; {LONGEST_NOTE} are the most."


def _subject(want: Want) -> str:
    return f"{want.crop_id} {want.variety}".strip()


def _told(want: Want) -> str:
    return f"{want.portions} portion{'' if want.portions == 1 else 's'} of {_subject(want)}"
