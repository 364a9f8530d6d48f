"""The forms of the Labels tab: how many copies, which file, what the printer does."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from seedbox.season.waiting_labels import Waiting
from seedbox.tin.label_changes import change_queued
from seedbox.tin.label_queue import MOST_COPIES
from seedbox.tin.settings import set_settings
from seedbox.tui.desk import Desk
from seedbox.tui.field_values import FieldReader
from seedbox.tui.form import Field, FormPlan, Values
from seedbox.tui.labels_rows import counted

PRINTER = (
    Field("label_offset_x_mm", "Right", "Move everything right by so many mm; -1.5 is left."),
    Field("label_offset_y_mm", "Down", "Move everything down by so many mm; -1.5 is up."),
    Field("label_scale_x", "1 mm across is", "What the printer makes of 1 mm across, 0.9 to 1.1."),
    Field("label_scale_y", "1 mm down is", "What the printer makes of 1 mm down, 0.9 to 1.1."),
    Field("label_dpi", "Dots per inch", "What the printer prints at: codes use whole dots."),
    Field("label_line", "Own line", "A line of your own, on designs that have room for it."),
)


def copies_plan(desk: Desk, waiting: Sequence[Waiting]) -> FormPlan:
    """Asks how many copies of these labels are wanted."""
    ids = [one.entry.id for one in waiting]

    def save(values: Values) -> str:
        reader = FieldReader(values, desk.today)
        copies = reader.count("copies", needed=True)
        if not 1 <= copies <= MOST_COPIES:
            reader.fault("copies", f"1 to {MOST_COPIES:,} copies can be printed.")
        reader.finish()
        desk.change(lambda tin: change_queued(tin, ids, copies=copies))
        word = "copy" if copies == 1 else "copies"
        return f"{copies} {word} of {what}. u takes it back."

    what = named(waiting)
    return FormPlan(
        title=f"Copies of {what}",
        fields=[Field("copies", "Copies", "Of each label: one for each tray, jar or stake.")],
        save=save,
        initial={"copies": str(waiting[0].entry.copies)},
    )


def named(waiting: Sequence[Waiting]) -> str:
    """One by its name, several by their number."""
    if len(waiting) > 1:
        return counted(len(waiting))
    one = waiting[0]
    return f"{one.crop} {one.variety}".rstrip() + f" ({one.code})"


def file_plan(desk: Desk, labels: int, proposed: Path, begin: Callable[[Path], None]) -> FormPlan:
    """Asks for the file to write; `begin` starts the writing."""

    def save(values: Values) -> str:
        from seedbox.printing.labels import check_target

        reader = FieldReader(values, desk.today)
        path = reader.path()
        reader.finish()
        check_target(path)
        begin(path)
        return f"Writing {counted(labels)} and reading every code back …"

    return FormPlan(
        title=f"Write {counted(labels)}",
        fields=[Field("file", "File", "The PDF to write.")],
        save=save,
        initial={"file": str(proposed)},
        advice="Print the file at 100 %, never “fit to page”.",
    )


def proposed_file(desk: Desk) -> Path:
    """A name by the day that no file has yet."""
    folder, stem = Path.cwd(), f"labels-{desk.today.isoformat()}"
    names = (f"{stem}.pdf", *(f"{stem}-{number}.pdf" for number in range(2, 100)))
    return next(
        (folder / name for name in names if not (folder / name).exists()), folder / names[0]
    )


def printer_plan(desk: Desk) -> FormPlan:
    """Asks what was measured of the printer, and for one's own line."""
    settings = desk.tin().settings()
    names = [known.name for known in PRINTER]
    before = {name: _shown(getattr(settings, name)) for name in names}

    def save(values: Values) -> str:
        changed = {name: values[name] for name in names if values[name].strip() != before[name]}
        if not changed:
            return "The printer is as it was."
        desk.change(lambda tin: set_settings(tin, changed, "Set what the printer does"))
        return "Labels are printed by these settings now. u takes it back."

    return FormPlan(
        title="The printer",
        fields=PRINTER,
        save=save,
        initial=before,
        draft_key="printer",
        advice="From a calibration page, printed and measured: seedbox labels calibrate.",
    )


def _shown(value: object) -> str:
    return f"{value:g}" if isinstance(value, float) else str(value)
