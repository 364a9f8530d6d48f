"""The page that shows how true a printer is: crosses and rulers at known places."""

from __future__ import annotations

from pathlib import Path

from seedbox.printing.coded_paper import CodedPaper, Point
from seedbox.printing.list_page import broken
from seedbox.printing.measuring import ACROSS_MM, DOWN_MM, EDGE_MM, Correction

_ARM_MM, _TICK_MM, _LONG_TICK_MM, _SIZE = 9.0, 1.6, 3.2, 10.0
_ROUNDING_MM, _BELOW_RULER_MM = 1e-6, 22.0
_RIM_MM, _CLEAR_MM, _HEAD_MM = 6.0, 2.0, 2.0
"""Arrows begin so far from the edge of the paper, where most printers print, and clear of the
crosses; their heads are so long."""


def draw_calibration(path: Path, *, page: str = "a4", corrected: Correction | None = None) -> None:
    """Writes the page as a PDF: as it is, or corrected to check that the crosses now lie true."""
    paper = CodedPaper("Is the printer true?", page)
    at = corrected or Correction()
    for x, y in ((0.0, 0.0), (ACROSS_MM, 0.0), (0.0, DOWN_MM)):
        _cross(paper, at, EDGE_MM + x, EDGE_MM + y)
    _rulers(paper, at)
    for start, end in _SPANS:
        _arrow(paper, (at.x(start[0]), at.y(start[1])), (at.x(end[0]), at.y(end[1])))
    for words, x, y in _WHERE:
        paper.text(x, y, words, 9.0, weight="semibold")
    _words(paper, corrected is not None)
    paper.save(path)


def _cross(paper: CodedPaper, at: Correction, x: float, y: float) -> None:
    paper.line(at.x(x - _ARM_MM), at.y(y), at.x(x + _ARM_MM), at.y(y), pt=0.4)
    paper.line(at.x(x), at.y(y - _ARM_MM), at.x(x), at.y(y + _ARM_MM), pt=0.4)


def _arrow(paper: CodedPaper, start: Point, end: Point) -> None:
    """A dashed line, level or upright, with a head at its end."""
    paper.dashes(start, end, pt=0.4)
    (x, y), (to_x, to_y) = start, end
    along_x, along_y = _sign(to_x - x), _sign(to_y - y)
    for side in (-1, 1):
        back_x = to_x - _HEAD_MM * along_x + side * _HEAD_MM / 2 * along_y
        back_y = to_y - _HEAD_MM * along_y + side * _HEAD_MM / 2 * along_x
        paper.line(to_x, to_y, back_x, back_y, pt=0.4)


def _sign(number: float) -> int:
    return (number > _ROUNDING_MM) - (number < -_ROUNDING_MM)


def _rulers(paper: CodedPaper, at: Correction) -> None:
    """A tick for each mm between the crosses, longer ones each 5, with figures each 10."""
    beside = EDGE_MM + _ARM_MM + 4.0
    for tick in range(int(ACROSS_MM) + 1):
        x, length = at.x(EDGE_MM + tick), _tick(tick)
        paper.line(x, at.y(beside), x, at.y(beside) + length, pt=0.25)
        if tick % 10 == 0:
            paper.text(x - 1.5, at.y(beside) + length + 3.0, str(tick), 7.0)
    for tick in range(int(DOWN_MM) + 1):
        y, length = at.y(EDGE_MM + tick), _tick(tick)
        if tick > _ARM_MM + 14.0:
            paper.line(at.x(beside), y, at.x(beside) + length, y, pt=0.25)
            if tick % 10 == 0:
                paper.text(at.x(beside) + length + 1.0, y + 1.0, str(tick), 7.0)


def _tick(tick: int) -> float:
    return _LONG_TICK_MM if tick % 5 == 0 else _TICK_MM


def _words(paper: CodedPaper, corrected: bool) -> None:
    x, y, room = 70.0, 72.0, 115.0
    paper.text(x, y, "Is the printer true?", 15.0, weight="semibold")
    y += 8.0
    for sentence in _CHECK if corrected else _MEASURE:
        for line in broken(sentence, room, _SIZE):
            paper.text(x, y, line, _SIZE)
            y += 4.8
        y += 2.0
    if not corrected:
        _form(paper, x, y + 4.0)


_MEASURE = (
    "Print this page at 100 %, from the tray that you use for labels, and never “fit to page”.",
    "Measure it with a ruler to half a millimetre, always to the middle of a cross.",
    "What you measure may differ from what was drawn: that is what it is for.",
)
_CHECK = (
    "This page is drawn with the correction that you measured. Printed on the same printer:",
    f"the first cross lies {EDGE_MM:g} mm from the left and from the upper edge of the paper,",
    f"the others {ACROSS_MM:g} mm to its right and {DOWN_MM:g} mm below it.",
    "If they do not, print the page for measuring once more: seedbox labels calibrate page.pdf",
)
_OFF = _ARM_MM + _CLEAR_MM
_SPANS = (
    ((EDGE_MM - _OFF, EDGE_MM), (_RIM_MM, EDGE_MM)),
    ((EDGE_MM, EDGE_MM - _OFF), (EDGE_MM, _RIM_MM)),
    ((EDGE_MM + _OFF, EDGE_MM), (EDGE_MM + ACROSS_MM - _OFF, EDGE_MM)),
    ((EDGE_MM, EDGE_MM + _BELOW_RULER_MM), (EDGE_MM, EDGE_MM + DOWN_MM - _OFF)),
)
"""What is measured, from where to where: arrows, the first two out to the edges of the paper."""
_WHERE = (
    ("left", 11.0, EDGE_MM - 1.0),
    ("top", EDGE_MM + 1.0, 15.0),
    ("across", EDGE_MM + ACROSS_MM / 2 - 5.0, EDGE_MM - 1.0),
    ("down", EDGE_MM - 11.0, EDGE_MM + DOWN_MM / 2),
)
_FORM = (
    ("--left", "left edge of the paper to the first cross", EDGE_MM),
    ("--top", "upper edge of the paper to the first cross", EDGE_MM),
    ("--across", "first cross to the one on its right", ACROSS_MM),
    ("--down", "first cross to the one below it", DOWN_MM),
)


def _form(paper: CodedPaper, x: float, y: float) -> None:
    """A line to write each measure on, and what to type then."""
    for option, what, drawn in _FORM:
        paper.text(x, y, option, _SIZE, weight="semibold")
        paper.text(x + 18.0, y, f"{what}; drawn: {drawn:g} mm", _SIZE)
        paper.line(x + 103.0, y + 0.6, x + 119.0, y + 0.6, pt=0.4)
        y += 9.0
    paper.text(x, y + 3.0, "Then type, with your own figures:", _SIZE)
    typed = "seedbox labels measured --left 30.5 --top 29 --across 149.5 --down 220"
    paper.text(x, y + 9.0, typed, 9.0, weight="semibold")
