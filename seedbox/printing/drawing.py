"""Drawing labels onto PDF pages."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from io import BytesIO
from itertools import groupby
from typing import Any, BinaryIO

from seedbox.printing.content import MM, Box, LabelContent, LabelJob
from seedbox.printing.designs import Design
from seedbox.printing.fitting import LEADING, Line
from seedbox.printing.fonts import ASCENT, BOX, BOX_WIDTH, font_name
from seedbox.printing.growing import fitted
from seedbox.printing.layout import Layouts
from seedbox.printing.pages import Slot
from seedbox.printing.places import Layout, SymbolPlace, TextPlace
from seedbox.printing.sheets import Sheet
from seedbox.printing.streaming import StreamedCanvas as Canvas
from seedbox.printing.symbols import CODE128_QUIET, QR_QUIET, code128, qr

_HAIRLINE_PT = 0.25
_CUT_GREY, _RULE_GREY = 0.6, 0.45


def draw_pages(job: LabelJob, sheet: Sheet, slots: Iterable[Slot], dpi: int) -> bytes:
    """The job as a PDF; the same input gives the same bytes."""
    stream = BytesIO()
    draw_into(stream, job, sheet, slots, dpi)
    return stream.getvalue()


def draw_into(file: BinaryIO, job: LabelJob, sheet: Sheet, slots: Iterable[Slot], dpi: int) -> None:
    """Writes the job as a PDF into an open file, page by page: no page is kept."""
    layouts = Layouts(job, sheet, dpi)
    size = (sheet.page_width_mm * MM, sheet.page_height_mm * MM)
    first_font = font_name("regular")  # or every page would name a font that is not embedded
    canvas = Canvas(file, pagesize=size, invariant=1, pageCompression=1, initialFontName=first_font)
    canvas.setTitle(job.design.title)
    canvas.setCreator("Seedbox")
    pen = _Pen(canvas, size[1], 72 / dpi)
    outlined = sheet.cut_lines if job.outlines is None else job.outlines
    for _, on_page in groupby(slots, key=lambda slot: slot.page):
        for slot in on_page:
            _draw_label(pen, *layouts.of(slot.content), slot.content, slot.box)
            if outlined:
                _outline(canvas, slot.box)
        canvas.showPage()
    canvas.save()


class _Pen:
    """Symbols and lines of type at absolute places on the page [points]."""

    def __init__(self, canvas: Any, page_height: float, dot: float) -> None:
        self.canvas, self.page_height, self.dot = canvas, page_height, dot

    def symbol(self, place: SymbolPlace, code: str, at: Box) -> None:
        """One literal path: module units scaled by the matrix, quiet zone left white."""
        unit = place.module
        x = self._snapped(at.x + place.box.x)
        top = self.page_height - self._snapped(self.page_height - at.y - place.box.top)
        if place.kind == "qr":
            quiet = QR_QUIET * unit
            low = top - place.box.height + quiet
            matrix = f"{unit:.5f} 0 0 {unit:.5f} {x + quiet:.4f} {low:.4f}"
            path = qr(code).path
        else:
            matrix, path = self._bars(place, code, x, top)
        self.canvas.addLiteral(f"q {matrix} cm {path} f Q")

    def _bars(self, place: SymbolPlace, code: str, x: float, top: float) -> tuple[str, str]:
        unit, quiet = place.module, CODE128_QUIET * place.module
        path = code128(code).path
        if place.turned:
            return f"0 {-unit:.5f} {place.box.width:.4f} 0 {x:.4f} {top - quiet:.4f}", path
        low = top - place.box.height
        return f"{unit:.5f} 0 0 {place.box.height:.4f} {x + quiet:.4f} {low:.4f}", path

    def _snapped(self, length: float) -> float:
        """On a whole printer dot, counted from the page's top left."""
        return round(length / self.dot) * self.dot

    def words(self, place: TextPlace, texts: Sequence[str], at: Box) -> None:
        """A box of lines, each fitted."""
        length, room = place.measure
        lines = fitted(place, texts)
        if place.turned:
            self.canvas.saveState()
            self.canvas.transform(0, -1, 1, 0, at.x + place.box.x, at.y + place.box.top)
            self._lines(lines, place, Box(0.0, 0.0, length, room))
            self.canvas.restoreState()
        else:
            box = place.box
            self._lines(lines, place, Box(at.x + box.x, at.y + box.y, length, room))

    def _lines(self, lines: Sequence[Line], place: TextPlace, box: Box) -> None:
        used = sum(line.size for line in lines) * LEADING
        top = box.top if place.from_top else box.top - (box.height - used) / 2
        for line in lines:
            x = box.x + (box.width - line.width) / 2 if place.centred else box.x
            self._line(line, x, top - ASCENT * line.size)
            top -= LEADING * line.size

    def _line(self, line: Line, x: float, baseline: float) -> None:
        for run in line.runs:
            if run.font == BOX:
                self._empty_boxes(len(run.text), x, baseline, line.size)
            else:
                self.canvas.setFont(run.font, line.size)
                self.canvas.drawString(x, baseline, run.text)
            x += run.width * line.size

    def _empty_boxes(self, count: int, x: float, baseline: float, size: float) -> None:
        self.canvas.setLineWidth(0.05 * size)
        for place in range(count):
            left = x + (place + 0.1) * BOX_WIDTH * size
            self.canvas.rect(left, baseline, 0.8 * BOX_WIDTH * size, 0.65 * size, stroke=1, fill=0)

    def rule(self, line: Box, at: Box) -> None:
        """A thin line: to write on with a pencil, or below a card's head."""
        x, y = at.x + line.x, at.y + line.y
        self.canvas.setLineWidth(_HAIRLINE_PT)
        self.canvas.setStrokeGray(_RULE_GREY)
        self.canvas.line(x, y, x + line.width, y + line.height)
        self.canvas.setStrokeGray(0)


def _draw_label(pen: _Pen, design: Design, layout: Layout, content: LabelContent, at: Box) -> None:
    for symbol in layout.symbols:
        pen.symbol(symbol, content.code, at)
    for rule in layout.rules:
        pen.rule(rule, at)
    if layout.typed is not None:
        pen.words(layout.typed, (content.text("code"),), at)
    if layout.tab is not None:
        pen.words(layout.tab, (design.lines[0].text(content),), at)
    pen.words(layout.words, texts_of(layout, design, content), at)


def texts_of(layout: Layout, design: Design, content: LabelContent) -> list[str]:
    """The texts of the words: the first line stands in the tab if there is one, the code in type
    comes last if it has no other place.
    """
    texts = [line.text(content) for line in design.lines[1 if layout.tab else 0 :]]
    has_place = layout.typed is not None or not layout.symbols
    return texts if has_place else [*texts, content.text("code")]


def shown_words(layout: Layout, design: Design, content: LabelContent) -> str:
    """What of the words beside the code there is room for."""
    lines = fitted(layout.words, texts_of(layout, design, content))
    return " ".join("".join(run.text for run in line.runs) for line in lines)


def _outline(canvas: Any, box: Box) -> None:
    """A line for the scissors: square at round corners too, or it would run through the quiet
    zone of a code that fills the label.
    """
    canvas.setLineWidth(_HAIRLINE_PT)
    canvas.setStrokeGray(_CUT_GREY)
    canvas.rect(box.x, box.y, box.width, box.height)
    canvas.setStrokeGray(0)
