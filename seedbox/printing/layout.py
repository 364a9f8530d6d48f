"""Where code and words stand on a label of a given size."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache

from seedbox.printing.content import MM, Box
from seedbox.printing.designs import Design
from seedbox.printing.fitting import LEADING
from seedbox.printing.fonts import width
from seedbox.printing.frame import BARS_SIDE, QR_SIDE, Frame
from seedbox.printing.sheets import Sheet
from seedbox.printing.styles import Style

_SAMPLE_CODE = "WWWW WWWW"
_STAKE, _UPRIGHT = 3.0, 1.15
"""Height over width from which a label is a stake, or has its code above the words."""
_STAKE_FLOOR = 1.3
"""Words on a stake are read standing: they shrink less, and fewer are kept."""
_GAP_MM = 1.2
_BARS_GAP_MM = 0.8
_QUIET_GAP_MM = 0.4
"""Beside a quiet zone, which is white already."""
_TALL_MM = 30.0


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
    arrange: Callable[[Frame], Layout] = _beside
    if ratio >= _STAKE:
        arrange = _stake
    elif ratio >= _UPRIGHT:
        arrange = _above
    return arrange(Frame(design, sheet, dpi, ratio >= _STAKE))


def _beside(frame: Frame) -> Layout:
    """Code on one side, words on the other; bars along the foot."""
    safe, inner = frame.safe, frame.inner
    symbols: list[SymbolPlace] = []
    if frame.code.has_bars:
        symbols.append(_foot_bars(frame))
        foot = symbols[0].box.top + _BARS_GAP_MM * MM
        safe, inner = _without_foot(safe, foot), _without_foot(inner, foot)
    if not frame.code.has_qr:
        return Layout(tuple(symbols), _words(frame, inner, has_typed=False), None)
    square, typed = _code_column(frame, safe, inner)
    symbols.append(square)
    column = typed.box if typed else square.box
    gap = (_GAP_MM if column.width > square.box.width else _QUIET_GAP_MM) * MM
    on_right = frame.code.place == "right"
    left = inner.x if on_right else column.right + gap
    right = column.x - gap if on_right else inner.right
    words = _words(frame, Box(left, inner.y, right - left, inner.height), typed is not None)
    return Layout(tuple(symbols), words, typed)


def _code_column(frame: Frame, safe: Box, inner: Box) -> tuple[SymbolPlace, TextPlace | None]:
    """A QR symbol half way up, with the code in type under it where there is room."""
    module = frame.qr(0.5 * safe.width, safe.height)
    side = module * QR_SIDE
    style = frame.type_style(1.0 if inner.height < _TALL_MM * MM else 1.3)
    type_width = width(_SAMPLE_CODE, style.weight)
    column = max(side, min(0.36 * safe.width, style.size * type_width))
    size = min(style.size, column / type_width)
    below = size * LEADING
    if size < style.smallest or side + below > safe.height:
        column, below = side, 0.0
    edge = safe if column == side else inner
    x = edge.right - column if frame.code.place == "right" else edge.x
    foot = safe.y + (safe.height - side - below) / 2
    square = SymbolPlace("qr", Box(x + (column - side) / 2, foot + below, side, side), module)
    typed = TextPlace(Box(x, foot, column, below), (style,), centred=True) if below else None
    return square, typed


def _above(frame: Frame) -> Layout:
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


def _typed_beside(frame: Frame, square: Box, on_right: bool) -> TextPlace | None:
    """The code in type in the rest of the strip that the QR symbol stands in, if it fits."""
    inner, gap = frame.inner, _GAP_MM * MM
    x = inner.x if on_right else square.right + gap
    room = inner.width - square.width - gap
    style = frame.type_style(1.8)
    if room < style.smallest * width(_SAMPLE_CODE, style.weight):
        return None
    return TextPlace(Box(x, square.y, room, square.height), (style,))


def _stake(frame: Frame) -> Layout:
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


def _foot_bars(frame: Frame) -> SymbolPlace:
    safe = frame.safe
    unit, tall = frame.bars(safe.width, 0.45 * safe.height)
    across = BARS_SIDE * unit
    box = Box(safe.x + (safe.width - across) / 2, frame.inner.y, across, tall)
    return SymbolPlace("code128", box, unit)


def _words(frame: Frame, box: Box, has_typed: bool, *, turned: bool = False) -> TextPlace:
    place = TextPlace(box, (), turned)
    styles = frame.styles(place.measure[1])
    styles = styles if has_typed else (*styles, frame.type_style())
    return replace(place, styles=styles)


def _without_foot(box: Box, foot: float) -> Box:
    return Box(box.x, foot, box.width, box.top - foot)
