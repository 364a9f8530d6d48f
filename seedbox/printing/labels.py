"""Printing labels: from a job to a PDF file whose codes have been read back."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from itertools import islice
from pathlib import Path

from seedbox.errors import UsageError
from seedbox.printing.content import LabelContent, LabelJob, Printed
from seedbox.printing.designs import LineStyle
from seedbox.printing.drawing import draw_into, shown_words
from seedbox.printing.fonts import BOX, clean, is_embedded, runs
from seedbox.printing.layout import Layouts
from seedbox.printing.pages import slots
from seedbox.printing.proof import unreadable_codes
from seedbox.problems import Problem
from seedbox.whole_file import beside

LEAST_DPI, MOST_DPI = 200, 2400
_SHOWN = 5
_MOST_TOLD = 1000
_SAFETY = frozenset(("caution", "hazard", "treated"))
"""What must not be lost for want of room, where the design has it."""


def print_labels(job: LabelJob, path: Path, *, proof: bool = True, dpi: int = 300) -> Printed:
    """Writes the job as a PDF and reads every code back from the rendered pages.

    `dpi` is the printer's: the squares of a code are whole printer dots. The file is written even
    when a code cannot be read; `unreadable` names it. Raises UsageError (nothing to print, no
    room for the code, a file that is no PDF in the way) and BadDataError (a code that no symbol
    can hold).
    """
    check_target(path)
    if not LEAST_DPI <= dpi <= MOST_DPI:
        raise UsageError(f"{dpi} dpi is out of range: {LEAST_DPI} to {MOST_DPI}.")
    sheet = job.sheet if job.length_mm is None else job.sheet.with_length(job.length_mm)
    job = replace(job, sheet=sheet)
    places = slots(job)
    sheet = sheet.scaled(job.scale_x, job.scale_y)
    layouts = Layouts(job, sheet, dpi)
    layouts.of(job.items[0])  # what does not fit is said before a file is made
    with beside(path) as made:
        with made.open("wb") as file:
            draw_into(file, job, sheet, places, dpi)
        failed = unreadable_codes(made, places, layouts.layout) if proof else ()
    return Printed(
        path=path,
        labels=len(places),
        pages=places[-1].page + 1,
        proofed=proof,
        unreadable=failed,
        warnings=(*_cut_cautions(job, layouts), *_empty_lines(job), *_strange_letters(job)),
    )


def _cut_cautions(job: LabelJob, layouts: Layouts) -> Iterable[Problem]:
    """One problem that names the labels on which a caution is cut or has no room at all."""
    cut = (item.text("code") for item in job.items if _caution_is_cut(item, layouts))
    named = list(islice(cut, _SHOWN))
    if named:
        left = sum(1 for _ in cut)
        more = f" and {left} more" if left else ""
        yield Problem(
            f"the caution does not fit this label in full: {', '.join(named)}{more}. "
            "Take a larger label, or write it on the packet by hand.",
            field="caution",
        )


def _empty_lines(job: LabelJob) -> Iterable[Problem]:
    """One problem for each line that must be whole and is not, on one label or more."""
    lacking: dict[tuple[LineStyle, tuple[str, ...]], list[str]] = {}
    for item in job.items:
        for line in (item.design or job.design).lines:
            missing = line.missing(item) if line.if_empty else ()
            if missing:
                lacking.setdefault((line, missing), []).append(item.text("code"))
    for (line, missing), told in lacking.items():
        codes = list(dict.fromkeys(told))  # a packet may have a label for each portion
        more = f" and {len(codes) - _SHOWN} more" if len(codes) > _SHOWN else ""
        what = "nothing" if missing == line.fields else f"no {' and no '.join(missing)}"
        yield Problem(
            f"{what} is written on {', '.join(codes[:_SHOWN])}{more}. {line.if_empty}",
            field=" + ".join(line.fields),
        )


def _caution_is_cut(item: LabelContent, layouts: Layouts) -> bool:
    design, layout = layouts.of(item)
    told = {field for line in design.lines for field in line.fields}.intersection(_SAFETY)
    cautions = [clean(item.text(field)) for field in sorted(told) or ("caution",)]
    if not any(cautions):
        return False
    shown = shown_words(layout, design, item)
    return any(caution not in shown for caution in cautions)


def _strange_letters(job: LabelJob) -> Iterable[Problem]:
    """One problem for each line that shows an empty box instead of a character, and one if the
    page needs fonts that are not embedded.
    """
    borrowed, told = False, 0
    for item in job.items:
        for line in (item.design or job.design).lines:
            text = line.text(item)
            if text.isascii():
                continue
            found = runs(clean(text), line.style.weight)
            borrowed = borrowed or not all(is_embedded(run.font) for run in found)
            if any(run.font == BOX for run in found) and told < _MOST_TOLD:
                told += 1
                yield _boxed("".join(run.text for run in found if run.font == BOX), line, item)
    if borrowed:
        yield Problem(
            "Chinese, Japanese and Korean words are drawn by the PDF reader's own fonts: "
            "look at the page before you print it."
        )


def _boxed(lost: str, line: LineStyle, item: LabelContent) -> Problem:
    names = ", ".join(f"U+{ord(char):04X}" for char in list(dict.fromkeys(lost))[:5])
    return Problem(
        f"no font here has {names}; an empty box is printed instead.",
        field=" + ".join(line.fields),
        where=item.text("code"),
    )


def check_target(path: Path) -> None:
    """Refuses a place that no PDF can be written to. Only a former PDF may be overwritten."""
    if path.is_dir():
        raise UsageError(f"{path} is a folder: name a file, such as labels.pdf.")
    if not path.parent.is_dir():
        raise UsageError(f"There is no folder {path.parent} to write {path.name} into.")
    if path.is_file() and path.stat().st_size and not _is_pdf(path):
        raise UsageError(f"{path} exists and is no PDF; it is left alone. Name another file.")


def _is_pdf(path: Path) -> bool:
    with path.open("rb") as file:
        return file.read(5) == b"%PDF-"
