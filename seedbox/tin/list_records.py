"""Lists that a person keeps beside seed and garden: wants, words for the swap, labels to print."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

USUAL_WORTH = 3


@dataclass(frozen=True, slots=True)
class Want:
    """What one would take at a swap: so many portions of a crop, of any variety where none is said.

    `worth` runs from 1 (nice to have) to 5 (badly wanted).
    """

    id: int
    crop_id: str
    variety: str = ""
    portions: int = 1
    worth: int = USUAL_WORTH
    note: str = ""


class SwapWord(StrEnum):
    """A person's word over the program's: offer it in spite of a caution, or keep it back."""

    OFFER = "offer"
    KEEP = "keep"


@dataclass(frozen=True, slots=True)
class SwapChoice:
    """The word for one packet; with `portions` it is offered, but at most so many."""

    id: int
    packet_id: int
    choice: SwapWord
    portions: int | None = None


@dataclass(frozen=True, slots=True)
class QueuedLabel:
    """A label that waits to be printed. An empty `design` is the usual one for its kind of code."""

    id: int
    code: str
    design: str = ""
    copies: int = 1
