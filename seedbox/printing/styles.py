"""How a line of type wants to be set."""

from __future__ import annotations

from dataclasses import dataclass

FONT_FILES = {
    "regular": "SourceSansPro-Regular.ttf",
    "semibold": "SourceSansPro-Semibold.ttf",
    "italic": "SourceSansPro-It.ttf",
}
WEIGHTS = tuple(FONT_FILES)


@dataclass(frozen=True, slots=True, eq=False)
class Style:
    """How one line wants to be set: sizes [points], the most lines it may wrap to, and how early
    it is left out when room is short (1 stays longest). A `whole` one says nothing when it is
    cut, so it is left out instead. Each is its own key in the caches of what sets it.
    """

    weight: str
    size: float
    smallest: float
    most_lines: int
    keep: int
    whole: bool = False
