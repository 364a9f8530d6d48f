"""The form that writes the slips of a test as a PDF: one for the bag of each replicate."""

from __future__ import annotations

from pathlib import Path

from seedbox.printing.content import LabelContent, LabelJob
from seedbox.printing.designs import design
from seedbox.printing.labels import print_labels
from seedbox.printing.sheets import sheet, sheets
from seedbox.season.crops import CropBook
from seedbox.season.testing.slip_fields import slip_fields
from seedbox.tin.codes import shown
from seedbox.tin.records import GerminationTest, Packet
from seedbox.tui.desk import Desk
from seedbox.tui.field_values import FieldReader
from seedbox.tui.form import Field, FormPlan, Values
from seedbox.tui.label_plan import file_named, printed_words

DESIGN = "test"
# Room for blanks that a pencil fills in; cut from plain paper.
_SHEET = {"a4": "a4-8-99x68-gap", "letter": "letter-6-4x3.333"}


def slip_plan(desk: Desk, test: GerminationTest, packet: Packet) -> FormPlan:
    """Asks for sheet, first free label and file."""
    tin = desk.tin()
    settings = tin.settings()
    book = CropBook(settings, tin.own_crops())

    def save(values: Values) -> str:
        reader = FieldReader(values, desk.today)
        start, path = reader.count("start") or 1, file_named(reader)
        reader.finish()
        job = LabelJob(
            design=design(DESIGN),
            sheet=sheet(values["sheet"]),
            items=[
                LabelContent(test.code, words)
                for words in slip_fields(test, packet, book, settings)
            ],
            start=start,
            outlines=True,
            offset_x_mm=settings.label_offset_x_mm,
            offset_y_mm=settings.label_offset_y_mm,
        )
        return printed_words(print_labels(job, path))

    return FormPlan(
        title=f"Slips for the test {shown(test.code)}",
        fields=[
            Field("sheet", "Sheet", "Named by paper, number of labels and size.", tuple(sheets())),
            Field("start", "First label", "First free one on a part-used sheet; 1 is top left."),
            Field("file", "File", "The PDF to write."),
        ],
        save=save,
        initial={
            "sheet": _SHEET[settings.page],
            "start": "1",
            "file": str(Path.cwd() / f"slip-{test.code}.pdf"),
        },
        draft_key=f"slip {test.code}",
        advice="A slip for each replicate, with room for the counts in pencil. Print at 100 %.",
    )
