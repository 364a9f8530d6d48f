"""Plain pages: type and bars at places measured from the top left in mm, written all or nothing."""

from __future__ import annotations

from collections.abc import Iterable
from io import BytesIO
from pathlib import Path
from typing import Any, Final

from reportlab.lib.pagesizes import A4, LETTER, landscape
from reportlab.pdfgen.canvas import Canvas

from seedbox.printing.content import MM
from seedbox.printing.fitting import fit_line
from seedbox.printing.fonts import BOX, BOX_WIDTH, Run, clean, font_name, is_embedded, runs
from seedbox.printing.labels import check_target
from seedbox.printing.reading_order import visual
from seedbox.printing.styles import Style
from seedbox.whole_file import write_whole

_SIZES: Final = {"a4": A4, "letter": LETTER}


class Paper:
    """A document of equal pages. Lengths are mm, type is in points, `y` counts downwards."""

    def __init__(self, title: str, page: str = "a4", *, sideways: bool = False) -> None:
        size = landscape(_SIZES[page]) if sideways else _SIZES[page]
        self.width, self.height = size[0] / MM, size[1] / MM
        self._stream = BytesIO()
        self._canvas: Any = Canvas(
            self._stream,
            pagesize=size,
            invariant=1,
            pageCompression=1,
            initialFontName=font_name("regular"),
        )
        self._canvas.setTitle(title.encode(errors="replace").decode())
        self._canvas.setCreator("Seedbox")
        self.pages = 1
        self.lost: dict[str, None] = {}
        """Characters that no font here has, each drawn as an empty box."""
        self.borrowed = False
        """Whether a font is used that the reader of the PDF must have."""

    def text(
        self,
        x: float,
        y: float,
        text: str,
        size: float,
        *,
        weight: str = "regular",
        grey: float = 0,
    ) -> float:
        """A line with its baseline at `y`; gives its width."""
        self._canvas.setFillGray(grey)
        end = self._runs(runs(visual(clean(text)), weight), x * MM, self._up(y), size)
        self._canvas.setFillGray(0)
        return end / MM - x

    def fitted(
        self, x: float, y: float, text: str, size: float, room: float, *, weight: str = "regular"
    ) -> None:
        """A line that shrinks, and is then cut, to so many mm."""
        style = Style(weight, size, 0.7 * size, 1, 1)
        for line in fit_line(text, style, (room * MM, 2 * size)):
            self._runs(line.runs, x * MM, self._up(y), line.size)

    def bar(
        self, x: float, y: float, width: float, height: float, *, grey: float, edge: float = 0.0
    ) -> None:
        """A filled rectangle, `y` its upper side, with a line round it."""
        self._canvas.setFillGray(grey)
        self._canvas.setStrokeGray(edge)
        self._canvas.setLineWidth(0.4)
        self._canvas.rect(x * MM, self._up(y + height), width * MM, height * MM, stroke=1, fill=1)
        self._canvas.setFillGray(0)
        self._canvas.setStrokeGray(0)

    def line(
        self, x: float, y: float, to_x: float, to_y: float, *, grey: float = 0.0, pt: float = 0.4
    ) -> None:
        """A straight line."""
        self._canvas.setStrokeGray(grey)
        self._canvas.setLineWidth(pt)
        self._canvas.line(x * MM, self._up(y), to_x * MM, self._up(to_y))
        self._canvas.setStrokeGray(0)

    def next_page(self) -> None:
        """Ends the page and begins another."""
        self._canvas.showPage()
        self.pages += 1

    def save(self, path: Path) -> None:
        """Writes the document: all of it or nothing. Only a former PDF is overwritten."""
        check_target(path)
        self._canvas.save()
        write_whole(path, self._stream.getvalue())

    def _up(self, y: float) -> float:
        up: float = (self.height - y) * MM
        return up

    def _runs(self, found: Iterable[Run], x: float, baseline: float, size: float) -> float:
        """Runs of type from `x` [points]; gives where they end."""
        for run in found:
            if run.font != BOX:
                self._canvas.setFont(run.font, size)
                self._canvas.drawString(x, baseline, run.text)
                self.borrowed = self.borrowed or not is_embedded(run.font)
            else:
                self._boxes(len(run.text), x, baseline, size)
                self.lost.update(dict.fromkeys(run.text))
            x += run.width * size
        return x

    def _boxes(self, count: int, x: float, baseline: float, size: float) -> None:
        self._canvas.setLineWidth(0.05 * size)
        for place in range(count):
            left = x + (place + 0.1) * BOX_WIDTH * size
            self._canvas.rect(left, baseline, 0.8 * BOX_WIDTH * size, 0.65 * size)


def text_width(text: str, size: float, weight: str = "regular") -> float:
    """Width of a line [mm]."""
    width: float = sum(run.width for run in runs(clean(text), weight))
    return width * size / MM
