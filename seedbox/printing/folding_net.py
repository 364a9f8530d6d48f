"""The net of a seed packet that is cut from one sheet, folded and glued: where every edge lies.

Seen from the printed side, from left to right: the side flap, the front, the back. The side and the
bottom flap hang on the front and are folded behind it; their printed side takes the glue, and the
back is pressed onto them. The top flap hangs on the back and comes over the front when the packet
is closed. Lengths are mm, `y` counts downwards.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, replace

from seedbox.errors import UsageError
from seedbox.printing.sheets import PAPER_MM

PAGES = {"a4": ("A4", 5.0), "letter": ("Letter", 6.35)}
"""The paper, and what is left white on each side [mm]; on Letter a quarter of an inch."""
LEAST_MM = (40.0, 70.0)
"""A packet that is narrower or lower has no room for a code and words."""
_ROUNDING_MM = 1e-6
_OWN_SIZE = re.compile(r"(\d+(?:[.,]\d+)?)\s*[x×]\s*(\d+(?:[.,]\d+)?)(?:\s*mm)?")

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Flaps:
    """Depths of the flaps. Their short sides lean in by `taper_degrees`, so that they slip in
    beside the folds; the back is `narrower_mm` than the front, or it would stand out over it.
    The side flap gains what the back loses.
    """

    top_mm: float = 20.0
    bottom_mm: float = 15.0
    side_mm: float = 12.0
    taper_degrees: float = 12.0
    narrower_mm: float = 0.75

    def lean(self, depth: float) -> float:
        """How far the short side of a flap so deep leans in."""
        return depth * math.tan(math.radians(self.taper_degrees))


USUAL_FLAPS = Flaps()


@dataclass(frozen=True, slots=True)
class FoldingSize:
    """A packet of `width_mm` by `height_mm` when it is folded and closed."""

    name: str
    width_mm: float
    height_mm: float
    flaps: Flaps = USUAL_FLAPS

    @property
    def side_flap_mm(self) -> float:
        return self.flaps.side_mm + self.flaps.narrower_mm

    @property
    def net_width_mm(self) -> float:
        return self.flaps.side_mm + 2 * self.width_mm

    @property
    def net_height_mm(self) -> float:
        return self.flaps.top_mm + self.height_mm + self.flaps.bottom_mm

    def rows_on(self, page: str) -> int:
        """How many nets stand above each other on a page; 0 when not even one fits it."""
        paper, margin = PAGES[page]
        width, height = (side - 2 * margin + _ROUNDING_MM for side in PAPER_MM[paper])
        return int(height // self.net_height_mm) if self.net_width_mm <= width else 0


def _size(width: float, height: float, flaps: Flaps = USUAL_FLAPS) -> FoldingSize:
    return FoldingSize(f"{width:g}x{height:g}", width, height, flaps)


# Usual sizes of seed packets, from memory.
SIZES = {
    size.name: size for size in map(_size, (57, 64, 70, 76, 79, 86), (89, 108, 100, 114, 140, 152))
}
USUAL_SIZE = "70x100"


def folding_size(text: str, flaps: Flaps = USUAL_FLAPS) -> FoldingSize:
    """A size by its name, or one's own as width by height in mm, such as `80x120`."""
    written = _OWN_SIZE.fullmatch(text.strip().lower())
    if written is None:
        raise UsageError(
            f"“{text}” is no packet size. Write width x height in mm, such as 80x120.",
            hint=f"Usual sizes: {', '.join(SIZES)}.",
        )
    width, height = (float(side.replace(",", ".")) for side in written.groups())
    size = _size(width, height, flaps)
    if size.width_mm < LEAST_MM[0] or size.height_mm < LEAST_MM[1]:
        raise UsageError(
            f"A packet of {size.name} mm is too small: {LEAST_MM[0]:g} mm wide and "
            f"{LEAST_MM[1]:g} mm high at least, or a code and its words have no room."
        )
    return size


def sizes_on(page: str, flaps: Flaps = USUAL_FLAPS) -> list[str]:
    """The usual sizes of which one net or more fits the page."""
    return [name for name, size in SIZES.items() if replace(size, flaps=flaps).rows_on(page)]


@dataclass(frozen=True, slots=True)
class Rectangle:
    """A panel, `x` and `y` its upper left corner."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        return self.x + self.width

    @property
    def bottom(self) -> float:
        return self.y + self.height


@dataclass(frozen=True, slots=True)
class Net:
    """A net on its page, `x` and `y` the upper left corner of the rectangle that holds it."""

    size: FoldingSize
    x: float
    y: float

    @property
    def front(self) -> Rectangle:
        size = self.size
        left, top = self.x + size.side_flap_mm, self.y + size.flaps.top_mm
        return Rectangle(left, top, size.width_mm, size.height_mm)

    @property
    def back(self) -> Rectangle:
        front = self.front
        return Rectangle(
            front.right, front.y, front.width - self.size.flaps.narrower_mm, front.height
        )

    @property
    def side_flap(self) -> tuple[Point, ...]:
        front, lean = self.front, self.size.flaps.lean(self.size.side_flap_mm)
        return (
            (front.x, front.y),
            (self.x, front.y + lean),
            (self.x, front.bottom - lean),
            (front.x, front.bottom),
        )

    @property
    def bottom_flap(self) -> tuple[Point, ...]:
        front, flaps = self.front, self.size.flaps
        lean, low = flaps.lean(flaps.bottom_mm), front.bottom + flaps.bottom_mm
        return (
            (front.x, front.bottom),
            (front.x + lean, low),
            (front.right - lean, low),
            (front.right, front.bottom),
        )

    @property
    def top_flap(self) -> tuple[Point, ...]:
        back, flaps = self.back, self.size.flaps
        lean = flaps.lean(flaps.top_mm)
        return (
            (back.x, back.y),
            (back.x + lean, self.y),
            (back.right - lean, self.y),
            (back.right, back.y),
        )

    @property
    def outline(self) -> tuple[Point, ...]:
        """Where to cut, clockwise from the top flap."""
        back = self.back
        flaps = (*self.bottom_flap[::-1], *self.side_flap[::-1][1:])
        return (*self.top_flap, (back.right, back.bottom), *flaps)

    @property
    def folds(self) -> tuple[tuple[Point, Point], ...]:
        """The lines to fold: side flap, bottom flap, back, top flap."""
        front, back = self.front, self.back
        return (
            ((front.x, front.y), (front.x, front.bottom)),
            ((front.x, front.bottom), (front.right, front.bottom)),
            ((front.right, front.y), (front.right, front.bottom)),
            ((back.x, back.y), (back.right, back.y)),
        )

    @property
    def fold_marks(self) -> tuple[tuple[Point, Point], ...]:
        """The folds again, as short lines that go on outside of the net, off every panel."""
        front, back = self.front, self.back
        near, far, short = 0.7, 6.0, 3.5
        marks = [
            ((x, edge + way * near), (x, edge + way * far))
            for x in (front.x, front.right)
            for edge, way in ((front.y, -1), (front.bottom, 1))
        ]
        marks.append(((front.x - near, front.bottom), (front.x - far, front.bottom)))
        marks.append(((back.right + near, back.y), (back.right + short, back.y)))
        return tuple(marks)


def nets_on(size: FoldingSize, page: str) -> tuple[Net, ...]:
    """The nets of a page, one above the other, in the middle of the paper.

    Raises UsageError that names the sizes which fit, where this one does not.
    """
    rows = size.rows_on(page)
    if not rows:
        raise UsageError(_does_not_fit(size, page))
    width, height = PAPER_MM[PAGES[page][0]]
    left = (width - size.net_width_mm) / 2
    top = (height - rows * size.net_height_mm) / 2
    return tuple(Net(size, left, top + row * size.net_height_mm) for row in range(rows))


def _does_not_fit(size: FoldingSize, page: str) -> str:
    paper, margin = PAGES[page]
    width, height = (side - 2 * margin for side in PAPER_MM[paper])
    widest = (width - size.flaps.side_mm) / 2
    tallest = height - size.flaps.top_mm - size.flaps.bottom_mm
    return (
        f"A packet of {size.name} mm does not fit {paper}: its net is {size.net_width_mm:g} x "
        f"{size.net_height_mm:g} mm, and {width:g} x {height:g} can be printed. {paper} takes "
        f"packets up to {widest:.1f} mm wide and {tallest:.1f} mm high, "
        f"such as {', '.join(sizes_on(page, size.flaps))}."
    )
