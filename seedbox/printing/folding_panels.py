"""The words and the code on the panels of a folding packet, all of them clear of the folds."""

from __future__ import annotations

import re
from collections.abc import Iterable

from seedbox.printing.coded_paper import CodedPaper, code_side
from seedbox.printing.content import LabelContent
from seedbox.printing.fitting import ELLIPSIS, LEADING
from seedbox.printing.folding_design import FoldingDesign, styles_of, texts_of
from seedbox.printing.folding_net import Net, Rectangle
from seedbox.printing.fonts import clean
from seedbox.printing.list_page import broken
from seedbox.printing.paper import text_width
from seedbox.printing.styles import Style

Rows = list[tuple[str, str]]

_EDGE_MM, _BACK_EDGE_MM = 5.0, 4.0
_BELOW_FLAP_MM, _GAP_MM, _FRAME_MM = 1.5, 1.5, 1.2
_MM_OF_PT = 25.4 / 72

_USUAL_MM, _MOST_GROWTH = 70.0, 1.5
_MOST_LINES, _LONGEST = 14, 800
_UNIT = re.compile(r"(\d) (%|°C|mm|cm|days?\b|Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)")
_COUNT = re.compile(r"(\d) of (\d)")
_HARD = "\N{NO-BREAK SPACE}"


def draw_front(paper: CodedPaper, net: Net, design: FoldingDesign, content: LabelContent) -> bool:
    """Crop and variety below the closed flap, the caution in a frame, the code at the foot.

    Gives whether the caution could be shown in full.
    """
    front, side = net.front, code_side(design.module_mm, paper.dpi)
    x, width = front.x + _EDGE_MM, front.width - 2 * _EDGE_MM
    foot = front.bottom - design.from_fold_mm - side
    # A little more: the code is moved onto whole dots, and must not come nearer to the fold.
    at = front.x + design.from_fold_mm + 0.05
    paper.code(content.code, at, foot - 0.05, design.module_mm)
    left = at + side + _GAP_MM
    beside = (left, foot + 1.0, x + width - left, side - 1.0)
    paper.block(texts_of(design.beside_code, content), styles_of(design.beside_code), beside)
    top = front.y + design.flaps.top_mm + _BELOW_FLAP_MM
    above = (x, foot - _GAP_MM, width)
    low, whole = _draw_caution(paper, design.caution, content, above, 0.45 * (foot - top))
    growth = min(max(front.width / _USUAL_MM, 1.0), _MOST_GROWTH)
    box = (x, top, width, low - top)
    paper.block(texts_of(design.front, content), styles_of(design.front, growth), box)
    return whole


def _draw_caution(
    paper: CodedPaper,
    style: Style,
    content: LabelContent,
    above: tuple[float, float, float],
    most: float,
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
    lines = len(broken(caution, inner, style.smallest))
    size = style.size if lines == 1 else style.smallest
    height = min(min(lines, style.most_lines) * size * LEADING * _MM_OF_PT + 0.1, most)
    top = y - height - 2 * _FRAME_MM
    corners = ((x, top), (x + width, top), (x + width, y), (x, y))
    paper.outline(corners, pt=0.9)
    box = (x + _FRAME_MM, top + _FRAME_MM, inner, height)
    shown = paper.block([caution], (style,), box, centred=True)
    return top - _GAP_MM, caution == shown


def draw_flap(paper: CodedPaper, net: Net, design: FoldingDesign, content: LabelContent) -> None:
    """The code in type with the crop, on its head: upright when the flap is over the front."""
    (left, _), (right, _) = net.top_flap[1], net.top_flap[2]
    height = design.flaps.top_mm - _EDGE_MM - 2.0
    box = (left + 1.5, net.y + 2.0, right - left - 3.0, height)
    texts, styles = texts_of(design.flap, content), styles_of(design.flap)
    paper.block(texts, styles, box, centred=True, turned=True)


def draw_back(
    paper: CodedPaper, back: Rectangle, design: FoldingDesign, told: Iterable[tuple[str, str]]
) -> list[str]:
    """Headings and words in two columns, in the largest type that holds them all.

    Gives the headings for which there was no room even in the smallest, or not for all of it.
    """
    x, width = back.x + _BACK_EDGE_MM, back.width - 2 * _BACK_EDGE_MM
    top, room = back.y + _EDGE_MM, back.height - _EDGE_MM - _BACK_EDGE_MM
    rows = design.told(told)
    size, kept = _size_for(rows, design, width, room)
    for heading, lines in _set(kept, width, size):
        baseline = top + 0.95 * size * _MM_OF_PT
        paper.text(x, baseline, heading, size, weight="semibold")
        for line in lines:
            paper.text(x + _words_at(kept, size), baseline, line, size)
            baseline += LEADING * size * _MM_OF_PT
        top += _row_height(len(lines), size)
    cut = [heading for heading, lines in _set(kept, width, size) if lines[-1].endswith(ELLIPSIS)]
    return [*cut, *(row[0] for row in rows if row not in kept)]


def _size_for(rows: Rows, design: FoldingDesign, width: float, room: float) -> tuple[float, Rows]:
    """The largest type in which the rows fit, and the rows: without some, by the design's order,
    where even the smallest holds no more.
    """
    kept = list(rows)
    while kept:
        for size in design.back_sizes:
            if _height(kept, width, size) <= room:
                return size, kept
        kept = design.shorter(kept)
    return design.smallest_pt, kept


def _set(rows: Rows, width: float, size: float) -> list[tuple[str, list[str]]]:
    """Each heading with its words in lines."""
    room = width - _words_at(rows, size)
    return [(heading, _lines(words, room, size)) for heading, words in rows]


def _lines(words: str, room: float, size: float) -> list[str]:
    lines = broken(_held_together(clean(words[:_LONGEST])), room, size)
    if len(lines) <= _MOST_LINES and len(words) <= _LONGEST:
        return lines
    *whole, last = lines[:_MOST_LINES]
    return [*whole, f"{last[:-1]}{ELLIPSIS}"]


def _held_together(text: str) -> str:
    """A number stays with its unit, `6 of 20` in one line."""
    return _COUNT.sub(rf"\1{_HARD}of{_HARD}\2", _UNIT.sub(rf"\1{_HARD}\2", text))


def _words_at(rows: Rows, size: float) -> float:
    """Where the words begin: right of the longest heading."""
    return max((text_width(heading, size, "semibold") for heading, _ in rows), default=0.0) + 1.6


def _row_height(lines: int, size: float) -> float:
    return (lines * LEADING + 0.3) * size * _MM_OF_PT


def _height(rows: Rows, width: float, size: float) -> float:
    return sum(_row_height(len(lines), size) for _, lines in _set(rows, width, size))
