"""The first screenful of packets, before the whole tin has been read.

Ten thousand packets take a quarter of a second to read, their crops and varieties a few
milliseconds. So the first lines are found by name alone, and only those are read in full.
"""

from __future__ import annotations

from collections.abc import Iterator

from seedbox.season.crops import CropBook
from seedbox.tin.file import Tin
from seedbox.tui.tin_columns import row
from seedbox.tui.virtual_list import Row


def first_page(tin: Tin, room: int) -> tuple[list[Row], int]:
    """At most `room` rows in order of crop, variety and code; and how many packets there are.

    The rows are those that the list will show when all is read, only without their forecasts.
    """
    rows: list[Row] = []
    for crop, code in _in_order(tin):
        if len(rows) >= room:
            break
        dossier = tin.dossier(code)
        if dossier.left != 0:
            rows.append(row(dossier, crop, None))
    return rows, int(tin.database.value("SELECT count(*) FROM packet"))


def _in_order(tin: Tin) -> Iterator[tuple[str, str]]:
    """Crop as shown and code of each packet, a crop at a time."""
    book = CropBook(tin.settings(), tin.own_crops())
    ids = [crop_id for (crop_id,) in tin.database.rows("SELECT DISTINCT crop_id FROM packet")]
    named = sorted((book.name(crop_id).casefold(), book.name(crop_id), crop_id) for crop_id in ids)
    for _, crop, crop_id in named:
        packets = tin.database.rows("SELECT variety, code FROM packet WHERE crop_id = ?", [crop_id])
        for _, code in sorted((variety.casefold(), code) for variety, code in packets):
            yield crop, code
