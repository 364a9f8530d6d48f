"""The words and the code on the panels of a folding packet, all of them clear of the folds."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING

from seedbox.printing.coded_paper import OUTDOOR_MODULE_MM, CodedPaper, code_side
from seedbox.printing.content import LabelContent
from seedbox.printing.fitting import ELLIPSIS, LEADING
from seedbox.printing.folding_net import TOP_FLAP_MM, Net, Rectangle
from seedbox.printing.fonts import clean
from seedbox.printing.list_page import broken
from seedbox.printing.paper import text_width
from seedbox.printing.styles import Style

if TYPE_CHECKING:
    from seedbox.printing.folding import FoldingPacket

Rows = list[tuple[str, str]]

CODE_FROM_FOLD_MM = 5.0
"""A code on a fold does not read; its quiet zone keeps so far away."""
_EDGE_MM, _BACK_EDGE_MM = 5.0, 4.0
_BELOW_FLAP_MM, _GAP_MM, _FRAME_MM = 1.5, 1.5, 1.2
_MM_OF_PT = 25.4 / 72

_FRONT = (
    ("crop", Style("semibold", 24.0, 11.0, 2, 1)),
    ("variety", Style("regular", 17.0, 8.5, 2, 3)),
    ("botanical", Style("italic", 9.0, 6.5, 1, 9)),
    ("line", Style("semibold", 10.0, 7.0, 2, 5)),
    ("source", Style("regular", 9.0, 6.5, 2, 8)),
)
_BESIDE_CODE = (
    ("code", Style("semibold", 12.0, 8.0, 1, 1)),
    ("year", Style("regular", 10.0, 7.0, 1, 2)),
    ("seeds", Style("regular", 10.0, 7.0, 1, 3)),
)
_CAUTION = Style("semibold", 11.0, 7.0, 3, 1)
_FLAP = (Style("semibold", 11.0, 6.5, 1, 2), Style("semibold", 15.0, 8.0, 1, 1))
_USUAL_MM, _MOST_GROWTH = 70.0, 1.5
_BACK_SIZES = (12.0, 11.0, 10.0, 9.5, 9.0, 8.5, 8.0, 7.5, 7.0, 6.5, 6.0)
_MOST_LINES, _LONGEST = 14, 800
_UNIT = re.compile(r"(\d) (%|°C|mm|cm|days?\b|Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)")


def draw_front(paper: CodedPaper, front: Rectangle, content: LabelContent) -> bool:
    """Crop and variety below the closed flap, the caution in a frame, the code at the foot.

    Gives whether the caution could be shown in full.
    """
    side = code_side(OUTDOOR_MODULE_MM, paper.dpi)
    x, width = front.x + _EDGE_MM, front.width - 2 * _EDGE_MM
    foot = front.bottom - CODE_FROM_FOLD_MM - side
    # Half a dot more: the code is moved onto whole dots, and must not come nearer to the fold.
    paper.code(content.code, x + 0.05, foot - 0.05, OUTDOOR_MODULE_MM)
    beside = (x + side + _GAP_MM, foot + 1.0, width - side - _GAP_MM, side - 1.0)
    paper.block([content.text(name) for name, _ in _BESIDE_CODE], _styles(_BESIDE_CODE), beside)
    top = front.y + TOP_FLAP_MM + _BELOW_FLAP_MM
    low, whole = _draw_caution(paper, content, (x, foot - _GAP_MM, width), 0.45 * (foot - top))
    texts = [content.text(name) for name, _ in _FRONT]
    growth = min(max(front.width / _USUAL_MM, 1.0), _MOST_GROWTH)
    paper.block(texts, _styles(_FRONT, growth), (x, top, width, low - top))
    return whole


@lru_cache(maxsize=64)
def _styles(parts: tuple[tuple[str, Style], ...], growth: float = 1.0) -> tuple[Style, ...]:
    """Larger type on a larger packet, whose least size stays."""
    return tuple(replace(style, size=growth * style.size) for _, style in parts)


def _draw_caution(
    paper: CodedPaper, content: LabelContent, above: tuple[float, float, float], most: float
) -> tuple[float, bool]:
    """A framed caution that stands on a line (x, y, width), `most` mm high; gives its upper edge,
    and whether all of it is there.
    """
    x, y, width = above
    caution = clean(content.text("caution"))
    if not caution:
        return y, True
    inner = width - 2 * _FRAME_MM
    # As high as its words are at their smallest, or higher where one line can be larger.
    lines = len(broken(caution, inner, _CAUTION.smallest))
    size = _CAUTION.size if lines == 1 else _CAUTION.smallest
    height = min(min(lines, _CAUTION.most_lines) * size * LEADING * _MM_OF_PT + 0.1, most)
    top = y - height - 2 * _FRAME_MM
    corners = ((x, top), (x + width, top), (x + width, y), (x, y))
    paper.outline(corners, pt=0.9)
    box = (x + _FRAME_MM, top + _FRAME_MM, inner, height)
    shown = paper.block([caution], (_CAUTION,), box, centred=True)
    return top - _GAP_MM, caution == shown


def draw_flap(paper: CodedPaper, net: Net, content: LabelContent) -> None:
    """The code in type with the crop, on its head: upright when the flap is over the front."""
    (left, _), (right, _) = net.top_flap[1], net.top_flap[2]
    height = TOP_FLAP_MM - CODE_FROM_FOLD_MM - 2.0
    named = ", ".join(filter(None, (content.text("crop"), content.text("variety"))))
    box = (left + 1.5, net.y + 2.0, right - left - 3.0, height)
    paper.block([named, content.text("code")], _FLAP, box, centred=True, turned=True)


def draw_back(paper: CodedPaper, back: Rectangle, packet: FoldingPacket) -> list[str]:
    """Headings and words in two columns, in the largest type that holds them all.

    Gives the headings for which there was no room even in the smallest, or not for all of it.
    """
    x, width = back.x + _BACK_EDGE_MM, back.width - 2 * _BACK_EDGE_MM
    top, room = back.y + _EDGE_MM, back.height - _EDGE_MM - _BACK_EDGE_MM
    rows = [(heading, words) for heading, words in packet.back if words]
    size, kept = _size_for(rows, width, room)
    for heading, lines in _set(kept, width, size):
        baseline = top + 0.95 * size * _MM_OF_PT
        paper.text(x, baseline, heading, size, weight="semibold")
        for line in lines:
            paper.text(x + _words_at(kept, size), baseline, line, size)
            baseline += LEADING * size * _MM_OF_PT
        top += _row_height(len(lines), size)
    cut = [heading for heading, lines in _set(kept, width, size) if lines[-1].endswith(ELLIPSIS)]
    return [*cut, *(heading for heading, _ in rows[len(kept) :])]


def _size_for(rows: Rows, width: float, room: float) -> tuple[float, Rows]:
    """The largest type in which the rows fit, and the rows: the last are left out where even the
    smallest holds no more.
    """
    kept = list(rows)
    while kept:
        for size in _BACK_SIZES:
            if _height(kept, width, size) <= room:
                return size, kept
        kept.pop()
    return _BACK_SIZES[-1], kept


def _set(rows: Rows, width: float, size: float) -> list[tuple[str, list[str]]]:
    """Each heading with its words in lines."""
    room = width - _words_at(rows, size)
    return [(heading, _lines(words, room, size)) for heading, words in rows]


def _lines(words: str, room: float, size: float) -> list[str]:
    text = _UNIT.sub("\\1\N{NO-BREAK SPACE}\\2", clean(words[:_LONGEST]))
    lines = broken(text, room, size)
    if len(lines) <= _MOST_LINES and len(words) <= _LONGEST:
        return lines
    *whole, last = lines[:_MOST_LINES]
    return [*whole, f"{last[:-1]}{ELLIPSIS}"]


def _words_at(rows: Rows, size: float) -> float:
    """Where the words begin: right of the longest heading."""
    return max((text_width(heading, size, "semibold") for heading, _ in rows), default=0.0) + 1.6


def _row_height(lines: int, size: float) -> float:
    return (lines * LEADING + 0.3) * size * _MM_OF_PT


def _height(rows: Rows, width: float, size: float) -> float:
    return sum(_row_height(len(lines), size) for _, lines in _set(rows, width, size))
