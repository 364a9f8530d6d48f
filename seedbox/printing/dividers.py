"""Divider cards: of several ways to say what stands behind a card, the fullest that fits it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import repeat
from pathlib import Path

from seedbox.errors import UsageError
from seedbox.printing.content import LabelContent, LabelJob, Printed
from seedbox.printing.drawing import texts_of
from seedbox.printing.fitting import ELLIPSIS
from seedbox.printing.growing import fitted
from seedbox.printing.labels import print_labels
from seedbox.printing.layout import Layouts
from seedbox.problems import Problem

USUAL_DESIGN = "divider"
USUAL_SHEET = {"a4": "a4-card-95x140", "letter": "letter-card-3.75x5.25"}
_LEGIBLE_PT = 8.0
"""Rather than to smaller type a list shrinks to fewer words (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Card:
    """A card: its heading, what stands behind it in words, the fullest first, and other fields."""

    group: str
    members: tuple[str, ...]
    fields: Mapping[str, str]


def print_dividers(cards: Sequence[Card], job: LabelJob, path: Path, *, dpi: int = 300) -> Printed:
    """Writes the cards as a PDF by the design and sheet of `job`, whose items are not looked at.

    Where even the shortest list does not fit a card, a warning names it.
    """
    if not cards:
        raise UsageError("There is nothing to print: no packets stand behind any card.")
    layouts = Layouts(job, job.sheet.scaled(job.scale_x, job.scale_y), dpi)
    chosen = [_content(card, layouts) for card in cards]
    items = [content for content, _ in chosen]
    cut = [card.group for card, (_, whole) in zip(cards, chosen, strict=True) if not whole]
    printed = print_labels(replace(job, items=items), path, proof=False, dpi=dpi)
    told = (Problem(f"not all that stands behind it fits the card: {', '.join(cut)}."),)
    return replace(printed, warnings=(*(told if cut else ()), *printed.warnings))


def _content(card: Card, layouts: Layouts) -> tuple[LabelContent, bool]:
    """The fields of a card, and whether its list is on it in full: the fullest that can be read,
    else the shortest that is there at all.
    """
    tried = [_set(card, members, layouts) for members in card.members]
    legible = [content for content, size in tried if size >= _LEGIBLE_PT]
    whole = [content for content, size in tried if size > 0]
    chosen = legible[:1] or whole[-1:] or [content for content, _ in tried[-1:]]
    return chosen[0], bool(whole)


def _set(card: Card, members: str, layouts: Layouts) -> tuple[LabelContent, float]:
    """The fields with such a list, and the least size of type [points]; 0 where it is cut."""
    content = LabelContent("", {**card.fields, "group": card.group, "members": members})
    design, layout = layouts.of(content)
    texts = texts_of(layout, design, content)
    lines = fitted(layout.words, texts)
    shown = "".join(run.text for line in lines for run in line.runs)
    cut = shown.count(ELLIPSIS) > sum(map(str.count, texts, repeat(ELLIPSIS)))
    return content, 0.0 if cut or not lines else min(line.size for line in lines)
