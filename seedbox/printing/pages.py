"""Which label stands where: start position, copies, offsets, page after page."""

from __future__ import annotations

from dataclasses import dataclass

from seedbox.errors import UsageError
from seedbox.printing.content import MM, Box, LabelContent, LabelJob

_MOST_COPIES = 1000
_MOST_OFFSET_MM = 50.0
_LEAST_SCALE, _MOST_SCALE = 0.9, 1.1


@dataclass(frozen=True, slots=True)
class Slot:
    """One label: its page (0 is the first), its rectangle on the page [points], its content."""

    page: int
    box: Box
    content: LabelContent


def slots(job: LabelJob) -> list[Slot]:
    """Every label of the job in printing order; copies of one label follow each other."""
    check(job)
    wanted = (content for content in job.items for _ in range(job.copies))
    return [_slot(job, number, content) for number, content in enumerate(wanted, job.start - 1)]


def check(job: LabelJob) -> None:
    """Raises UsageError where the job asks for what no sheet can give."""
    if not job.items:
        raise UsageError("There is nothing to print: no labels were chosen.")
    if not 1 <= job.start <= job.sheet.count:
        raise UsageError(
            f"Start {job.start} is out of range: "
            f"{job.sheet.name} has labels 1 to {job.sheet.count}."
        )
    if not 1 <= job.copies <= _MOST_COPIES:
        raise UsageError(f"{job.copies} copies are out of range: 1 to {_MOST_COPIES}.")
    for way, offset in (("right", job.offset_x_mm), ("down", job.offset_y_mm)):
        if not -_MOST_OFFSET_MM <= offset <= _MOST_OFFSET_MM:
            raise UsageError(f"An offset of {offset:g} mm {way} is out of range: -50 to 50 mm.")
    for way, scale in (("across", job.scale_x), ("down", job.scale_y)):
        if not _LEAST_SCALE <= scale <= _MOST_SCALE:
            raise UsageError(f"A scale of {scale:g} {way} is out of range: 0.9 to 1.1.")


def _slot(job: LabelJob, number: int, content: LabelContent) -> Slot:
    page, position = divmod(number, job.sheet.count)
    box = job.sheet.scaled(job.scale_x, job.scale_y).place(position + 1)
    across, down = job.offset_x_mm / job.scale_x * MM, job.offset_y_mm / job.scale_y * MM
    moved = Box(box.x + across, box.y - down, box.width, box.height)
    return Slot(page, moved, content)
