"""The form that writes labels of sowings as a PDF; every code is read back before it is done."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from seedbox.printing.content import LabelContent, LabelJob
from seedbox.printing.designs import design, designs
from seedbox.printing.labels import print_labels
from seedbox.printing.sheets import sheet, sheets
from seedbox.season.crops import CropBook
from seedbox.season.sowing.in_progress import Growing
from seedbox.season.sowing.tray_fields import tray_fields
from seedbox.tui import label_plan
from seedbox.tui.desk import Desk
from seedbox.tui.field_values import FieldReader
from seedbox.tui.form import Field, FormPlan, Values

USUAL_DESIGN = "tray"


def tray_label_plan(desk: Desk, sowings: Sequence[Growing]) -> FormPlan:
    """Asks for sheet, first free label, copies and file."""
    tin = desk.tin()
    settings = tin.settings()
    book = CropBook(settings, tin.own_crops())

    def save(values: Values) -> str:
        reader = FieldReader(values, desk.today)
        start, copies = reader.count("start") or 1, reader.count("copies") or 1
        if copies > label_plan.MOST_COPIES:
            reader.fault("copies", f"{label_plan.MOST_COPIES} copies are the most.")
        path = label_plan.file_named(reader)
        reader.finish()
        job = LabelJob(
            design=design(values["design"]),
            sheet=sheet(values["sheet"]),
            items=[
                LabelContent(one.sowing.code, tray_fields(one, book, settings)) for one in sowings
            ],
            start=start,
            copies=copies,
            offset_x_mm=settings.label_offset_x_mm,
            offset_y_mm=settings.label_offset_y_mm,
        )
        return label_plan.printed_words(print_labels(job, path))

    what = sowings[0].code if len(sowings) == 1 else f"{len(sowings)} sowings"
    return FormPlan(
        title=f"Labels for {what}",
        fields=[
            Field("copies", "Copies", "Of each label: one for each tray or row."),
            Field("sheet", "Sheet", "Named by paper, number of labels and size.", tuple(sheets())),
            Field("start", "First label", "First free one on a part-used sheet; 1 is top left."),
            Field("design", "Design", "Left and right arrows choose.", tuple(designs())),
            Field("file", "File", "The PDF to write."),
        ],
        save=save,
        initial={
            "design": USUAL_DESIGN,
            "sheet": settings.label_sheet or label_plan.USUAL_SHEET[settings.page],
            "start": "1",
            "copies": "1",
            "file": str(Path.cwd() / "tray-labels.pdf"),
        },
        draft_key="tray labels",
        advice="Print the file at 100 %, never “fit to page”.",
    )
