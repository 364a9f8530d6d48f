"""Which label sheets and designs there are, without loading what prints."""

from __future__ import annotations

from seedbox.cli.output import say, say_json
from seedbox.cli.tables import Column, room, table
from seedbox.cli.words import number
from seedbox.printing.sheets import Sheet

_SHEETS = (
    Column("sheet"),
    Column("labels", right=True),
    Column("size (mm)"),
    Column("page", least=6),
    Column("corners"),
)
_DESIGNS = (Column("design"), Column("what", least=16), Column("shows", least=20))


def show_sheets(as_json: bool) -> None:
    """All label sheets by their geometry."""
    from seedbox.printing.sheets import sheets

    known = list(sheets().values())
    if as_json:
        say_json(known)
    else:
        say(*table(_SHEETS, [_row(sheet) for sheet in known], room()))


def show_designs(as_json: bool) -> None:
    """All label designs and what they show."""
    from seedbox.printing.designs import designs

    known = designs().values()
    shown = [
        (made.name, made.title, list(dict.fromkeys(f for line in made.lines for f in line.fields)))
        for made in known
    ]
    if as_json:
        say_json([{"name": name, "title": title, "fields": has} for name, title, has in shown])
    else:
        rows = [(name, title, ", ".join(has)) for name, title, has in shown]
        say(*table(_DESIGNS, rows, room()))


def _row(sheet: Sheet) -> tuple[str, ...]:
    label = _size(sheet.label_width_mm, sheet.label_height_mm)
    page = _size(sheet.page_width_mm, sheet.page_height_mm)
    if sheet.is_roll:
        page = f"roll, read {sheet.reading} it"
    return sheet.name, str(sheet.count), label, page, sheet.corner


def _size(width_mm: float, height_mm: float) -> str:
    """To a tenth of a millimetre, as a ruler shows it."""
    return f"{number(round(width_mm, 1))} x {number(round(height_mm, 1))}"
