"""Which label stands where: start position, copies, offsets, page after page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import overload

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


class Slots(Sequence[Slot]):
    """Every label of a job in printing order, each made when it is asked for; copies of one label
    follow each other.
    """

    def __init__(self, job: LabelJob) -> None:
        self._job = job
        self._sheet = job.sheet.scaled(job.scale_x, job.scale_y)
        self._across = job.offset_x_mm / job.scale_x * MM
        self._down = job.offset_y_mm / job.scale_y * MM

    def __len__(self) -> int:
        return len(self._job.items) * self._job.copies

    def __iter__(self) -> Iterator[Slot]:
        number = self._job.start - 1
        for content in self._job.items:
            for _ in range(self._job.copies):
                yield self._slot(number, content)
                number += 1

    @overload
    def __getitem__(self, at: int) -> Slot: ...
    @overload
    def __getitem__(self, at: slice) -> Sequence[Slot]: ...
    def __getitem__(self, at: int | slice) -> Slot | Sequence[Slot]:
        if isinstance(at, slice):
            return [self[number] for number in range(*at.indices(len(self)))]
        at = range(len(self))[at]
        return self._slot(self._job.start - 1 + at, self._job.items[at // self._job.copies])

    def _slot(self, number: int, content: LabelContent) -> Slot:
        page, position = divmod(number, self._sheet.count)
        box = self._sheet.place(position + 1)
        return Slot(
            page, Box(box.x + self._across, box.y - self._down, box.width, box.height), content
        )


def slots(job: LabelJob) -> Slots:
    """Where each label of the job stands; raises UsageError where it asks for the impossible."""
    check(job)
    return Slots(job)


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
