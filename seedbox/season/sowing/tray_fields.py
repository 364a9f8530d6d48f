"""The words on the label of a tray, a pot or a row: what the design `tray` may ask for."""

from __future__ import annotations

from seedbox.season.cautions import label_caution
from seedbox.season.crops import CropBook
from seedbox.season.listing import year_text
from seedbox.season.sowing.in_progress import Growing
from seedbox.season.written_dates import written
from seedbox.tin.codes import shown
from seedbox.tin.garden_records import Sowing
from seedbox.tin.preferences import Settings


def tray_fields(
    growing: Growing, book: CropBook, settings: Settings | None = None
) -> dict[str, str]:
    """Field names of the label designs with their text, for one sowing; dates follow the
    settings, which also give a person's own line.
    """
    settings = settings or Settings()
    packet, sowing = growing.packet, growing.sowing
    year = year_text(packet)
    return {
        "code": growing.code,
        "crop": growing.crop,
        "variety": packet.variety,
        "botanical": book.botanical_name(packet.crop_id),
        "packet": f"packet {shown(packet.code)}",
        "sown_on": f"sown {written(sowing.on, settings.dates)}",
        "cells": cells_text(sowing),
        "place": growing.sown_in.name,
        "year": "" if year == "unknown" else year,
        "source": packet.source,
        "caution": label_caution(packet, growing.crop),
        "note": sowing.note,
        "line": settings.label_line,
    }


def fields_each(
    growing: Growing, book: CropBook, settings: Settings | None = None, each: str = "tray"
) -> list[dict[str, str]]:
    """One label for the whole sowing, or with `each` "cell" one for each of its cells; a row has
    one all the same.
    """
    whole = tray_fields(growing, book, settings)
    cells = growing.sowing.cells
    if each != "cell" or cells is None:
        return [whole]
    # What is in the whole tray says little in one of its cells.
    return [
        {**whole, "cells": "", "number": f"cell {number} of {cells}"}
        for number in range(1, cells + 1)
    ]


def cells_text(sowing: Sowing) -> str:
    """`12 cells of 2`, `80 seeds in 3 m`, or the seeds alone."""
    if sowing.cells is not None:
        unit = "cell" if sowing.cells == 1 else "cells"
        return f"{sowing.cells} {unit} of {sowing.per_cell}"
    seeds = "1 seed" if sowing.seeds == 1 else f"{sowing.seeds} seeds"
    return f"{seeds} in {sowing.row_m:g} m" if sowing.row_m is not None else seeds
