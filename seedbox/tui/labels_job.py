"""From the queue and what was chosen for it to a print job."""

from __future__ import annotations

import threading
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from seedbox.season.waiting_labels import (
    LabelQueue,
    LabelWords,
    Waiting,
    first_free,
    sheet_in_use,
)

if TYPE_CHECKING:
    from seedbox.printing.content import LabelJob, Printed
    from seedbox.printing.designs import Design
    from seedbox.printing.sheets import Sheet
    from seedbox.tui.desk import Desk

AS_DESIGNED = ""
CODE_LAYOUTS = (AS_DESIGNED, "rugged", "once")


@dataclass(frozen=True, slots=True)
class Choices:
    """What is chosen for this printing alone: how often the code stands on a label, whether
    outlines are drawn (None: where the sheet is of plain paper), and whether a sowing has a label
    for each "tray" or each "cell".
    """

    code_layout: str = AS_DESIGNED
    outlines: bool | None = None
    each: str = "tray"


@dataclass(frozen=True, slots=True)
class Written:
    """A file of labels: what was printed, which entries of the queue, where they begin."""

    printed: Printed
    ids: tuple[int, ...]
    start: int
    on_a_sheet: int
    waiting: tuple[Waiting, ...]
    choices: Choices


@dataclass(slots=True, eq=False)
class WordSource:
    """The words of labels, read when a thread first asks for them, over a connection of its own.
    One reading is not another, even of the same tin.
    """

    desk: Desk
    each: str
    _known: LabelWords | None = None
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def words(self) -> LabelWords:
        with self._lock:
            if self._known is None:
                with self.desk.another() as tin:
                    self._known = LabelWords(tin, self.desk.today, self.each)
            return self._known


@dataclass(frozen=True, slots=True)
class Order:
    """All that a print job is made of."""

    queue: LabelQueue
    source: WordSource
    choices: Choices

    def job(self, waiting: Sequence[Waiting]) -> LabelJob:
        """The job that prints these entries in their order on the sheet in use."""
        from seedbox.printing.content import LabelContent, LabelJob

        sheet, settings, words = sheet_of(self.queue), self.queue.settings, self.source.words()
        known = {one.design: chosen_design(one.design, self.choices) for one in waiting}
        items = [
            LabelContent(one.entry.code, fields, known[one.design])
            for one in waiting
            for fields in words.of(one.entry.code, one.design)
            for _ in range(one.entry.copies)
        ]
        return LabelJob(
            design=known[waiting[0].design],
            sheet=sheet,
            items=items,
            start=start_of(self.queue, sheet.count),
            offset_x_mm=settings.label_offset_x_mm,
            offset_y_mm=settings.label_offset_y_mm,
            scale_x=settings.label_scale_x,
            scale_y=settings.label_scale_y,
            outlines=self.choices.outlines,
        )

    def write(self, path: Path) -> Written:
        """Print the whole queue to a file and read every code back."""
        from seedbox.printing.labels import print_labels
        from seedbox.printing.proof import ONE_AT_A_TIME

        waiting = self.queue.waiting
        job = self.job(waiting)
        with ONE_AT_A_TIME:
            printed = print_labels(job, path, dpi=self.queue.settings.label_dpi)
        ids = tuple(one.entry.id for one in waiting)
        return Written(printed, ids, job.start, job.sheet.count, waiting, self.choices)


def sheet_of(queue: LabelQueue) -> Sheet:
    """The sheet in use; raises NotFoundError or BadDataError when it cannot be read."""
    from seedbox.printing.sheets import sheet

    return sheet(sheet_in_use(queue.settings))


def start_of(queue: LabelQueue, on_a_sheet: int) -> int:
    """The first free label of the sheet in use."""
    return first_free(queue.settings, on_a_sheet)


def chosen_design(name: str, choices: Choices) -> Design:
    """A design by name, with its code once or rugged where that was chosen."""
    from seedbox.printing.designs import design
    from seedbox.printing.layout import with_code

    found = design(name)
    bars_alone = found.code.symbol in ("code128", "none")
    return found if not choices.code_layout or bars_alone else with_code(found, choices.code_layout)
