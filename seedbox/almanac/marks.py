"""How far a figure can be trusted, and what it is a figure of."""

from __future__ import annotations

from enum import StrEnum


class Mark(StrEnum):
    """Where a figure comes from. A person's own figure always goes before the almanac's."""

    SEEN = "seen"
    MEMORY = "from memory"
    COMPUTED = "computed"
    YOURS = "yours"


class Basis(StrEnum):
    """Whether a figure is the crop's own, borrowed from its family, or from all crops."""

    CROP = "crop"
    FAMILY = "family"
    ALL = "all"
    YOURS = "yours"


OWN_SOURCE = "your own figure"


def weakest(marks: set[Mark]) -> Mark:
    """The mark of something that rests on several figures: memory if any is from memory."""
    if Mark.MEMORY in marks:
        return Mark.MEMORY
    return next(iter(marks)) if len(marks) == 1 else Mark.COMPUTED


def borrowed(marks: set[Mark]) -> Mark:
    """The mark of a median over other crops: a guess from memory stays one, however averaged."""
    return Mark.MEMORY if marks == {Mark.MEMORY} else Mark.COMPUTED
