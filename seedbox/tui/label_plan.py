"""The form that writes labels as a PDF; every code is read back before it is called done."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from seedbox.printing.content import LabelContent, LabelJob, Printed
from seedbox.printing.designs import design, designs
from seedbox.printing.labels import print_labels
from seedbox.printing.sheets import sheet, sheets
from seedbox.season.label_fields import label_fields
from seedbox.season.listing import PacketLine
from seedbox.tui.answers import Answers
from seedbox.tui.desk import Desk
from seedbox.tui.field_values import FieldReader
from seedbox.tui.form import Field, FormPlan, Values

USUAL_DESIGN = "packet"
USUAL_SHEET = {"a4": "a4-24-64x34-gap", "letter": "letter-30-2.625x1"}
MOST_COPIES = 1000


def label_plan(desk: Desk, lines: Sequence[PacketLine]) -> FormPlan:
    """Asks for design, sheet, first free label and file."""
    tin = desk.tin()
    answers = Answers(tin, desk.today)
    settings = answers.settings

    def save(values: Values) -> str:
        reader = FieldReader(values, desk.today)
        start, copies = reader.count("start") or 1, reader.count("copies") or 1
        if copies > MOST_COPIES:
            reader.fault("copies", f"{MOST_COPIES} copies are the most.")
        path = file_named(reader)
        reader.finish()
        job = LabelJob(
            design=design(values["design"]),
            sheet=sheet(values["sheet"]),
            items=[_content(answers, line) for line in lines],
            start=start,
            copies=copies,
            offset_x_mm=settings.label_offset_x_mm,
            offset_y_mm=settings.label_offset_y_mm,
        )
        return printed_words(print_labels(job, path))

    what = lines[0].code if len(lines) == 1 else f"{len(lines)} packets"
    return FormPlan(
        title=f"Labels for {what}",
        fields=[
            Field("design", "Design", "Left and right arrows choose.", tuple(designs())),
            Field("sheet", "Sheet", "Named by paper, number of labels and size.", tuple(sheets())),
            Field("start", "First label", "First free one on a part-used sheet; 1 is top left."),
            Field("copies", "Copies", "Of each label."),
            Field("file", "File", "The PDF to write."),
        ],
        save=save,
        initial={
            "design": settings.label_design or USUAL_DESIGN,
            "sheet": settings.label_sheet or USUAL_SHEET[settings.page],
            "start": "1",
            "copies": "1",
            "file": str(Path.cwd() / "labels.pdf"),
        },
        draft_key="labels",
        advice="Print the file at 100 %, never “fit to page”.",
    )


def file_named(reader: FieldReader) -> Path:
    name = reader.text("file")
    if not name:
        reader.fault("file", "Name a file, such as labels.pdf.")
    try:
        return Path(name).expanduser()
    except RuntimeError:
        reader.fault("file", "That home folder is not known: write the whole path.")
        return Path(name)


def _content(answers: Answers, line: PacketLine) -> LabelContent:
    known = answers.forecast(line)
    return LabelContent(
        line.packet.code, label_fields(known, answers.book, answers.today, answers.settings)
    )


def printed_words(printed: Printed) -> str:
    labels = "1 label" if printed.labels == 1 else f"{printed.labels} labels"
    if printed.unreadable:
        return f"Wrote {printed.path}, but these codes could not be read back: " + ", ".join(
            printed.unreadable
        )
    remarks = "".join(f" {problem}" for problem in printed.warnings)
    return f"Wrote {labels} to {printed.path}; every code was read back from the page.{remarks}"
