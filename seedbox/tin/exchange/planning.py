"""From a file to a plan: what would be added, what is there already, what stays out and why."""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence
from datetime import date
from pathlib import Path

from seedbox.errors import BadDataError
from seedbox.tin.exchange import headers
from seedbox.tin.exchange.answers import ResolveCrop
from seedbox.tin.exchange.crops import CropReader
from seedbox.tin.exchange.fields import Field
from seedbox.tin.exchange.lineage import refuse_doubles, refuse_orphans
from seedbox.tin.exchange.neutral import shown
from seedbox.tin.exchange.plans import ImportPlan, NewPacket
from seedbox.tin.exchange.reading import read_table
from seedbox.tin.exchange.rows import read_rows
from seedbox.tin.exchange.table import Table
from seedbox.tin.file import Tin
from seedbox.tin.records import Store
from seedbox.units import celsius, per_cent

# A store that only a table of packets names: an ordinary room, said in the plan.
ROOM_C = 20.0
ROOM_HUMIDITY = 0.5


def plan_import(
    tin: Tin,
    path: Path,
    *,
    resolve_crop: ResolveCrop,
    today: date,
    mapping: Mapping[str, str] | None = None,
    keep_unknown_crops: bool = False,
    again: bool = False,
    sheet: str | None = None,
    encoding: str | None = None,
) -> ImportPlan:
    """Reads a table of packets, or a tin written by `export`, and says what would be added.

    `mapping` gives columns (by heading, or by letter) their field. `again` adds rows that were
    brought in before once more. Nothing is changed. Raises NotFoundError, BadDataError or
    UsageError where there is nothing to plan at all.
    """
    from seedbox.tin.exchange.restoring import plan_whole
    from seedbox.tin.exchange.whole import whole_tables

    path = Path(path)
    crops = CropReader(resolve_crop, tin.own_crops(), keep_unknown=keep_unknown_crops)
    tables = None if mapping or sheet else whole_tables(path)
    if tables is not None:
        return plan_whole(tin, path, tables, resolve_crop, today)
    table = read_table(path, sheet=sheet, encoding=encoding, known=tuple(mapping or ()))
    columns = headers.recognised(table, mapping)
    return _plan_table(tin, path, table, columns, crops, today=today, again=again)


def _plan_table(
    tin: Tin,
    path: Path,
    table: Table,
    columns: headers.Columns,
    crops: CropReader,
    *,
    today: date,
    again: bool,
) -> ImportPlan:
    _refuse_without_crop(table, columns.at, path)
    taken = frozenset(
        row[0] for row in tin.database.rows("SELECT import_key FROM packet WHERE import_key <> ''")
    )
    reading = read_rows(
        table,
        columns,
        crops,
        today=today,
        month_first=tin.settings().region == "us",
        taken_keys=taken,
        again=again,
    )
    codes = {row[0] for row in tin.database.rows("SELECT code FROM packet")}
    refuse_doubles(reading)
    order = refuse_orphans(reading, codes)
    sound = [reading.packets[place] for place in order]
    new = [one for one in sound if not _is_there(one, codes, taken)]
    problems = [problem for problem in table.problems if not problem.row]
    stores, store_notes = _stores_to_add(tin, new)
    own = [crop for crop in crops.to_add if any(one.crop_id == crop.id for one in new)]
    return ImportPlan(
        path,
        today,
        tuple(new),
        len(sound) - len(new),
        tuple(problems + reading.sheet.problems()),
        tuple(reading.sheet.rejects()),
        stores,
        tuple(own),
        mapped_columns=columns.mapped,
        ignored_columns=columns.ignored,
        notes=(*table.notes, *columns.notes, *reading.notes, *crops.notes, *store_notes),
    )


def _refuse_without_crop(table: Table, at: Mapping[Field, int], path: Path) -> None:
    if Field.CROP in at or Field.CROP_ID in at:
        return
    if table.has_header:
        told = ", ".join(f"“{heading}”" for heading in table.headers[:20] if heading)
        raise BadDataError(
            f"No column of {path.name} says which crop each row is. Its columns: {told}.",
            hint=f'Say which it is, such as --map "{_first(table.headers)}=crop".',
        )
    first = next((row for row in table.rows if any(map(str.strip, row))), [])
    told = ", ".join(shown(cell) for cell in first[:20] if cell.strip())
    raise BadDataError(
        f"No row of {path.name} names columns that Seedbox knows. Its first row: {told}.",
        hint=f'Say what a column holds by its heading, such as --map "{_first(first)}=crop", '
        'or by its letter where there are no headings, such as --map "A=crop".',
    )


def _first(cells: Sequence[str]) -> str:
    return next((cell.strip() for cell in cells if cell.strip()), "A")[:40]


def _is_there(one: NewPacket, codes: Container[str], keys: Container[str]) -> bool:
    return one.code in codes if one.code else one.import_key in keys


def _stores_to_add(tin: Tin, new: Sequence[NewPacket]) -> tuple[tuple[Store, ...], tuple[str, ...]]:
    known = {store.name.casefold() for store in tin.stores()}
    named = {one.store.casefold(): one.store for one in reversed(new) if one.store}
    adding = tuple(
        Store(0, name, ROOM_C, ROOM_C, ROOM_HUMIDITY)
        for folded, name in sorted(named.items())
        if folded not in known
    )
    if not adding:
        return (), ()
    names = ", ".join(f"“{store.name}”" for store in adding)
    note = (
        f"New to the tin, and taken for ordinary rooms of {celsius(ROOM_C)} and"
        f" {per_cent(ROOM_HUMIDITY)} humidity: {names}."
        " Put that right if it is not so: forecasts rest on it."
    )
    return adding, (note,)
