"""How one label will look: its words with their places, and the rest of its ink as grey pixels.

Nothing is drawn a second time: the label is printed as always, and the page is looked at.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass, replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from unicodedata import bidirectional

import pypdfium2
from pypdfium2.raw import FPDF_PAGEOBJ_TEXT

from seedbox.printing.content import MM, Box, LabelJob
from seedbox.printing.labels import print_labels
from seedbox.printing.pages import slots
from seedbox.printing.proof import ONE_AT_A_TIME
from seedbox.problems import Problem

_BRACKETS = str.maketrans(")]}>»", "([{<«")
_SPACE_EM = 0.12
"""A gap from which pieces of a line are parted by a space, of their size."""


@dataclass(frozen=True, slots=True)
class PlacedWords:
    """Words on a label: their box [mm, from its top left], their size [pt], and whether they read
    downwards.
    """

    text: str
    left_mm: float
    top_mm: float
    width_mm: float
    height_mm: float
    size_pt: float
    turned: bool = False


@dataclass(frozen=True, slots=True)
class LabelPicture:
    """A label as it will be printed. `pixels` hold its ink without the words, row by row from the
    top: one byte each, 0 black, 255 white, `columns` to a row.
    """

    width_mm: float
    height_mm: float
    words: tuple[PlacedWords, ...]
    pixels: bytes
    columns: int
    warnings: tuple[Problem, ...] = ()

    @property
    def rows(self) -> int:
        return len(self.pixels) // self.columns


def label_picture(job: LabelJob, pixels_per_mm: float, *, dpi: int = 300) -> LabelPicture:
    """The first label of the job as it will be printed; raises what `print_labels` raises."""
    one = replace(job, items=job.items[:1], copies=1)
    with ONE_AT_A_TIME, TemporaryDirectory(prefix="seedbox-") as folder:
        printed = print_labels(one, Path(folder) / "label.pdf", proof=False, dpi=dpi)
        slot = next(iter(slots(one)))
        with closing(pypdfium2.PdfDocument(printed.path.read_bytes())) as document:
            seen = _seen(document[slot.page], slot.box, pixels_per_mm)
    words = tuple(_as_written(words, _texts(one)) for words in seen.words)
    return replace(seen, words=words, warnings=printed.warnings)


def _texts(job: LabelJob) -> dict[str, str]:
    """What the label's lines say, by their letters."""
    (item,) = job.items
    lines = (item.design or job.design).lines
    said = [text for line in lines for text in (line.text(item), *map(item.text, line.fields))]
    return {_letters(text): text for text in said}


def _as_written(words: PlacedWords, texts: dict[str, str]) -> PlacedWords:
    """A page holds its pieces from left to right; what is read from the right is put in order."""
    if not any(bidirectional(char) in ("R", "AL") for char in words.text):
        return words
    return replace(words, text=texts.get(_letters(words.text), words.text))


def _letters(text: str) -> str:
    """All of them in one order; a bracket that is read from the right is drawn as the other one."""
    return "".join(sorted(text.replace(" ", "").translate(_BRACKETS)))


def _seen(page: Any, box: Box, pixels_per_mm: float) -> LabelPicture:
    texts = page.get_textpage()
    objects = list(page.get_objects(filter=[FPDF_PAGEOBJ_TEXT], textpage=texts))
    words = tuple(_in_lines(list(_placed(objects, box))))
    texts.close()
    for one in objects:
        page.remove_obj(one)
    pixels, columns = _ink(page, box, pixels_per_mm)
    return LabelPicture(box.width / MM, box.height / MM, words, pixels, columns)


def _placed(objects: list[Any], box: Box) -> Iterator[PlacedWords]:
    for one in objects:
        text = one.extract()
        if not text.strip():
            continue
        left, bottom, right, top = one.get_bounds()
        matrix = one.get_matrix()
        yield PlacedWords(
            text,
            (left - box.x) / MM,
            (box.top - top) / MM,
            (right - left) / MM,
            (top - bottom) / MM,
            one.get_font_size() * (matrix.a**2 + matrix.b**2) ** 0.5,
            turned=abs(matrix.b) > abs(matrix.a),
        )


def _in_lines(pieces: list[PlacedWords]) -> Iterator[PlacedWords]:
    """Pieces that follow each other on a line (a change of font parts them) as one."""
    held: PlacedWords | None = None
    for piece in pieces:
        if held is not None and _follows(held, piece):
            held = _joined(held, piece)
            continue
        if held is not None:
            yield replace(held, text=held.text.strip())
        held = piece
    if held is not None:
        yield replace(held, text=held.text.strip())


def _follows(held: PlacedWords, piece: PlacedWords) -> bool:
    """Whether a piece stands on the same line, right behind the one before it."""
    if (held.turned, held.size_pt) != (piece.turned, piece.size_pt):
        return False
    (begins, ends), (low, high) = _spans(held)
    (next_begins, _), (next_low, next_high) = _spans(piece)
    em = held.size_pt / MM
    same_line = min(high, next_high) > max(low, next_low)
    return same_line and begins < next_begins < ends + 0.6 * em


def _spans(one: PlacedWords) -> tuple[tuple[float, float], tuple[float, float]]:
    """From where to where it runs along its line, and across it [mm]."""
    across = one.left_mm, one.left_mm + one.width_mm
    down = one.top_mm, one.top_mm + one.height_mm
    return (down, across) if one.turned else (across, down)


def _joined(held: PlacedWords, piece: PlacedWords) -> PlacedWords:
    left, top = min(held.left_mm, piece.left_mm), min(held.top_mm, piece.top_mm)
    right = max(held.left_mm + held.width_mm, piece.left_mm + piece.width_mm)
    foot = max(held.top_mm + held.height_mm, piece.top_mm + piece.height_mm)
    parted = _spans(piece)[0][0] - _spans(held)[0][1] > _SPACE_EM * held.size_pt / MM
    space = " " if parted and not held.text.endswith(" ") else ""
    return PlacedWords(
        held.text + space + piece.text,
        left,
        top,
        right - left,
        foot - top,
        held.size_pt,
        held.turned,
    )


def _ink(page: Any, box: Box, pixels_per_mm: float) -> tuple[bytes, int]:
    """The label cut out of its page, in grey; its pixels and how many stand in a row."""
    width, height = page.get_size()
    sides = (box.x, box.y, width - box.right, height - box.top)
    crop = tuple(max(0.0, side) for side in sides)
    bitmap = page.render(scale=pixels_per_mm / MM, crop=crop, grayscale=True)
    raw = bytes(bitmap.buffer)
    lines = (raw[at * bitmap.stride :][: bitmap.width] for at in range(bitmap.height))
    return b"".join(lines), bitmap.width
