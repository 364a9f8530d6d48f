"""What goes onto labels: the words of one label, and the whole print job."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar, overload

from seedbox.problems import Problem

if TYPE_CHECKING:
    from seedbox.printing.designs import Design
    from seedbox.printing.sheets import Sheet

Thing = TypeVar("Thing")

MM = 72 / 25.4
"""Points [1/72 inch] in a millimetre."""

FIELDS = (
    "advice",
    "botanical",
    "caution",
    "cells",
    "code",
    "crop",
    "final_count",
    "first_count",
    "germination",
    "good_until",
    "group",
    "harvested",
    "hazard",
    "how_to_sow",
    "laid_on",
    "law",
    "left",
    "line",
    "members",
    "month",
    "note",
    "number",
    "origin",
    "packet",
    "place",
    "pretreatment",
    "printed_on",
    "reference",
    "sealed",
    "seeds",
    "sharer",
    "sow_by",
    "sown_on",
    "source",
    "store",
    "tally",
    "temperature",
    "town",
    "treated",
    "treatment",
    "variety",
    "year",
)
"""The fields that a design may show. A label that lacks one leaves it out."""


@dataclass(frozen=True, slots=True)
class LabelContent:
    """The code of one thing and what is written beside it, by field name (see FIELDS); its own
    design where it is not the job's.
    """

    code: str
    fields: Mapping[str, str] = field(default_factory=dict)
    design: Design | None = None

    def text(self, name: str) -> str:
        """The words of one field; empty when there are none."""
        return typed_code(self.code) if name == "code" else self.fields.get(name, "")


class Contents(Sequence[LabelContent]):
    """Labels whose words are made when they are asked for, and not kept: `make` gives those of
    one of `things`.
    """

    def __init__(self, things: Sequence[Thing], make: Callable[[Thing], LabelContent]) -> None:
        self._things: Sequence[Any] = things
        self._make: Callable[[Any], LabelContent] = make

    def __len__(self) -> int:
        return len(self._things)

    @overload
    def __getitem__(self, at: int) -> LabelContent: ...
    @overload
    def __getitem__(self, at: slice) -> Sequence[LabelContent]: ...
    def __getitem__(self, at: int | slice) -> LabelContent | Sequence[LabelContent]:
        if isinstance(at, slice):
            return Contents(self._things[at], self._make)
        return self._make(self._things[at])


@dataclass(frozen=True, slots=True)
class LabelJob:
    """Labels to print. `start` is the first free label of a part-used sheet, 1 at top left,
    counted along the rows; `outlines` None leaves the choice to the sheet; `length_mm` is for
    rolls alone.

    Offsets [mm on the paper] move everything right and down for a printer that feeds askew.
    Scales are what a printer makes of 1 mm (1.01: one per cent too long): places and sizes of
    labels are divided by them, so that they come out where the sheet has them.
    """

    design: Design
    sheet: Sheet
    items: Sequence[LabelContent]
    start: int = 1
    copies: int = 1
    offset_x_mm: float = 0.0
    offset_y_mm: float = 0.0
    outlines: bool | None = None
    length_mm: float | None = None
    scale_x: float = 1.0
    scale_y: float = 1.0


@dataclass(frozen=True, slots=True)
class Printed:
    """What was printed. `unreadable` names the codes that could not be read back from the page;
    `warnings` tell of characters that no font has, and the like.
    """

    path: Path
    labels: int
    pages: int
    proofed: bool
    unreadable: tuple[str, ...] = ()
    warnings: tuple[Problem, ...] = ()


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle in points [1/72 inch], `y` up from the bottom."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        return self.x + self.width

    @property
    def top(self) -> float:
        return self.y + self.height


def typed_code(code: str) -> str:
    """A code as people read it: `P4K7QMX2` becomes `P4K7 QMX2`."""
    return f"{code[:4]} {code[4:]}" if len(code) == 8 else code
