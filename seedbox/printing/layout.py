"""Where code and words stand on a label of a given size: the first arrangement that fits."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import lru_cache, partial

from seedbox.errors import UsageError
from seedbox.printing import beside, upright
from seedbox.printing.content import LabelContent, LabelJob
from seedbox.printing.designs import Design
from seedbox.printing.frame import BARS_SIDE, LEAST_BAR_MM, QR_SIDE, Frame, NoRoomError, whole_dots
from seedbox.printing.places import Layout
from seedbox.printing.sheets import Sheet, sheets

_STAKE, _UPRIGHT = 3.0, 1.15
"""Height over width from which a label is a stake, or has its code above the words."""
_NAMED = 3
_ROOMY_MM = 100.0

_Arrange = Callable[[Frame], Layout]
_ONE: dict[str, tuple[tuple[str, ...], ...]] = {
    "qr": (("qr",),),
    "code128": (("code128",),),
    "both": (("qr", "code128"),),
    "any": (("qr",), ("code128",)),
    "none": ((),),
}
_BESIDE: dict[tuple[str, ...], tuple[_Arrange, ...]] = {
    (): (beside.no_code,),
    ("qr",): (beside.one_square,),
    ("code128",): (beside.foot_alone, beside.bars_alone),
    ("qr", "code128"): (beside.square_and_foot, beside.square_and_bars),
    ("qr", "qr"): (beside.two_squares,),
}


@lru_cache(maxsize=256)
def lay_out(design: Design, sheet: Sheet, dpi: int) -> Layout:
    """The layout of a design on a sheet's labels; raises UsageError where the code has no room,
    and names labels on which it has.
    """
    found = _first_that_fits(design, sheet, dpi)
    if found is None:
        raise UsageError(_refusal(design, sheet, dpi), hint=_advice(design, sheet, dpi))
    return found


class Layouts:
    """The design and layout of each label of a job: its own design, or the job's."""

    def __init__(self, job: LabelJob, sheet: Sheet, dpi: int) -> None:
        self._usual, self._sheet, self._dpi = job.design, sheet, dpi
        self._known: dict[int, tuple[Design, Layout]] = {}

    def of(self, content: LabelContent) -> tuple[Design, Layout]:
        """Raises UsageError where a code has no room."""
        design = content.design or self._usual
        found = self._known.get(id(design))
        if found is None:
            found = design, lay_out(design, self._sheet, self._dpi)
            self._known[id(design)] = found
        return found

    def layout(self, content: LabelContent) -> Layout:
        """Where things stand on this label."""
        return self.of(content)[1]


def wanted_kinds(design: Design) -> tuple[tuple[str, ...], ...]:
    """The sets of symbols that would do, the best first."""
    if design.code.layout == "once" or not design.code.printed:
        return _ONE[design.code.symbol]
    twice = (("qr", "qr"),)
    return twice if design.code.layout == "twice" else (("qr", "code128"), *twice)


def with_code(design: Design, layout: str) -> Design:
    """The design with its code `once`, `twice` or `rugged`."""
    return replace(design, code=replace(design.code, layout=layout))


def _first_that_fits(design: Design, sheet: Sheet, dpi: int) -> Layout | None:
    ratio = sheet.label_height_mm / sheet.label_width_mm
    frame = Frame(design, sheet, dpi, is_stake=ratio >= _STAKE)
    for arrange in _arrangements(design, ratio):
        try:
            return arrange(frame)
        except NoRoomError:
            continue
    return None


def _arrangements(design: Design, ratio: float) -> Iterator[_Arrange]:
    for kinds in wanted_kinds(design):
        if design.tab_mm:
            yield upright.card
        elif ratio >= _STAKE:
            yield partial(upright.stake, kinds=kinds)
        elif ratio >= _UPRIGHT:
            yield partial(upright.above, kinds=kinds)
        else:
            yield from _BESIDE[kinds]


_NAMES = {
    ("qr",): "a QR code with its quiet zone",
    ("code128",): "a Code 128 with its quiet zone",
    ("qr", "code128"): "a QR code beside a Code 128",
    ("qr", "qr"): "the QR code twice",
    (): "a line of words",
}


def _refusal(design: Design, sheet: Sheet, dpi: int) -> str:
    """What does not fit, on what, and how much it needs."""
    label = f"{sheet.name}, {sheet.label_width_mm:.4g} x {sheet.label_height_mm:.4g} mm"
    names = [_NAMES[kinds] + _needs(kinds, design, dpi) for kinds in wanted_kinds(design)]
    if len(names) > 1:
        return f"Neither {' nor '.join(names)} fits the labels of {label}."
    return f"{names[0][0].upper()}{names[0][1:]} does not fit the labels of {label}."


def _needs(kinds: tuple[str, ...], design: Design, dpi: int) -> str:
    """The room that a single symbol takes at its smallest, in whole printer dots."""
    if kinds == ("qr",):
        side, least = QR_SIDE, design.code.smallest_module_mm
    elif kinds == ("code128",):
        side, least = BARS_SIDE, LEAST_BAR_MM
    else:
        return ""
    needed = side * whole_dots(least, least, _ROOMY_MM, dpi)
    return f" ({math.ceil(10 * needed) / 10:.1f} mm at least)"


def _advice(design: Design, sheet: Sheet, dpi: int) -> str:
    """Shipped labels on which the design fits, the smallest first; else what to change."""
    if design.code.layout != "once" and _first_that_fits(with_code(design, "once"), sheet, dpi):
        return f"The code once has room there. {_fitting_sheets(design, sheet, dpi)}"
    return _fitting_sheets(design, sheet, dpi)


def _fitting_sheets(design: Design, sheet: Sheet, dpi: int) -> str:
    names = [
        one.name
        for one in sorted(sheets().values(), key=lambda one: _unlike(one, sheet))
        if _first_that_fits(design, one, dpi)
    ][:_NAMED]
    if not names:
        return "There is no label sheet here that it fits: take another design."
    return f"Labels that it fits are, for example: {', '.join(names)}."


def _unlike(one: Sheet, other: Sheet) -> tuple[bool, bool, float]:
    """The same kind of stock and paper first, then the smallest label."""
    return (
        one.is_roll != other.is_roll,
        one.page_width_mm != other.page_width_mm,
        one.label_width_mm * one.label_height_mm,
    )
