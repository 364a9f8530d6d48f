"""How much larger type becomes where few words have much room."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from math import sqrt

from seedbox.printing.fitting import LEADING, Line, fit_block, fit_line
from seedbox.printing.places import TextPlace
from seedbox.printing.styles import Style


def fitted(place: TextPlace, texts: Sequence[str]) -> list[Line]:
    """The lines of a box of words, each text in its style, as large as the box allows."""
    length, room = place.measure
    styles = _grown(place.styles, tuple(map(bool, texts)), room, place.growth)
    if len(styles) == 1:
        return fit_line(texts[0], styles[0], (length, room))
    return fit_block(texts, styles, length, room)


@lru_cache(maxsize=512)
def _grown(
    styles: tuple[Style, ...], present: tuple[bool, ...], room: float, most: float
) -> tuple[Style, ...]:
    """The styles, larger where the lines that are there leave room [points high]."""
    natural = LEADING * sum(
        style.size for style, there in zip(styles, present, strict=True) if there
    )
    growth = min(max(room / natural, 1.0), most) if natural else 1.0
    if growth == 1:
        return styles
    return tuple(
        replace(style, size=style.size * growth, smallest=style.smallest * sqrt(growth))
        for style in styles
    )
