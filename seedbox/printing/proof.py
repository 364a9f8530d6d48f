"""Proof reading: each page is rendered and an independent reader reads every code back."""

from __future__ import annotations

import threading
from collections import Counter
from collections.abc import Callable, Iterable
from contextlib import closing
from itertools import groupby
from pathlib import Path
from typing import Any

import pypdfium2
import zxingcpp

from seedbox.printing.content import Box, LabelContent
from seedbox.printing.pages import Slot
from seedbox.printing.places import Layout

ONE_AT_A_TIME = threading.RLock()
"""PDFium must not be entered by two threads at once. Whoever renders holds this."""
PROOF_DPI = 300
_ENLARGED = 2


def unreadable_codes(
    pdf: bytes | Path, slots: Iterable[Slot], laid_out: Callable[[LabelContent], Layout]
) -> tuple[str, ...]:
    """Codes that could not be read back from their own label, in printing order, each once."""
    return codes_not_read(pdf, slots, lambda content: laid_out(content).kinds)


def codes_not_read(
    pdf: bytes | Path, slots: Iterable[Slot], kinds: Callable[[LabelContent], Iterable[str]]
) -> tuple[str, ...]:
    """The same where it is only known which kinds of code, `qr` or `code128`, a content has; a
    kind that is named twice must be there twice. A page is rendered, read and dropped before
    the next.
    """
    failed: dict[str, None] = {}
    with ONE_AT_A_TIME, closing(pypdfium2.PdfDocument(pdf)) as document:
        for page, on_page in groupby(slots, key=lambda slot: slot.page):
            image = render(document, page)
            for slot in on_page:
                wanted = Counter(_FORMATS[kind] for kind in kinds(slot.content))
                if wanted and not _reads(_crop(image, slot.box), slot.content.code, wanted):
                    failed[slot.content.code] = None
    return tuple(failed)


def render(document: Any, page: int) -> Any:
    """A page as a greyscale picture at PROOF_DPI."""
    opened = document[page]
    try:
        return opened.render(scale=PROOF_DPI / 72, grayscale=True).to_pil()
    finally:
        opened.close()


_FORMATS = {"qr": zxingcpp.BarcodeFormat.QRCode, "code128": zxingcpp.BarcodeFormat.Code128}


def _crop(image: Any, box: Box) -> Any:
    scale = PROOF_DPI / 72
    left, right = round(box.x * scale), round(box.right * scale)
    top, bottom = image.height - round(box.top * scale), image.height - round(box.y * scale)
    return image.crop((left, max(top, 0), right, bottom))


def _reads(label: Any, code: str, wanted: Counter[Any]) -> bool:
    """Every symbol is there with the right content, at once or when enlarged."""
    if _found(label, code, wanted):
        return True
    larger = label.resize((label.width * _ENLARGED, label.height * _ENLARGED))
    return _found(larger, code, wanted)


def _found(label: Any, code: str, wanted: Counter[Any]) -> bool:
    read = zxingcpp.read_barcodes(
        label, formats=zxingcpp.BarcodeFormats(list(wanted)), try_invert=False
    )
    right = Counter(found.format for found in read if found.text == code)
    return all(right[kind] >= count for kind, count in wanted.items())
