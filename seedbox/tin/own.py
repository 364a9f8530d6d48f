"""A person's own crops, and their own figures for any crop."""

from __future__ import annotations

import unicodedata
from collections.abc import Container

from seedbox.errors import BadDataError, NotFoundError
from seedbox.tin.drafts import LONGEST_LINE, LONGEST_NOTE
from seedbox.tin.file import Tin
from seedbox.tin.records import OwnCrop, OwnFigure
from seedbox.tin.text import clean_line, clean_note

PREFIX = "own:"


def add_own_crop(tin: Tin, name: str, *, family: str = "", note: str = "") -> OwnCrop:
    """Adds a crop that the almanac does not know; its id is made from its name."""
    name, family, note = clean_line(name), clean_line(family), clean_note(note)
    if not name:
        raise BadDataError("A crop needs a name.")
    _refuse_long(name, family, note)
    known = tin.own_crops()
    double = next((crop for crop in known if crop.name.casefold() == name.casefold()), None)
    if double is not None:
        raise BadDataError(f"There is a crop of your own called “{double.name}” already.")
    crop = OwnCrop(free_id(name, {crop.id for crop in known}), name, family, note)
    with tin.change(f"Add crop {name}") as change:
        change.insert(
            "own_crop", {"crop_id": crop.id, "name": name, "family": family, "note": note}
        )
    return crop


def remove_own_crop(tin: Tin, crop_id: str) -> None:
    """Removes a crop of one's own, with its figures; it stays while a packet, a plan or a want is
    of it."""
    row_id = tin.database.value("SELECT id FROM own_crop WHERE crop_id = ?", (crop_id,))
    if row_id is None:
        raise NotFoundError(f"There is no crop of your own “{crop_id}”.")
    for table in ("packet", "plan", "want"):
        used = tin.database.value(f"SELECT count(*) FROM {table} WHERE crop_id = ?", (crop_id,))
        if used:
            are = f"{table} is" if used == 1 else f"{table}s are"
            raise BadDataError(f"{used} {are} of {crop_id}: it stays.")
    with tin.change(f"Remove crop {crop_id}") as change:
        for (figure_id,) in tin.database.rows(
            "SELECT id FROM own_figure WHERE crop_id = ? ORDER BY id", (crop_id,)
        ):
            change.delete("own_figure", figure_id)
        change.delete("own_crop", row_id)


def set_own_figure(tin: Tin, crop_id: str, figure: str, value: str, *, note: str = "") -> OwnFigure:
    """Keeps a person's own figure for a crop. Whether the value makes sense for that figure is
    for the caller to check: the tin knows nothing of crops."""
    own = OwnFigure(crop_id, figure, clean_line(value), clean_note(note))
    if not (own.crop_id and own.figure and own.value):
        raise BadDataError("A figure of your own needs a crop, a name and a value.")
    _refuse_long(own.value, own.figure, own.note)
    row_id = _figure_row(tin, crop_id, figure)
    with tin.change(f"Set {figure} of {crop_id} to {own.value}") as change:
        if row_id is None:
            change.insert(
                "own_figure",
                {"crop_id": crop_id, "figure": figure, "value": own.value, "note": own.note},
            )
        else:
            change.update("own_figure", row_id, {"value": own.value, "note": own.note})
    return own


def clear_own_figure(tin: Tin, crop_id: str, figure: str) -> None:
    """Goes back to the almanac's figure."""
    row_id = _figure_row(tin, crop_id, figure)
    if row_id is None:
        raise NotFoundError(f"There is no figure of your own for {figure} of {crop_id}.")
    with tin.change(f"Clear {figure} of {crop_id}") as change:
        change.delete("own_figure", row_id)


def _figure_row(tin: Tin, crop_id: str, figure: str) -> int | None:
    found: int | None = tin.database.value(
        "SELECT id FROM own_figure WHERE crop_id = ? AND figure = ?", (crop_id, figure)
    )
    return found


def free_id(name: str, taken: Container[str]) -> str:
    """`own:` and the name in small letters; a number is added where two would be the same."""
    kept = (c if c.isalnum() else "-" for c in unicodedata.normalize("NFC", name).casefold())
    stem = PREFIX + ("-".join(part for part in "".join(kept).split("-") if part) or "crop")
    candidate, number = stem, 1
    while candidate in taken:
        number += 1
        candidate = f"{stem}-{number}"
    return candidate


def _refuse_long(name: str, family: str, note: str) -> None:
    if max(len(name), len(family)) > LONGEST_LINE:
        raise BadDataError(f"A name has more than {LONGEST_LINE} characters.")
    if len(note) > LONGEST_NOTE:
        raise BadDataError(f"The note has {len(note)} characters; {LONGEST_NOTE} are the most.")
