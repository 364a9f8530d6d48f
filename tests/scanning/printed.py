"""Labels as a printer makes them: our own PDF in black and white dots, and where the codes lie."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import numpy as np
import pypdfium2

from seedbox.printing.content import LabelContent, LabelJob
from seedbox.printing.labels import print_labels
from seedbox.printing.layout import lay_out
from seedbox.printing.pages import slots
from seedbox.printing.symbols import CODE128_QUIET, QR_QUIET

POINT = 72
Edges = tuple[int, int, int, int]
"""Left, top, right, bottom [dots]."""


@dataclass(frozen=True)
class PrintedLabel:
    """One label: `dots` is True where there is ink; `symbols` are the boxes without quiet zone."""

    code: str
    dots: Any
    dpi: int
    symbols: tuple[Edges, ...]


def printed(job: LabelJob, dpi: int) -> list[PrintedLabel]:
    """Prints a job for a printer of `dpi` and cuts its pages into labels of whole dots."""
    symbols = _symbols(job, dpi)
    return [
        PrintedLabel(slot.content.code, np.asarray(picture) < 128, dpi, symbols)
        for slot, picture in zip(slots(job), rasterised(job, dpi), strict=True)
    ]


def rasterised(job: LabelJob, dpi: int) -> list[Any]:
    """Greyscale pictures of a job's labels, cut from the pages of the real file."""
    scale = dpi / POINT
    with TemporaryDirectory() as folder:
        path = Path(folder) / "labels.pdf"
        print_labels(job, path, proof=False, dpi=dpi)
        pages = _pages(path, scale)
    return [_cut(pages[slot.page], slot.box, scale) for slot in slots(job)]


def _pages(path: Path, scale: float) -> Sequence[Any]:
    document = pypdfium2.PdfDocument(path)
    try:
        return [
            document[number].render(scale=scale, grayscale=True).to_pil()
            for number in range(len(document))
        ]
    finally:
        document.close()


def _cut(page: Any, box: Any, scale: float) -> Any:
    upper, lower = page.height - box.top * scale, page.height - box.y * scale
    return page.crop(tuple(map(round, (box.x * scale, upper, box.right * scale, lower))))


def _symbols(job: LabelJob, dpi: int) -> tuple[Edges, ...]:
    """Where a label's symbols lie, from its top left [dots]."""
    scale, high = dpi / POINT, job.sheet.label_height_mm / 25.4 * POINT
    found = []
    for place in lay_out(job.design, job.sheet, dpi).symbols:
        box = place.box
        along = place.module * (QR_QUIET if place.kind == "qr" else CODE128_QUIET)
        across = along if place.kind == "qr" else 0.0
        x, y = (across, along) if place.turned else (along, across)
        edges = (box.x + x, high - box.top + y, box.right - x, high - box.y - y)
        left, top, right, bottom = (round(edge * scale) for edge in edges)
        found.append((left, top, right, bottom))
    return tuple(found)


def some_labels(codes: Sequence[str]) -> list[LabelContent]:
    """Contents with an invented crop and variety."""
    return [
        LabelContent(
            code,
            {
                "crop": "Leek",
                "variety": f"Long Hill {number}",
                "left": "40 seeds",
                "sown_on": "2027-02-20",
                "place": "cold frame",
            },
        )
        for number, code in enumerate(codes)
    ]
