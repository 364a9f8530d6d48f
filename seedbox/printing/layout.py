"""Where code and words stand on a label of a given size."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache

from seedbox.errors import UsageError
from seedbox.printing.content import MM, Box
from seedbox.printing.designs import CodeStyle, Design
from seedbox.printing.fitting import LEADING, Style
from seedbox.printing.fonts import width
from seedbox.printing.sheets import Sheet
from seedbox.printing.symbols import CODE128_MOST_MODULES, CODE128_QUIET, QR_MODULES, QR_QUIET

QR_SIDE = QR_MODULES + 2 * QR_QUIET
BARS_SIDE = CODE128_MOST_MODULES + 2 * CODE128_QUIET
"""Widths of the symbols with their quiet zones, in modules."""

PRINTER_EDGE_MM = 4.3
"""Many printers leave this much of a page's edge white (common practice, no source)."""
_SAMPLE_CODE = "WWWW WWWW"
_STAKE, _UPRIGHT = 3.0, 1.15
"""Height over width from which a label is a stake, or has its code above the words."""
_LARGE_MM = 45.0
_STAKE_FLOOR = 1.3
"""Words on a stake are read standing: they shrink less, and fewer are kept."""
_LEAST_BAR_MM = 5.0
_GAP_MM = 1.2


@dataclass(frozen=True, slots=True)
class SymbolPlace:
    """A symbol with its quiet zone in `box`, one module `module` wide [points]. A turned one
    reads downwards.
    """

    kind: str
    box: Box
    module: float
    turned: bool = False


@dataclass(frozen=True, slots=True)
class TextPlace:
    """A box of words [points]; turned ones read downwards. `centred` lines stand in its middle."""

    box: Box
    styles: tuple[Style, ...]
    turned: bool = False
    centred: bool = False
    from_top: bool = False

    @property
    def measure(self) -> tuple[float, float]:
        """Length of a line, and room for lines [points]."""
        box = self.box
        return (box.height, box.width) if self.turned else (box.width, box.height)


@dataclass(frozen=True, slots=True)
class Layout:
    """Places on a label, from its bottom left [points]. When `typed` is None the code in type
    is the last line of `words`.
    """

    symbols: tuple[SymbolPlace, ...]
    words: TextPlace
    typed: TextPlace | None


@lru_cache(maxsize=64)
def lay_out(design: Design, sheet: Sheet, dpi: int) -> Layout:
    """The layout of a design on a sheet's labels; raises UsageError where the code has no room."""
    ratio = sheet.label_height_mm / sheet.label_width_mm
    arrange: Callable[[_Frame], Layout] = _beside
    if ratio >= _STAKE:
        arrange = _stake
    elif ratio >= _UPRIGHT:
        arrange = _above
    return arrange(_Frame(design, sheet, dpi, ratio >= _STAKE))


def whole_dots(wish_mm: float, least_mm: float, room_mm: float, dpi: int) -> float:
    """The module [mm] nearest to the wish that is a whole number of printer dots, is not below
    the least and fits `room_mm`; 0 when there is none.
    """
    dot = 25.4 / dpi
    slack = 1e-6
    fewest = math.ceil(least_mm / dot - slack)
    most = math.floor(room_mm / dot + slack)
    dots = min(max(round(wish_mm / dot), fewest), most)
    return dots * dot if dots >= fewest else 0.0


class _Frame:
    """The label's measures [points], and how large its code can be."""

    def __init__(self, design: Design, sheet: Sheet, dpi: int, is_stake: bool) -> None:
        self.design, self.sheet, self.dpi = design, sheet, dpi
        self.safe = _printable(sheet)
        shorter = min(self.safe.width, self.safe.height)
        self.margin = min(design.margin_mm * MM, 0.06 * shorter)
        self.inner = _inset(self.safe, self.margin)
        code = design.code
        self.wish = code.large_module_mm if shorter >= _LARGE_MM * MM else code.module_mm
        self.wish = code.stake_module_mm if is_stake else self.wish

    @property
    def code(self) -> CodeStyle:
        return self.design.code

    def qr(self, width: float, height: float) -> float:
        """Module of a QR symbol [points] in this room, its quiet zone included."""
        room = min(width, height) / QR_SIDE / MM
        module = whole_dots(self.wish, self.code.smallest_module_mm, room, self.dpi) * MM
        return module or self.no_room("QR", QR_SIDE * self.code.smallest_module_mm)

    def bars(self, length: float, height: float) -> tuple[float, float]:
        """Module and height of Code 128 bars [points] in this room."""
        room = length / BARS_SIDE / MM
        module = whole_dots(self.code.bar_mm, 0.25, room, self.dpi) * MM
        if not module or height < _LEAST_BAR_MM * MM:
            self.no_room("Code 128", BARS_SIDE * 0.25)
        return module, min(self.code.bar_height_mm * MM, height)

    def no_room(self, kind: str, needed_mm: float) -> float:
        """Refuses the job with a sentence."""
        sheet = self.sheet
        label = f"{sheet.name}, {sheet.label_width_mm:g} x {sheet.label_height_mm:g} mm"
        if self.code.symbol == "both":
            raise UsageError(
                f"A QR code and a Code 128 with their quiet zones do not both fit the labels of "
                f"{label}. Take a larger label, or a design with one code."
            )
        raise UsageError(
            f"A {kind} code with its quiet zone does not fit the labels of {label}: it needs "
            f"{needed_mm:.1f} mm at least. Take a larger label or another design."
        )

    def styles(self, height: float) -> tuple[Style, ...]:
        """The design's lines, grown where the box [points high] has room for larger type."""
        natural = sum(line.style.size for line in self.design.lines) * LEADING
        growth = min(max(height / natural, 1.0), self.design.most_growth)
        return tuple(_grown(line.style, growth) for line in self.design.lines)

    def type_style(self, growth: float = 1.0) -> Style:
        code = self.code
        return Style("semibold", code.type_pt * growth, code.smallest_type_pt, 1, 0)


def _beside(frame: _Frame) -> Layout:
    """Code on one side, words on the other; bars along the foot."""
    safe, inner = frame.safe, frame.inner
    symbols: list[SymbolPlace] = []
    if frame.code.has_bars:
        bars = _foot_bars(frame)
        symbols.append(bars)
        safe = _without_foot(safe, bars.box.top)
        inner = _without_foot(inner, bars.box.top)
    if not frame.code.has_qr:
        return _words_only(frame, tuple(symbols), inner)
    module = frame.qr(0.5 * safe.width, safe.height)
    side = module * QR_SIDE
    style = frame.type_style(1.0 if inner.height < 30 * MM else 1.3)
    type_width = width(_SAMPLE_CODE, style.weight)
    column = max(side, min(0.36 * safe.width, style.size * type_width))
    type_size = min(style.size, column / type_width)
    below = type_size * LEADING
    has_typed = type_size >= style.smallest and side + below <= safe.height
    column = column if has_typed else side
    edge = safe if column == side else inner
    on_right = frame.code.place == "right"
    x = edge.right - column if on_right else edge.x
    foot = safe.y + (safe.height - side - (below if has_typed else 0.0)) / 2
    if has_typed:
        foot += below
    square = Box(x + (column - side) / 2, foot, side, side)
    symbols.append(SymbolPlace("qr", square, module))
    gap = (_GAP_MM if column > side else 0.4) * MM
    left = inner.x if on_right else x + column + gap
    right = x - gap if on_right else inner.right
    words = _words(frame, Box(left, inner.y, right - left, inner.height), has_typed)
    typed = TextPlace(Box(x, foot - below, column, below), (style,), centred=True)
    return Layout(tuple(symbols), words, typed if has_typed else None)


def _above(frame: _Frame) -> Layout:
    """Code at the top, the code in type beside it, then bars, then words."""
    inner = frame.inner
    symbols: list[SymbolPlace] = []
    top = inner.top
    typed = None
    if frame.code.has_qr:
        module = frame.qr(inner.width, 0.5 * inner.height)
        side = module * QR_SIDE
        on_right = frame.code.place == "right"
        x = inner.right - side if on_right else inner.x
        symbols.append(SymbolPlace("qr", Box(x, top - side, side, side), module))
        typed = _typed_beside(frame, symbols[0].box, on_right)
        top -= side
    if frame.code.has_bars:
        unit, tall = frame.bars(frame.safe.width, 0.3 * inner.height)
        top -= tall + frame.margin
        bars = Box(frame.safe.x, top, BARS_SIDE * unit, tall)
        symbols.append(SymbolPlace("code128", bars, unit))
    top -= _GAP_MM * MM
    box = Box(inner.x, inner.y, inner.width, top - inner.y)
    words = replace(_words(frame, box, typed is not None), from_top=True)
    return Layout(tuple(symbols), words, typed)


def _typed_beside(frame: _Frame, square: Box, on_right: bool) -> TextPlace | None:
    """The code in type in the rest of the strip that the QR symbol stands in, if it fits."""
    inner, gap = frame.inner, _GAP_MM * MM
    x = inner.x if on_right else square.right + gap
    room = inner.width - square.width - gap
    style = frame.type_style(1.8)
    if room < style.smallest * width(_SAMPLE_CODE, style.weight):
        return None
    return TextPlace(Box(x, square.y, room, square.height), (style,))


def _stake(frame: _Frame) -> Layout:
    """Code at the very top, words reading downwards: what is pushed into the soil may rot."""
    safe, inner = frame.safe, frame.inner
    symbols: list[SymbolPlace] = []
    top = safe.top
    typed = None
    if frame.code.has_qr:
        module = frame.qr(safe.width, 0.4 * safe.height)
        side = module * QR_SIDE
        middle = Box(safe.x + (safe.width - side) / 2, top - side, side, side)
        symbols.append(SymbolPlace("qr", middle, module))
        top -= side
        style = frame.type_style(1.2)
        size = min(style.size, inner.width / width(_SAMPLE_CODE, style.weight))
        if size >= style.smallest:
            top -= size * LEADING
            typed = TextPlace(
                Box(inner.x, top, inner.width, size * LEADING), (style,), centred=True
            )
    top -= _GAP_MM * MM
    if frame.code.has_bars:
        unit, tall = frame.bars(0.45 * safe.height, inner.width)
        along = BARS_SIDE * unit
        box = Box(safe.x + (safe.width - tall) / 2, top - along, tall, along)
        symbols.append(SymbolPlace("code128", box, unit, turned=True))
        top -= along
    ground = safe.top - frame.design.above_ground * safe.height
    box = Box(inner.x, ground, inner.width, top - ground)
    words = _words(frame, box, typed is not None, turned=True)
    styles = tuple(
        replace(style, smallest=min(style.size, _STAKE_FLOOR * style.smallest))
        for style in words.styles
    )
    return Layout(tuple(symbols), replace(words, styles=styles), typed)


def _foot_bars(frame: _Frame) -> SymbolPlace:
    safe = frame.safe
    unit, tall = frame.bars(safe.width, 0.45 * safe.height)
    across = BARS_SIDE * unit
    box = Box(safe.x + (safe.width - across) / 2, frame.inner.y, across, tall)
    return SymbolPlace("code128", box, unit)


def _words_only(frame: _Frame, symbols: tuple[SymbolPlace, ...], inner: Box) -> Layout:
    return Layout(symbols, _words(frame, inner, has_typed=False), None)


def _words(frame: _Frame, box: Box, has_typed: bool, *, turned: bool = False) -> TextPlace:
    place = TextPlace(box, (), turned)
    styles = frame.styles(place.measure[1])
    styles = styles if has_typed else (*styles, frame.type_style())
    return replace(place, styles=styles)


def _grown(style: Style, growth: float) -> Style:
    return replace(style, size=style.size * growth, smallest=style.smallest * growth)


def _printable(sheet: Sheet) -> Box:
    """The label without what lies in the white edge that a printer leaves; the same for every
    label of a sheet, so that all look alike.
    """
    margins = (sheet.left_mm, sheet.right_mm, sheet.bottom_mm, sheet.top_mm)
    edge = 0.0 if sheet.is_roll else PRINTER_EDGE_MM
    left, right, bottom, top = (max(0.0, edge - margin) * MM for margin in margins)
    return Box(
        left,
        bottom,
        sheet.label_width_mm * MM - left - right,
        sheet.label_height_mm * MM - bottom - top,
    )


def _inset(box: Box, by: float) -> Box:
    return Box(box.x + by, box.y + by, box.width - 2 * by, box.height - 2 * by)


def _without_foot(box: Box, foot: float) -> Box:
    return Box(box.x, foot, box.width, box.top - foot)
