"""How true a printer is: what follows from lengths measured on a page with crosses.

A printer moves the page (it feeds askew) and stretches it. What was drawn at x mm from the left
edge of the paper is printed at `scale * x + moved`, and so downwards. Two crosses give both.
"""

from __future__ import annotations

from dataclasses import dataclass

from seedbox.errors import UsageError
from seedbox.tin.preferences import Settings

EDGE_MM, ACROSS_MM, DOWN_MM = 30.0, 150.0, 220.0
"""The first cross lies so far from the left and the upper edge, the others so far from it."""
LEAST_SCALE, MOST_SCALE, MOST_OFFSET_MM = 0.9, 1.1, 20.0
FITTED_SCALE = 0.02
"""A page that is off by more was made to fit the paper by the printing program."""
_IN_CM, _IN_INCHES = 0.1, 1 / 25.4


@dataclass(frozen=True, slots=True)
class Correction:
    """What labels must be drawn with: moved right and down by offsets [mm], divided by scales
    (printed mm for each mm drawn).
    """

    offset_x_mm: float = 0.0
    offset_y_mm: float = 0.0
    scale_x: float = 1.0
    scale_y: float = 1.0

    def x(self, wanted_mm: float) -> float:
        """Where to draw what is to be printed so far from the left edge."""
        return (wanted_mm + self.offset_x_mm) / self.scale_x

    def y(self, wanted_mm: float) -> float:
        """Where to draw what is to be printed so far from the upper edge."""
        return (wanted_mm + self.offset_y_mm) / self.scale_y


@dataclass(frozen=True, slots=True)
class Measured:
    """What was measured on the printed page [mm]; None where nobody measured.

    `left` and `top` from the edges of the paper to the middle of the first cross, `across` and
    `down` from there to the other crosses.
    """

    left: float | None = None
    top: float | None = None
    across: float | None = None
    down: float | None = None


def correction_of(settings: Settings) -> Correction:
    """What was measured of the printer, as the settings keep it: pages are drawn with it."""
    return Correction(
        settings.label_offset_x_mm,
        settings.label_offset_y_mm,
        settings.label_scale_x,
        settings.label_scale_y,
    )


def correction(measured: Measured, before: Correction) -> Correction:
    """The correction that follows; what was not measured stays as `before`.

    Raises UsageError where nothing was measured, or a figure cannot be of this page.
    """
    if measured == Measured():
        raise UsageError("Give what you measured: --left, --top, --across, --down, in mm.")
    scale_x = _scale("--across", measured.across, ACROSS_MM, before.scale_x)
    scale_y = _scale("--down", measured.down, DOWN_MM, before.scale_y)
    return Correction(
        _offset("--left", measured.left, scale_x, before.offset_x_mm),
        _offset("--top", measured.top, scale_y, before.offset_y_mm),
        scale_x,
        scale_y,
    )


def looks_fitted(found: Correction) -> bool:
    """Whether the page was not printed at 100 %, as far as one can tell."""
    return any(abs(scale - 1) > FITTED_SCALE for scale in (found.scale_x, found.scale_y))


def _scale(option: str, measured: float | None, drawn: float, before: float) -> float:
    if measured is None:
        return before
    scale = measured / drawn
    if not LEAST_SCALE <= scale <= MOST_SCALE:
        raise UsageError(_no_length(option, measured, drawn))
    return round(scale, 5)


def _no_length(option: str, measured: float, drawn: float) -> str:
    told = f"{option} {measured:g} mm cannot be right: {drawn:g} mm were drawn."
    for unit, part in (("centimetres", _IN_CM), ("inches", _IN_INCHES)):
        if LEAST_SCALE <= measured / (drawn * part) <= MOST_SCALE:
            return f"{told} That looks like {unit}: give {measured / part:.1f} mm."
    return f"{told} Measure again, from the middle of one cross to the middle of the other."


def _offset(option: str, measured: float | None, scale: float, before: float) -> float:
    """Printed at `scale * EDGE + moved`: the labels go back by what the page was moved."""
    if measured is None:
        return before
    offset = scale * EDGE_MM - measured
    if abs(offset) > MOST_OFFSET_MM:
        raise UsageError(
            f"{option} {measured:g} mm cannot be right: the cross was drawn {EDGE_MM:g} mm from "
            "the edge of the paper. Measure from the edge, not from the ruler of the page."
        )
    return round(offset, 2)
