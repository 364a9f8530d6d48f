"""Text into a box: shrink to a floor, then wrap, then cut with an ellipsis; never overrun."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from seedbox.printing.fonts import ASCENT, DESCENT, Run, clean, runs, width

LEADING = ASCENT + DESCENT
"""Height of a line, of its size."""
ELLIPSIS = "…"
_LONGEST = 300
_STEP_PT = 0.5


@dataclass(frozen=True, slots=True)
class Style:
    """How one line wants to be set: sizes [points], the most lines it may wrap to, and how early
    it is left out when room is short (1 stays longest).
    """

    weight: str
    size: float
    smallest: float
    most_lines: int
    keep: int


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
    """The lines that fill a box [points] from the top, each text in its style."""
    shown = tuple(bool(text) for text in texts)
    sizes = plan_sizes(styles, shown, box_height)
    spare = box_height - sum(size * LEADING for size in sizes)
    lines: list[Line] = []
    for text, style, size in zip(texts, styles, sizes, strict=True):
        if size:
            room = size * LEADING + max(spare, 0.0)
            fitted = fit(text, style, size, box_width, room)
            lines.extend(fitted)
            spare += size * LEADING - sum(line.size * LEADING for line in fitted)
    return lines


@lru_cache(maxsize=1024)
def plan_sizes(
    styles: tuple[Style, ...], shown: tuple[bool, ...], height: float
) -> tuple[float, ...]:
    """The size [points] of each line before its width is looked at; 0 where it is left out.

    Lines shrink together, none below its smallest; when that is not enough, those that may go
    first are left out.
    """
    chosen = [place for place, there in enumerate(shown) if there]
    chosen.sort(key=lambda place: styles[place].keep)
    while chosen and sum(styles[place].smallest for place in chosen) * LEADING > height:
        chosen.pop()
    sizes = [0.0] * len(styles)
    scale = _scale([styles[place] for place in chosen], height / LEADING)
    for place in chosen:
        sizes[place] = max(styles[place].smallest, styles[place].size * scale)
    return tuple(sizes)


@lru_cache(maxsize=16384)
def fit(
    text: str, style: Style, size: float, box_width: float, box_height: float
) -> tuple[Line, ...]:
    """One text in its box [points]: on one line if its smallest size allows, else wrapped."""
    text = _shortened(text)
    one_line = width(text, style.weight)
    if one_line * style.smallest <= box_width:
        return (_line(text, style, min(size, box_width / one_line) if one_line else size),)
    size = min(size, style.smallest)
    room = min(style.most_lines, int(box_height / (size * LEADING) + 1e-6))
    wrapped = _wrapped(text, style.weight, box_width / size, max(room, 1))
    if len(wrapped) > 1:
        most = min(style.size, box_height / (len(wrapped) * LEADING))
        size, wrapped = _larger(text, style.weight, box_width, (size, most), wrapped)
    return tuple(_line(part, style, size) for part in wrapped if part)


def clusters(text: str) -> Iterator[str]:
    """The text in pieces that must not be cut: a character with the marks that sit on it."""
    held = ""
    for char in text:
        if held and not unicodedata.category(char).startswith("M"):
            yield held
            held = ""
        held += char
    if held:
        yield held


def _scale(styles: Sequence[Style], budget: float) -> float:
    """The factor, 1 at most, at which lines of these sizes add up to the budget [points]."""
    free = list(styles)
    while free:
        scale = budget / sum(style.size for style in free)
        floored = [style for style in free if style.size * scale < style.smallest]
        if scale >= 1 or not floored:
            return min(scale, 1.0)
        budget -= sum(style.smallest for style in floored)
        free = [style for style in free if style not in floored]
    return 0.0


def _larger(
    text: str, weight: str, box_width: float, sizes: tuple[float, float], wrapped: list[str]
) -> tuple[float, list[str]]:
    """The largest of `sizes` (from, to) at which no more lines hold all of the text; else as is."""
    size = sizes[1]
    while size > sizes[0]:
        tried = _wrapped(text, weight, box_width / size, len(wrapped))
        if not tried[-1].endswith(ELLIPSIS):
            return size, tried
        size -= _STEP_PT
    return sizes[0], wrapped


def _line(text: str, style: Style, size: float) -> Line:
    return Line(size, runs(text, style.weight))


def _shortened(text: str) -> str:
    text = clean(text[: 4 * _LONGEST])
    return text if len(text) <= _LONGEST else text[:_LONGEST].rstrip() + ELLIPSIS


def _wrapped(text: str, weight: str, limit: float, most: int) -> list[str]:
    """Up to `most` lines no wider than `limit` at 1 point; the last one takes the cut."""
    lines: list[str] = []
    rest = text
    while rest and len(lines) < most - 1:
        head, rest = _head(rest, weight, limit)
        if not head:
            break
        lines.append(head)
    if rest:
        lines.append(_cut(rest, weight, limit))
    return lines


def _head(text: str, weight: str, limit: float) -> tuple[str, str]:
    """As many words as fit, and the rest; a word wider than the line is broken."""
    if width(text, weight) <= limit:
        return text, ""
    taken = ""
    for word in text.split(" "):
        longer = f"{taken} {word}" if taken else word
        if width(longer, weight) > limit:
            break
        taken = longer
    taken = taken or _as_much(text, weight, limit)
    return taken, text[len(taken) :].lstrip(" ")


def _cut(text: str, weight: str, limit: float) -> str:
    """The text, or as much of it as fits before an ellipsis; empty if not even that fits."""
    if width(text, weight) <= limit:
        return text
    mark = width(ELLIPSIS, weight)
    return _as_much(text, weight, limit - mark).rstrip() + ELLIPSIS if mark <= limit else ""


def _as_much(text: str, weight: str, limit: float) -> str:
    taken, used = "", 0.0
    for cluster in clusters(text):
        used += width(cluster, weight)
        if used > limit:
            break
        taken += cluster
    return taken
