"""How large a code may be on a label, and where a printer can print."""

from __future__ import annotations

import math
from dataclasses import replace

from seedbox.printing.content import MM, Box
from seedbox.printing.designs import CodeStyle, Design
from seedbox.printing.places import TextPlace
from seedbox.printing.sheets import Sheet
from seedbox.printing.styles import Style
from seedbox.printing.symbols import CODE128_MOST_MODULES, CODE128_QUIET, QR_MODULES, QR_QUIET

QR_SIDE = QR_MODULES + 2 * QR_QUIET
BARS_SIDE = CODE128_MOST_MODULES + 2 * CODE128_QUIET
"""Widths of the symbols with their quiet zones, in modules."""

PRINTER_EDGE_MM = 4.3
"""Many printers leave this much of a page's edge white (common practice, no source)."""
LEAST_BAR_MM = 0.25
_LARGE_MM = 45.0
_LEAST_TALL_MM = 5.0
_RUGGED_TALL_MM = 8.0
_LEAST_WORDS_MM = (9.0, 4.5)
_MOST_PENCIL = 0.3
"""A pencil line is left out where it would take more than this share of the words' room."""
_RULE_MM = 0.6


class NoRoomError(Exception):
    """This arrangement does not fit the label; the next one is tried."""


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


class Frame:
    """The label's measures [points], and how large its code can be. `safe` is what a printer
    reaches, `inner` that without the design's margin.
    """

    def __init__(self, design: Design, sheet: Sheet, dpi: int, *, is_stake: bool) -> None:
        self.design, self.sheet, self.dpi = design, sheet, dpi
        self.width, self.height = sheet.label_width_mm * MM, sheet.label_height_mm * MM
        self.radius = sheet.corner_mm * MM
        self.safe = _printable(sheet)
        shorter = min(self.safe.width, self.safe.height)
        # A square corner inset by this much lies inside a round one.
        self.margin = max(min(design.margin_mm * MM, 0.06 * shorter), 0.3 * self.radius)
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
        if not module:
            raise NoRoomError
        return module

    def bars(self, length: float, height: float) -> tuple[float, float]:
        """Module and height of Code 128 bars [points] in this room."""
        room = length / BARS_SIDE / MM
        module = whole_dots(self.code.bar_mm, LEAST_BAR_MM, room, self.dpi) * MM
        least = _RUGGED_TALL_MM if self.code.layout == "rugged" else _LEAST_TALL_MM
        if not module or height < least * MM:
            raise NoRoomError
        return module, min(self.code.bar_height_mm * MM, height)

    def beside_corner(self, gap: float) -> float:
        """How far from one edge of a round corner a box must stay [points] that is `gap` away
        from the other edge.
        """
        if gap >= self.radius:
            return 0.0
        return self.radius - math.sqrt(self.radius**2 - (self.radius - gap) ** 2)

    def clear_x(self, low: float, high: float) -> tuple[float, float]:
        """From where to where, across, a box from `low` to `high` misses the corners."""
        need = self.beside_corner(max(0.0, min(low, self.height - high)))
        return max(self.safe.x, need), min(self.safe.right, self.width - need)

    def words(
        self, box: Box, *, typed: bool, turned: bool = False, from_top: bool = False
    ) -> tuple[TextPlace, tuple[Box, ...]]:
        """The box of words, with a line for the pencil at its foot where the design wants one;
        the code in type closes the words when it has no other place.
        """
        if box.width < 0 or box.height < 0:
            raise NoRoomError
        box, rules = self._pencil(box, turned)
        styles = tuple(line.style for line in self.design.lines)
        styles = styles if typed or not self.code.printed else (*styles, self.type_style())
        place = TextPlace(box, styles, self.design.most_growth, turned, from_top=from_top)
        if place.measure[0] < _LEAST_WORDS_MM[0] * MM or place.measure[1] < _LEAST_WORDS_MM[1] * MM:
            raise NoRoomError
        return place, rules

    def type_style(self, growth: float = 1.0) -> Style:
        code = self.code
        return Style("semibold", code.type_pt * growth, code.smallest_type_pt, 1, 0)

    def _pencil(self, box: Box, turned: bool) -> tuple[Box, tuple[Box, ...]]:
        """The box without the strip for a pencil, and the line that is drawn in it."""
        strip, rule = self.design.pencil_mm * MM, _RULE_MM * MM
        across = box.width if turned else box.height
        if not strip or strip > _MOST_PENCIL * across:
            return box, ()
        if turned:
            left = replace(box, x=box.x + strip, width=box.width - strip)
            return left, (Box(box.x + rule, box.y, 0.0, box.height),)
        left = replace(box, y=box.y + strip, height=box.height - strip)
        return left, (Box(box.x, box.y + rule, box.width, 0.0),)


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
