"""How many lines and which sizes the texts of a box get, before their widths are looked at."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import zip_longest

from seedbox.printing.fonts import ASCENT, DESCENT
from seedbox.printing.styles import Style

LEADING = ASCENT + DESCENT
"""Height of a line, of its size."""
FOREMOST = 3
"""Lines of this `keep` or less wrap before lesser lines are given room."""
_ROUNDING = 1e-6


@dataclass(frozen=True, slots=True)
class Plan:
    """Size [points] and lines of each text, and the height [points] that they leave."""

    each: tuple[tuple[float, int], ...]
    spare: float


@lru_cache(maxsize=1024)
def plan(styles: tuple[Style, ...], wanted: tuple[int, ...], height: float) -> Plan:
    """Room for texts that want so many lines at their smallest size, in a box so high [points]."""
    counts = plan_lines(styles, wanted, height)
    each = tuple(zip(plan_sizes(styles, counts, height), counts, strict=True))
    return Plan(each, height - LEADING * sum(size * count for size, count in each))


@lru_cache(maxsize=256)
def by_size(styles: tuple[Style, ...]) -> tuple[int, ...]:
    """The places of the styles, the largest first."""
    return tuple(sorted(range(len(styles)), key=lambda at: -styles[at].size))


@lru_cache(maxsize=256)
def look_alikes(styles: tuple[Style, ...]) -> tuple[tuple[int, ...], ...]:
    """The places of styles that wish to look the same: of one weight and size."""
    groups: dict[tuple[str, float], list[int]] = {}
    for at, style in enumerate(styles):
        groups.setdefault((style.weight, style.size), []).append(at)
    return tuple(tuple(group) for group in groups.values() if len(group) > 1)


@lru_cache(maxsize=256)
def foremost(styles: tuple[Style, ...]) -> tuple[int, ...]:
    """The places of the styles that are kept longest."""
    return tuple(at for at, style in enumerate(styles) if style.keep == 1)


def plan_lines(
    styles: tuple[Style, ...], wanted: tuple[int, ...], height: float
) -> tuple[int, ...]:
    """How many lines each text gets; 0 where it is left out for want of room [points].

    In order of keeping, each gets one line; the foremost get what they want at once, but leave
    one line to the next in that order; a whole one gets all that it wants or nothing. The others
    wrap into what is left at the end.
    """
    counts = [0] * len(styles)
    order = sorted(filter(wanted.__getitem__, range(len(styles))), key=lambda at: styles[at].keep)
    left = height + _ROUNDING
    for at, following in zip_longest(order, order[1:]):
        line = styles[at].smallest * LEADING
        reserve = styles[following].smallest * LEADING if following is not None else 0.0
        if left < line:
            break
        whole = styles[at].whole
        most = wanted[at] if whole or styles[at].keep <= FOREMOST else 1
        counts[at] = min(most, max(1, int((left - reserve) / line)))
        if whole and counts[at] < wanted[at]:
            counts[at] = 0
        left -= counts[at] * line
    for at in filter(counts.__getitem__, order):
        line = styles[at].smallest * LEADING
        more = min(wanted[at] - counts[at], int(left / line))
        counts[at] += more
        left -= more * line
    return tuple(counts)


def plan_sizes(
    styles: tuple[Style, ...], counts: tuple[int, ...], height: float
) -> tuple[float, ...]:
    """The size [points] of each text before its width is looked at; 0 where it is left out.

    Single lines shrink together, none below its smallest; wrapped ones are set at their smallest.
    """
    budget = height / LEADING
    budget -= sum(
        style.smallest * count for style, count in zip(styles, counts, strict=True) if count > 1
    )
    single = [style for style, count in zip(styles, counts, strict=True) if count == 1]
    scale = _scale(single, budget)
    return tuple(
        0.0 if not count else max(style.smallest, style.size * scale if count == 1 else 0.0)
        for style, count in zip(styles, counts, strict=True)
    )


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
