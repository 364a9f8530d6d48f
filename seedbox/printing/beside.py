"""Labels that are wider than high: code at the side, words beside it, bars along the foot."""

from __future__ import annotations

from dataclasses import replace

from seedbox.printing.content import MM, Box
from seedbox.printing.fitting import LEADING
from seedbox.printing.fonts import width
from seedbox.printing.frame import BARS_SIDE, QR_SIDE, Frame, NoRoomError
from seedbox.printing.places import Layout, SymbolPlace, TextPlace

SAMPLE_CODE = "WWWW WWWW"
GAP_MM = 1.2
_BARS_GAP_MM = 0.8
_QUIET_GAP_MM = 0.4
"""Beside a quiet zone, which is white already."""
_TALL_MM, _VERY_TALL_MM = 30.0, 50.0


def one_square(frame: Frame) -> Layout:
    """One QR symbol, the code in type below it where there is room."""
    return _with_square(frame, frame.safe, frame.inner, ())


def square_and_foot(frame: Frame) -> Layout:
    """A QR symbol and words above bars that run along the label's foot."""
    bars = _foot_bars(frame)
    foot = bars.box.top + _BARS_GAP_MM * MM
    return _with_square(
        frame, _without_foot(frame.safe, foot), _without_foot(frame.inner, foot), (bars,)
    )


def square_and_bars(frame: Frame) -> Layout:
    """A QR symbol, tall bars beside it, then words: for low, long labels."""
    square, typed = _column(frame, frame.safe, frame.inner)
    on_right = frame.code.place == "right"
    column = typed.box if typed else square.box
    unit, tall = frame.bars(frame.safe.width - column.width, frame.inner.height)
    across = BARS_SIDE * unit
    x = column.x - across if on_right else column.right
    low = frame.inner.y + (frame.inner.height - tall) / 2
    bars = SymbolPlace("code128", Box(x, low, across, tall), unit)
    edge = Box(min(x, column.x), column.y, column.width + across, column.height)
    box = _rest(frame, frame.inner, edge, _QUIET_GAP_MM)
    words, rules = frame.words(box, typed=typed is not None)
    return Layout((square, bars), words, typed, rules=rules)


def two_squares(frame: Frame) -> Layout:
    """The same QR symbol at both ends, the words between them."""
    square, typed = _column(frame, frame.safe, frame.inner)
    column = typed.box if typed else square.box
    mirrored = frame.width - square.box.right
    other = replace(square, box=replace(square.box, x=mirrored))
    left, right = sorted((square.box, other.box), key=lambda box: box.x)
    gap = (GAP_MM if column.width > square.box.width else _QUIET_GAP_MM) * MM
    low, high = max(left.right, frame.inner.x), min(right.x, frame.inner.right)
    if typed:
        low = max(low, typed.box.right) if typed.box.x < frame.width / 2 else low
        high = min(high, typed.box.x) if typed.box.x > frame.width / 2 else high
    box = Box(low + gap, frame.inner.y, high - low - 2 * gap, frame.inner.height)
    words, rules = frame.words(box, typed=typed is not None)
    return Layout((square, other), words, typed, rules=rules)


def foot_alone(frame: Frame) -> Layout:
    """Bars along the foot, words above them."""
    bars = _foot_bars(frame)
    box = _without_foot(frame.inner, bars.box.top + _BARS_GAP_MM * MM)
    words, rules = frame.words(box, typed=False)
    return Layout((bars,), words, rules=rules)


def bars_alone(frame: Frame) -> Layout:
    """Bars at the side, words beside them: for low, long labels."""
    inner = frame.inner
    unit, tall = frame.bars(frame.safe.width, inner.height)
    across, low = BARS_SIDE * unit, inner.y + (inner.height - tall) / 2
    left, right = frame.clear_x(low, low + tall)
    x = right - across if frame.code.place == "right" else left
    bars = SymbolPlace("code128", Box(x, low, across, tall), unit)
    words, rules = frame.words(_rest(frame, inner, bars.box, _QUIET_GAP_MM), typed=False)
    return Layout((bars,), words, rules=rules)


def no_code(frame: Frame) -> Layout:
    """Words alone."""
    words, rules = frame.words(frame.inner, typed=True)
    return Layout((), words, rules=rules)


def _with_square(frame: Frame, safe: Box, inner: Box, bars: tuple[SymbolPlace, ...]) -> Layout:
    square, typed = _column(frame, safe, inner)
    column = typed.box if typed else square.box
    gap = GAP_MM if column.width > square.box.width else _QUIET_GAP_MM
    words, rules = frame.words(_rest(frame, inner, column, gap), typed=typed is not None)
    return Layout((*bars, square), words, typed, rules=rules)


def _column(frame: Frame, safe: Box, inner: Box) -> tuple[SymbolPlace, TextPlace | None]:
    """A QR symbol half way up, with the code in type under it where there is room."""
    module = frame.qr(0.5 * safe.width, safe.height)
    side = module * QR_SIDE
    style = frame.type_style(_type_growth(inner.height))
    type_width = width(SAMPLE_CODE, style.weight)
    column = max(side, min(0.36 * safe.width, style.size * type_width))
    size = min(style.size, column / type_width)
    below = size * LEADING
    if size < style.smallest or side + below > safe.height:
        column, below = side, 0.0
    foot = safe.y + (safe.height - side - below) / 2
    left, right = frame.clear_x(foot, foot + side + below)
    if column > side:
        left, right = max(left, inner.x), min(right, inner.right)
    x = right - column if frame.code.place == "right" else left
    square = SymbolPlace("qr", Box(x + (column - side) / 2, foot + below, side, side), module)
    typed = TextPlace(Box(x, foot, column, below), (style,), centred=True) if below else None
    return square, typed


def _type_growth(height: float) -> float:
    if height < _TALL_MM * MM:
        return 1.0
    return 1.3 if height < _VERY_TALL_MM * MM else 1.8


def _rest(frame: Frame, inner: Box, column: Box, gap_mm: float) -> Box:
    """What the column at one side leaves of the room for words."""
    gap = gap_mm * MM
    on_right = frame.code.place == "right"
    left = inner.x if on_right else max(inner.x, column.right + gap)
    right = min(inner.right, column.x - gap) if on_right else inner.right
    return Box(left, inner.y, right - left, inner.height)


def _foot_bars(frame: Frame) -> SymbolPlace:
    low = frame.inner.y
    left, right = frame.clear_x(low, low + LEADING)
    unit, tall = frame.bars(right - left, 0.45 * frame.safe.height)
    across = BARS_SIDE * unit
    return SymbolPlace("code128", Box(left + (right - left - across) / 2, low, across, tall), unit)


def _without_foot(box: Box, foot: float) -> Box:
    if box.top <= foot:
        raise NoRoomError
    return Box(box.x, foot, box.width, box.top - foot)
