"""Labels that are higher than wide: code at the top; stakes and cards."""

from __future__ import annotations

from dataclasses import replace

from seedbox.printing.beside import GAP_MM, SAMPLE_CODE
from seedbox.printing.content import MM, Box
from seedbox.printing.fitting import LEADING
from seedbox.printing.fonts import width
from seedbox.printing.frame import BARS_SIDE, QR_SIDE, Frame
from seedbox.printing.places import Layout, SymbolPlace, TextPlace

_STAKE_FLOOR = 1.15
"""Words on a stake are read standing: they shrink less, and fewer are kept."""
_CARD_GROWTH = 1.3
"""The head of a card is what is read: the words below it stay small."""


def above(frame: Frame, kinds: tuple[str, ...]) -> Layout:
    """Code at the top, the code in type beside it, then bars, words, and at the foot the code
    again where it is wanted twice.
    """
    inner = frame.inner
    symbols: list[SymbolPlace] = []
    top, typed = inner.top, None
    if "qr" in kinds:
        module = frame.qr(inner.width, 0.5 * inner.height)
        side = module * QR_SIDE
        on_right = frame.code.place == "right"
        x = inner.right - side if on_right else inner.x
        symbols.append(SymbolPlace("qr", Box(x, top - side, side, side), module))
        typed = _typed_beside(frame, symbols[0].box, on_right)
        top -= side
    if "code128" in kinds:
        place = frame.safe if symbols else inner
        unit, tall = frame.bars(place.width, 0.3 * inner.height)
        top -= tall + (frame.margin if symbols else 0.0)
        across = BARS_SIDE * unit
        x = place.x + (place.width - across) / 2
        symbols.append(SymbolPlace("code128", Box(x, top, across, tall), unit))
    if symbols:
        top -= GAP_MM * MM
    foot = inner.y
    if kinds.count("qr") > 1:
        last = symbols[0].box
        symbols.append(replace(symbols[0], box=replace(last, y=foot)))
        foot += last.height + GAP_MM * MM
    box = Box(inner.x, foot, inner.width, top - foot)
    words, rules = frame.words(box, typed=typed is not None, from_top=True)
    return Layout(tuple(symbols), words, typed, rules=rules)


def stake(frame: Frame, kinds: tuple[str, ...]) -> Layout:
    """Code at the very top, words reading downwards: what is pushed into the soil may rot. A
    second symbol stands at the other end of what is above the ground.
    """
    safe, inner = frame.safe, frame.inner
    symbols: list[SymbolPlace] = []
    ground = max(inner.y, safe.top - frame.design.above_ground * safe.height)
    top, typed = safe.top, None
    if "qr" in kinds:
        symbols.append(_top_square(frame))
        top = symbols[0].box.y
        typed = _typed_below(frame, top)
        top -= typed.box.height if typed else 0.0
    if kinds.count("qr") > 1:
        first = symbols[0]
        low = max(ground, frame.beside_corner(first.box.x))
        symbols.append(replace(first, box=replace(first.box, y=low)))
        ground = low + first.box.height
    top -= GAP_MM * MM
    if "code128" in kinds:
        bars = _along(frame, top, ground)
        symbols.append(bars)
        top = bars.box.y
    box = Box(inner.x, ground, inner.width, top - ground)
    words, rules = frame.words(box, typed=typed is not None, turned=True)
    styles = tuple(
        replace(style, smallest=min(style.size, _STAKE_FLOOR * style.smallest))
        for style in words.styles
    )
    return Layout(tuple(symbols), replace(words, styles=styles), typed, rules=rules)


def card(frame: Frame) -> Layout:
    """A strip of large type at the top that stands out over its neighbours, words below it."""
    inner = frame.inner
    strip = min(frame.design.tab_mm * MM, 0.5 * inner.height)
    styles = tuple(line.style for line in frame.design.lines)
    head = Box(inner.x, inner.top - strip, inner.width, strip)
    tab = TextPlace(head, styles[:1], frame.design.most_growth, centred=True)
    below = Box(inner.x, inner.y, inner.width, inner.height - strip - GAP_MM * MM)
    words, rules = frame.words(below, typed=True, from_top=True)
    edge = Box(inner.x, head.y - GAP_MM * MM / 2, inner.width, 0.0)
    words = replace(words, styles=styles[1:], growth=min(words.growth, _CARD_GROWTH))
    return Layout((), words, tab=tab, rules=(edge, *rules))


def _top_square(frame: Frame) -> SymbolPlace:
    safe = frame.safe
    module = frame.qr(safe.width, 0.4 * safe.height)
    side = module * QR_SIDE
    x = safe.x + (safe.width - side) / 2
    top = min(safe.top, frame.height - frame.beside_corner(min(x, frame.width - x - side)))
    return SymbolPlace("qr", Box(x, top - side, side, side), module)


def _typed_below(frame: Frame, top: float) -> TextPlace | None:
    inner, style = frame.inner, frame.type_style(1.2)
    size = min(style.size, inner.width / width(SAMPLE_CODE, style.weight))
    if size < style.smallest:
        return None
    high = size * LEADING
    return TextPlace(Box(inner.x, top - high, inner.width, high), (style,), centred=True)


def _along(frame: Frame, top: float, ground: float) -> SymbolPlace:
    """Bars that run down the stake, as tall as its width allows."""
    unit, tall = frame.bars(0.62 * (top - ground), frame.inner.width)
    along = BARS_SIDE * unit
    x = frame.safe.x + (frame.safe.width - tall) / 2
    return SymbolPlace("code128", Box(x, top - along, tall, along), unit, turned=True)


def _typed_beside(frame: Frame, square: Box, on_right: bool) -> TextPlace | None:
    """The code in type in the rest of the strip that the QR symbol stands in, if it fits."""
    inner, gap = frame.inner, GAP_MM * MM
    x = inner.x if on_right else square.right + gap
    room = inner.width - square.width - gap
    style = frame.type_style(1.8)
    if room < style.smallest * width(SAMPLE_CODE, style.weight):
        return None
    return TextPlace(Box(x, square.y, room, square.height), (style,))
