"""The words of the Labels tab: the list, the line above it, and the facts beside the picture."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from seedbox.season.waiting_labels import LabelQueue, Waiting
from seedbox.tui.cells import wrapped
from seedbox.tui.columns import Column
from seedbox.tui.labels_job import AS_DESIGNED, Choices, Written, start_of
from seedbox.tui.text_lines import Line
from seedbox.tui.virtual_list import Row

if TYPE_CHECKING:
    from seedbox.printing.content import Printed
    from seedbox.printing.sheets import Sheet

COLUMNS = (
    Column("code", "Code", 9),
    Column("crop", "Crop", 10, most=24),
    Column("variety", "Variety", 9, most=30),
    Column("design", "Design", 8, most=16),
    Column("copies", "Copies", 6, right=True),
    Column("labels", "Labels", 6, right=True, from_width=64),
)
_LABEL = 9
_MOST_NAMED = 6


def row(waiting: Waiting) -> Row:
    return (
        waiting.code,
        waiting.crop,
        waiting.variety,
        waiting.design,
        str(waiting.entry.copies),
        str(waiting.labels),
    )


def tint(key: str, text: str) -> str:
    return "quiet" if key == "code" else ""


def counted(number: int, what: str = "label") -> str:
    """`1 label`, `7 labels`."""
    return f"{number} {what}" if number == 1 else f"{number} {what}s"


def total(waiting: Sequence[Waiting]) -> int:
    return sum(one.labels for one in waiting)


def pages(start: int, labels: int, on_a_sheet: int) -> int:
    return -(-(start - 1 + labels) // on_a_sheet)


def summary(waiting: Sequence[Waiting], sheet: Sheet | None, start: int, marked: int) -> str:
    """How many wait, and what they take."""
    labels = total(waiting)
    parts = [f"{counted(labels)} to print"]
    if sheet is not None and labels:
        parts.append(f"{counted(pages(start, labels, sheet.count), 'page')} of {sheet.name}")
    parts += [f"{marked} marked"] if marked else []
    return " " + " · ".join(parts)


def fact_lines(
    queue: LabelQueue, sheet: Sheet, choices: Choices, written: Written | None, width: int
) -> list[Line]:
    """What will be printed on, and how; what was written comes first."""
    lines: list[Line] = []
    for label, words in _facts(queue, sheet, choices):
        lines += _pair(label, words, width)
    said = written_lines(queue, choices, written, width)
    return [*lines, *said] if written is None else [*said, *lines]


def _facts(queue: LabelQueue, sheet: Sheet, choices: Choices) -> Iterator[tuple[str, str]]:
    settings = queue.settings
    yield "Sheet", f"{sheet.name}: {sheet_words(sheet)}"
    start = start_of(queue, sheet.count)
    if not sheet.is_roll:
        yield "First", f"label {start} of {sheet.count}"
    yield "Code", code_words(choices)
    if choices.each == "cell":
        yield "Sowings", "a label for each cell"
    if choices.outlines is not None:
        yield "Outlines", "drawn" if choices.outlines else "not drawn"
    moved = settings.label_offset_x_mm, settings.label_offset_y_mm
    scale = settings.label_scale_x, settings.label_scale_y
    told = [f"{settings.label_dpi} dpi"]
    told += [f"moved {moved[0]:g} mm right, {moved[1]:g} mm down"] if any(moved) else []
    told += [f"makes {scale[0]:g} x {scale[1]:g} of 1 mm"] if scale != (1, 1) else []
    yield "Printer", ", ".join(told)


def sheet_words(sheet: Sheet) -> str:
    """How many labels of what size."""
    size = f"{sheet.label_width_mm:.4g} x {sheet.label_height_mm:.4g} mm"
    if sheet.is_roll:
        return f"roll, labels of {size}"
    return f"{counted(sheet.count)} of {size}"


def code_words(choices: Choices) -> str:
    if choices.code_layout == AS_DESIGNED:
        return "as the design has it"
    return "rugged: twice, for mud" if choices.code_layout == "rugged" else "once"


def written_lines(
    queue: LabelQueue, choices: Choices, written: Written | None, width: int
) -> list[Line]:
    """The file and its proof, and what to do next."""
    if written is None:
        return _pair("File", "none yet: w writes it", width)
    lines = _pair("File", file_words(written.printed), width)
    proof = proof_words(written.printed)
    lines += _pair("Proof", proof, width, "bold $error" if written.printed.unreadable else "")
    if not is_current(queue, choices, written):
        lines += _pair("", "The queue is another now: w writes it again.", width, "$warning")
    for warning in map(str, written.printed.warnings):
        lines += _pair("!", warning, width, "$warning")
    return lines


def is_current(queue: LabelQueue, choices: Choices, written: Written) -> bool:
    """Whether the file still holds what the queue asks for."""
    start = start_of(queue, written.on_a_sheet)
    return (written.waiting, written.choices, written.start) == (queue.waiting, choices, start)


def file_words(printed: Printed) -> str:
    size = f"{counted(printed.labels)} on {counted(printed.pages, 'page')}"
    return f"{printed.path.name}, {size}"


def proof_words(printed: Printed) -> str:
    """What reading the codes back has shown."""
    failed = printed.unreadable
    if not failed:
        return "every code was read back from the page"
    named = ", ".join(failed[:_MOST_NAMED])
    more = f" and {len(failed) - _MOST_NAMED} more" if len(failed) > _MOST_NAMED else ""
    return f"! not readable, do not use: {named}{more}. Take a larger label."


def written_words(written: Written) -> str:
    """One sentence for the line above the keys."""
    printed = written.printed
    if printed.unreadable:
        return f"Wrote {printed.path}. {proof_words(printed)[2:]}"
    cautions = f" {printed.warnings[0]}" if printed.warnings else ""
    return (
        f"Wrote {counted(printed.labels)} to {printed.path}; every code was read back."
        f"{cautions} o opens it, i prints it, a says that it is on paper."
    )


def _pair(label: str, words: str, width: int, style: str = "") -> list[Line]:
    first, *rest = wrapped(words, max(10, width - _LABEL))
    return [
        [(f"{label:<{_LABEL}}", "$quiet"), (first, style)],
        *([(" " * _LABEL + line, style)] for line in rest),
    ]
