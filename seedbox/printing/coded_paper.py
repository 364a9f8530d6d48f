"""Plain pages that carry codes: each code is read back before the page is handed over."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from seedbox.printing.content import MM, Box, LabelContent, Printed
from seedbox.printing.fitting import LEADING, Line, fit_block
from seedbox.printing.fonts import ASCENT
from seedbox.printing.labels import check_target
from seedbox.printing.measuring import Correction
from seedbox.printing.pages import Slot
from seedbox.printing.paper import Paper
from seedbox.printing.styles import Style
from seedbox.printing.symbols import QR_MODULES, QR_QUIET, qr
from seedbox.problems import Problem
from seedbox.whole_file import write_whole

INDOOR_MODULE_MM, OUTDOOR_MODULE_MM = 0.33, 0.42
"""Modules of a QR code that lies indoors, or lives in a shed (measured in simulated photos)."""
_SIDE = QR_MODULES + 2 * QR_QUIET
_MOST_NAMED = 5

Point = tuple[float, float]


def code_side(module_mm: float, dpi: int = 300) -> float:
    """Side of a QR code with its quiet zone [mm], its modules on whole printer dots."""
    return _SIDE * on_dots(module_mm, dpi)


def on_dots(length_mm: float, dpi: int) -> float:
    """The whole number of printer dots nearest to a length, at least one [mm]."""
    dot = 25.4 / dpi
    return max(1, round(length_mm / dot)) * dot


class CodedPaper(Paper):
    """Pages with codes, shapes and fitted type. Lengths are mm, `y` counts downwards."""

    def __init__(
        self,
        title: str,
        page: str = "a4",
        *,
        sideways: bool = False,
        dpi: int = 300,
        corrected: Correction | None = None,
    ) -> None:
        super().__init__(title, page, sideways=sideways)
        self.dpi = dpi
        self.codes: list[Slot] = []
        self._corrected = corrected or Correction()
        self._begin()

    def next_page(self) -> None:
        """Ends the page and begins another, drawn for the same printer."""
        super().next_page()
        self._begin()

    def _begin(self) -> None:
        """What is drawn from here on is moved and divided by the measured scale of the printer."""
        true = self._corrected
        if true != Correction():
            low = self.height - true.y(self.height)
            self._canvas.transform(
                1 / true.scale_x, 0, 0, 1 / true.scale_y, true.x(0.0) * MM, low * MM
            )

    def _drawn(self, box: Box) -> Box:
        """Where a box lies on the page when it is drawn corrected [points]."""
        true = self._corrected
        top = self.height - true.y(self.height - box.top / MM)
        low = self.height - true.y(self.height - box.y / MM)
        left, right = true.x(box.x / MM), true.x(box.right / MM)
        return Box(left * MM, low * MM, (right - left) * MM, (top - low) * MM)

    def code(self, code: str, x: float, y: float, module_mm: float = INDOOR_MODULE_MM) -> float:
        """A QR code with its quiet zone, its upper left corner at a printer dot; gives its side."""
        module = on_dots(module_mm, self.dpi)
        x, y = on_dots(x, self.dpi), on_dots(y, self.dpi)
        side, unit = _SIDE * module, module * MM
        low = self._up(y + side)
        quiet = QR_QUIET * unit
        matrix = f"{unit:.5f} 0 0 {unit:.5f} {x * MM + quiet:.4f} {low + quiet:.4f}"
        self._canvas.addLiteral(f"q {matrix} cm {qr(code).path} f Q")
        box = Box(x * MM, low, side * MM, side * MM)
        self.codes.append(Slot(self.pages - 1, self._drawn(box), LabelContent(code)))
        return side

    def outline(self, points: Sequence[Point], *, pt: float = 0.5, grey: float = 0.0) -> None:
        """A closed line through the points, one path."""
        path = self._canvas.beginPath()
        path.moveTo(points[0][0] * MM, self._up(points[0][1]))
        for x, y in points[1:]:
            path.lineTo(x * MM, self._up(y))
        path.close()
        self._canvas.setLineWidth(pt)
        self._canvas.setStrokeGray(grey)
        self._canvas.drawPath(path, stroke=1, fill=0)
        self._canvas.setStrokeGray(0)

    def dashes(self, start: Point, end: Point, *, pt: float = 0.5) -> None:
        """A dashed straight line: where to fold."""
        self._canvas.setDash([1.2 * MM, 0.8 * MM])
        self.line(*start, *end, pt=pt)
        self._canvas.setDash()

    def block(
        self,
        texts: Sequence[str],
        styles: tuple[Style, ...],
        box: tuple[float, float, float, float],
        *,
        centred: bool = False,
        turned: bool = False,
    ) -> str:
        """Lines fitted into a box (x, y, width, height), from its top; gives what there was room
        for. `turned` ones stand on their head.
        """
        x, y, width, height = box
        lines = fit_block(texts, styles, width * MM, height * MM)
        if turned:
            self._canvas.saveState()
            self._canvas.transform(-1, 0, 0, -1, (x + width) * MM, self._up(y + height))
            self._lines(lines, Box(0.0, 0.0, width * MM, 0.0), centred=centred)
            self._canvas.restoreState()
        else:
            self._lines(lines, Box(x * MM, self._up(y), width * MM, 0.0), centred=centred)
        return " ".join("".join(run.text for run in line.runs) for line in lines)

    def _lines(self, lines: Sequence[Line], at: Box, *, centred: bool) -> None:
        """Lines from the top of a box downwards [points]."""
        top = at.top
        for line in lines:
            x = at.x + (at.width - line.width) / 2 if centred else at.x
            self._runs(line.runs, x, top - ASCENT * line.size, line.size)
            top -= LEADING * line.size

    def deliver(
        self, path: Path, *, proof: bool = True, warnings: Sequence[Problem] = ()
    ) -> Printed:
        """Writes the document, all of it or nothing, and reads every code back from it."""
        check_target(path)
        self._canvas.save()
        pdf = self._stream.getvalue()
        failed: tuple[str, ...] = ()
        if proof and self.codes:
            from seedbox.printing.proof import codes_not_read

            failed = codes_not_read(pdf, self.codes, lambda content: ("qr",))
        write_whole(path, pdf)
        return Printed(
            path=path,
            labels=len(self.codes),
            pages=self.pages,
            proofed=proof,
            unreadable=failed,
            warnings=(*warnings, *self._strange_letters()),
        )

    def _strange_letters(self) -> list[Problem]:
        """What of the words is not drawn as it was written, or not by fonts of our own."""
        told = []
        if self.lost:
            names = ", ".join(f"U+{ord(char):04X}" for char in list(self.lost)[:_MOST_NAMED])
            told.append(Problem(f"no font here has {names}; an empty box is printed instead."))
        if self.borrowed:
            told.append(
                Problem(
                    "Chinese, Japanese and Korean words are drawn by the PDF reader's own fonts: "
                    "look at the page before you print it."
                )
            )
        return told
