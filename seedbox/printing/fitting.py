"""Text into a box: shrink to a floor, then wrap, then cut with an ellipsis; never overrun."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from seedbox.printing import breaking, planning
from seedbox.printing.breaking import cut, is_cut, wrapped
from seedbox.printing.fonts import Run, clean, runs, width
from seedbox.printing.planning import by_size, foremost, look_alikes, plan
from seedbox.printing.reading_order import visual
from seedbox.printing.styles import Style

LEADING = planning.LEADING
ELLIPSIS = breaking.ELLIPSIS
LEAST_PT = 4.5
"""Before a word is cut, its line shrinks to this (common practice, no source)."""
_LONGEST = 1200
_CACHED = 1024
_STEP_PT = 0.5
_LARGEST_PT = 1000.0
_ROUNDING = 1e-6


@dataclass(frozen=True, slots=True)
class Line:
    """A line of type in a box: its size [points] and its runs from left to right."""

    size: float
    runs: tuple[Run, ...]

    @property
    def width(self) -> float:
        return self.size * sum(run.width for run in self.runs)


def fit_block(
    texts: Sequence[str], styles: tuple[Style, ...], box_width: float, box_height: float
) -> list[Line]:
    """The lines that fill a box [points] from the top, each text in its style. Rather than cut what
    is kept longest, all may shrink to LEAST_PT.
    """
    fitted = _fit_all(texts, styles, (box_width, box_height))
    if _foremost_is_cut(texts, styles, fitted):
        small = _small(styles)
        tighter = _fit_all(texts, small, (box_width, box_height))
        if not _foremost_is_cut(texts, small, tighter):
            styles, fitted = small, tighter
    return [line for lines in _ranked(_alike(fitted, styles), styles) for line in lines]


def _fit_all(
    texts: Sequence[str], styles: tuple[Style, ...], room: tuple[float, float]
) -> list[tuple[Line, ...]]:
    """The lines of each text; none where there is no room for it."""
    box_width, box_height = room
    wanted = tuple(
        lines_wanted(text, style, box_width) if text else 0
        for text, style in zip(texts, styles, strict=True)
    )
    planned_for = plan(styles, wanted, box_height)
    spare = planned_for.spare
    fitted: list[tuple[Line, ...]] = []
    for text, style, (size, count) in zip(texts, styles, planned_for.each, strict=True):
        planned = size * count * LEADING
        lines = fit(text, style, size, count, (box_width, planned + spare)) if count else ()
        if style.whole and lines and _ends_cut(lines[-1]):
            lines = ()
        spare += planned - LEADING * sum(line.size for line in lines)
        fitted.append(lines)
    return fitted


def _foremost_is_cut(
    texts: Sequence[str], styles: tuple[Style, ...], fitted: Sequence[tuple[Line, ...]]
) -> bool:
    for at in foremost(styles):
        if texts[at] and len(texts[at]) < _LONGEST:
            lines = fitted[at]
            if not lines or any(map(_ends_cut, lines)):
                return True
    return False


@lru_cache(maxsize=256)
def _small(styles: tuple[Style, ...]) -> tuple[Style, ...]:
    """The same, each down to LEAST_PT."""
    return tuple(replace(style, smallest=min(style.smallest, LEAST_PT)) for style in styles)


def fit_line(text: str, style: Style, room: tuple[float, float]) -> list[Line]:
    """A single line in its room (width, height) [points]."""
    return list(fit(text, style, min(style.size, room[1] / LEADING), 1, room))


def lines_wanted(text: str, style: Style, box_width: float) -> int:
    """How many lines the text takes at its smallest size, no more than it may wrap to."""
    text, natural = _measured(text, style.weight)
    limit = box_width / style.smallest
    if natural <= limit or style.most_lines == 1:
        return 1 if text else 0
    return len(wrapped(text, style.weight, limit, style.most_lines))


@lru_cache(maxsize=_CACHED)
def fit(
    text: str, style: Style, size: float, count: int, room: tuple[float, float]
) -> tuple[Line, ...]:
    """One text in its room (width, height) [points]: shrunk on one line, or wrapped to `count`."""
    text, natural = _measured(text, style.weight)
    box_width = room[0]
    if natural * size <= box_width:
        return (_line(size, text, style.weight),) if text else ()
    if count == 1:
        size = max(min(style.smallest, LEAST_PT), min(size, box_width / natural))
        parts = [cut(text, style.weight, box_width / size + _ROUNDING)]
    else:
        size, parts = _set(text, style, size, count, room)
    return tuple(_line(size, part, style.weight) for part in parts if part)


def _line(size: float, text: str, weight: str) -> Line:
    return Line(size, runs(visual(text), weight))


def _set(
    text: str, style: Style, size: float, count: int, room: tuple[float, float]
) -> tuple[float, list[str]]:
    """Several lines: as large as the room allows while they hold all of the text, down to
    LEAST_PT; cut only when even that is too large.
    """
    box_width, box_height = room
    tried = style.size
    while tried >= min(size, LEAST_PT):
        lines = min(style.most_lines, int(box_height / (tried * LEADING) + _ROUNDING))
        lines = max(lines, count if tried <= size else 0)
        parts = wrapped(text, style.weight, box_width / tried, lines) if lines else [ELLIPSIS]
        if not is_cut(parts):
            return tried, parts
        tried -= _STEP_PT
    return size, wrapped(text, style.weight, box_width / size, count)


def _ends_cut(line: Line) -> bool:
    """Whether an ellipsis stands at either end: on the left where the line runs that way."""
    return ELLIPSIS in (line.runs[0].text[:1], line.runs[-1].text[-1:])


def _alike(fitted: list[tuple[Line, ...]], styles: tuple[Style, ...]) -> list[tuple[Line, ...]]:
    """Single lines of one wished size and weight are set alike, at the smallest of them; those
    at their floor already (cut, perhaps) do not draw the others down.
    """
    for group in look_alikes(styles):
        single = [at for at in group if len(fitted[at]) == 1]
        sizes = [fitted[at][0].size for at in single]
        free = [size for at, size in zip(single, sizes, strict=True) if size > styles[at].smallest]
        least = min(free, default=0.0)
        for at, size in zip(single, sizes, strict=True):
            if 0 < least < size:
                fitted[at] = (Line(least, fitted[at][0].runs),)
    return fitted


def _ranked(
    fitted: Sequence[tuple[Line, ...]], styles: tuple[Style, ...]
) -> list[tuple[Line, ...]]:
    """No text is set larger than one that wished to be larger, down to its own smallest size."""
    ranked = list(fitted)
    most = _LARGEST_PT
    for at in by_size(styles):
        if not ranked[at]:
            continue
        size = ranked[at][0].size
        if size > most:
            size = max(most, min(size, styles[at].smallest))
            ranked[at] = tuple(Line(size, line.runs) for line in ranked[at])
        most = min(most, size)
    return ranked


@lru_cache(maxsize=_CACHED)
def _measured(text: str, weight: str) -> tuple[str, float]:
    """The text as it is set, and its width at a size of 1 point."""
    text = _shortened(text)
    return text, width(text, weight)


def _shortened(text: str) -> str:
    text = clean(text[: 4 * _LONGEST])
    return text if len(text) <= _LONGEST else text[:_LONGEST].rstrip() + ELLIPSIS
