"""How large a code may be on a label, and where a printer can print."""

from __future__ import annotations

import math
from dataclasses import replace

from seedbox.errors import UsageError
from seedbox.printing.content import MM, Box
from seedbox.printing.designs import CodeStyle, Design
from seedbox.printing.fitting import LEADING
from seedbox.printing.sheets import Sheet
from seedbox.printing.styles import Style
from seedbox.printing.symbols import CODE128_MOST_MODULES, CODE128_QUIET, QR_MODULES, QR_QUIET

QR_SIDE = QR_MODULES + 2 * QR_QUIET
BARS_SIDE = CODE128_MOST_MODULES + 2 * CODE128_QUIET
"""Widths of the symbols with their quiet zones, in modules."""

PRINTER_EDGE_MM = 4.3
"""Many printers leave this much of a page's edge white (common practice, no source)."""
_LARGE_MM = 45.0
_LEAST_BAR_MM = 5.0


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
