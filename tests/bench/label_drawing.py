"""1,000 labels with QR codes to PDF, against the same drawing calls in bare reportlab and segno.

The bare side draws the same symbols, words, fonts, sizes and places on the same pages, all worked
out beforehand: what is measured is the price of fitting, layout and checks.
"""

from __future__ import annotations

import random
from io import BytesIO

import segno
from reportlab.pdfgen.canvas import Canvas

from seedbox.printing import fitting, fonts, growing, layout, planning, symbols
from seedbox.printing.content import LabelContent, LabelJob
from seedbox.printing.designs import design
from seedbox.printing.drawing import draw_pages
from seedbox.printing.pages import slots
from seedbox.printing.sheets import sheet
from tests.bench.timing import Measured, side_by_side

LABELS = 1000
REACH = 1.3
_DIGITS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
_CROPS = ("Lettuce", "Climbing French bean", "Μαρούλι", "Свёкла", "Rau muống", "Sweet pepper")


def measure() -> list[Measured]:
    """(what, our seconds, bare seconds, ratio to reach); medians of interleaved rounds."""
    job = _job()
    recorded = _recorded(job)

    def ours() -> None:
        _forget()
        draw_pages(job, job.sheet, slots(job), 300)

    seconds = side_by_side(ours, lambda: _bare(recorded))
    return [Measured(f"{LABELS:,} labels with QR to PDF", *seconds, REACH)]


def _job() -> LabelJob:
    rng = random.Random(7)
    items = [
        LabelContent(
            "P" + "".join(rng.choices(_DIGITS, k=7)),
            {
                "crop": _CROPS[number % len(_CROPS)],
                "variety": f"Long Meadow {number}",
                "botanical": "Lactuca sativa",
                "year": f"harvested {2015 + number % 11}",
                "source": "Hollow Lane seed swap",
                "left": f"{10 + number % 400} seeds",
                "store": "cold shed",
            },
        )
        for number in range(LABELS)
    ]
    return LabelJob(design("packet"), sheet("a4-65-38x21-gap"), items)


def _recorded(job: LabelJob) -> list[list[tuple[str, tuple[object, ...]]]]:
    """What our own run draws, page by page: text calls as made, and each code with its matrix."""
    pages: list[list[tuple[str, tuple[object, ...]]]] = [[]]

    class Recorder(Canvas):  # type: ignore[misc]
        def setFont(self, *given: object) -> None:
            pages[-1].append(("setFont", given))
            super().setFont(*given)

        def drawString(self, *given: object) -> None:
            pages[-1].append(("drawString", given))
            super().drawString(*given)

        def addLiteral(self, literal: str, escaped: int = 1) -> None:
            pages[-1].append(("code", (literal.split(" cm ", maxsplit=1)[0],)))
            super().addLiteral(literal, escaped)

        def showPage(self) -> None:
            pages.append([])
            super().showPage()

    from seedbox.printing import drawing

    original, drawing.Canvas = drawing.Canvas, Recorder
    try:
        draw_pages(job, job.sheet, slots(job), 300)
    finally:
        drawing.Canvas = original
    codes = iter(job.items)
    return [
        [
            (call, (next(codes).code, *given)) if call == "code" else (call, given)
            for call, given in page
        ]
        for page in pages
        if page
    ]


def _bare(pages: list[list[tuple[str, tuple[object, ...]]]]) -> bytes:
    stream = BytesIO()
    canvas = Canvas(stream, pagesize=(595.28, 841.89), invariant=1, pageCompression=1)
    for page in pages:
        for call, given in page:
            if call == "setFont":
                canvas.setFont(*given)
            elif call == "drawString":
                canvas.drawString(*given)
            else:
                canvas.addLiteral(f"{given[1]} cm {_bare_path(str(given[0]))} f Q")
        canvas.showPage()
    canvas.save()
    return stream.getvalue()


def _bare_path(code: str) -> str:
    made = segno.make(code, version=1, error="h", micro=False, boost_error=False, mask=2)
    parts = []
    for row, line in enumerate(made.matrix):
        start = None
        for column, dark in enumerate((*line, 0)):
            if dark and start is None:
                start = column
            elif not dark and start is not None:
                parts.append(f"{start} {20 - row} {column - start} 1 re")
                start = None
    return " ".join(parts)


def _forget() -> None:
    """Empties our caches: a run starts as a fresh process would, fonts excepted on both sides."""
    for cached in (
        symbols.qr,
        fonts.runs,
        fitting.fit,
        fitting._measured,
        planning.plan,
        planning.by_size,
        growing._grown,
        layout.lay_out,
    ):
        cached.cache_clear()


if __name__ == "__main__":
    for row in measure():
        print(
            f"{row.name}: {row.ours_seconds:.3f} s, bare {row.bare_seconds:.3f} s, {row.ratio:.2f}x"
        )
