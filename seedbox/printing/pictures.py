"""Pages as pictures: what would be printed, to be looked at before any paper is spent."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from dataclasses import replace
from io import BytesIO
from pathlib import Path
from typing import Any

import pypdfium2

from seedbox.errors import UsageError
from seedbox.printing.content import Printed
from seedbox.whole_file import write_whole

USUAL_DPI, LEAST_DPI, MOST_DPI = 150, 30, 600
_PNG = b"\x89PNG\r\n\x1a\n"
"""The signature of PNG (ISO/IEC 15948, 5.2)."""


def preview(printing: Callable[[Path], Printed], path: Path, *, dpi: int = USUAL_DPI) -> Printed:
    """Lets `printing` write its PDF aside, and writes each of its pages as a PNG.

    One page is written to `path`; several go to name-1.png, name-2.png and so on beside it. Only
    former PNG files are overwritten, and nothing is written where one may not be: UsageError.
    """
    if not LEAST_DPI <= dpi <= MOST_DPI:
        raise UsageError(f"{dpi} dpi is out of range for pictures: {LEAST_DPI} to {MOST_DPI}.")
    check_folder(path)
    with tempfile.TemporaryDirectory() as folder:
        pdf = Path(folder) / "pages.pdf"
        printed = printing(pdf)
        targets = page_paths(path, printed.pages)
        for target in targets:
            check_target(target)
        _write_pages(pdf, targets, dpi)
    return replace(printed, path=targets[0])


def page_paths(path: Path, pages: int) -> tuple[Path, ...]:
    """The file of each page."""
    if pages == 1:
        return (path,)
    return tuple(path.with_stem(f"{path.stem}-{page}") for page in range(1, pages + 1))


def check_folder(path: Path) -> None:
    """Before anything is drawn: the name must be one of a picture, in a folder that there is."""
    if path.suffix.lower() != ".png":
        raise UsageError(f"{path.name} does not end in .png: pages are written as PNG pictures.")
    if not path.parent.is_dir():
        raise UsageError(f"There is no folder {path.parent} to write {path.name} into.")


def check_target(path: Path) -> None:
    """Only a former PNG may be overwritten."""
    if path.is_dir():
        raise UsageError(f"{path} is a folder: name a file, such as page.png.")
    if path.is_file() and path.stat().st_size:
        with path.open("rb") as file:
            if file.read(len(_PNG)) != _PNG:
                raise UsageError(f"{path} exists and is no PNG; it is left alone.")


def _write_pages(pdf: Path, targets: tuple[Path, ...], dpi: int) -> None:
    document = pypdfium2.PdfDocument(pdf.read_bytes())
    try:
        for number, target in enumerate(targets):
            write_whole(target, _png(document[number], dpi))
    finally:
        document.close()


def _png(page: Any, dpi: int) -> bytes:
    """A page in greys; its resolution is in it, so that a viewer shows it at its true size."""
    stream = BytesIO()
    image = page.render(scale=dpi / 72, grayscale=True).to_pil()
    image.save(stream, format="PNG", dpi=(dpi, dpi), optimize=False)
    return stream.getvalue()
