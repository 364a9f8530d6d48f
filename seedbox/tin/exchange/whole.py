"""A whole tin as an export wrote it: recognised by what is in it, and read as tables of text."""

from __future__ import annotations

import json
import zipfile
from pathlib import Path
from typing import Any

from seedbox.errors import BadDataError
from seedbox.tin.exchange.neutral import guarded
from seedbox.tin.exchange.reading import read_grid, with_header
from seedbox.tin.exchange.shapes import FORMAT, TABLES, VERSION, number_text
from seedbox.tin.exchange.table import Grid, Table

_NEEDED = {
    "stores": {"name", "coolest_c", "warmest_c"},
    "packets": {"code", "crop_id"},
    "movements": {"packet", "on", "kind", "amount"},
    "storage": {"packet", "from", "store"},
    "tests": {"packet", "on", "seeds", "germinated"},
    "test_counts": {"test", "on"},
    "tray_counts": {"packet", "on", "sown", "emerged"},
    "places": {"name", "kind", "coolest_c", "warmest_c"},
    "plans": {"crop_id", "plants"},
    "sowings": {"code", "packet", "on", "place", "seeds"},
    "sowing_events": {"sowing", "on", "kind"},
    "wants": {"crop_id", "portions"},
    "swap_choices": {"packet", "choice"},
    "label_queue": {"code"},
    "own_crops": {"crop_id", "name"},
    "own_figures": {"crop_id", "figure", "value"},
    "settings": {"setting", "value"},
}


def whole_tables(path: Path) -> dict[str, Table] | None:
    """The tables of a tin, from a folder, a workbook or a document; None where it is none.

    Raises BadDataError for one that is damaged, or newer than this program.
    """
    if path.is_dir():
        return _checked(_from_folder(path)) if (path / "packets.csv").is_file() else None
    if not is_whole_file(path):
        return None
    tables = _from_workbook(path) if zipfile.is_zipfile(path) else _from_document(path)
    return _checked(tables)


def is_whole_file(path: Path) -> bool:
    """Whether a file is a workbook or a document that an export wrote. Raises OSError."""
    if not path.is_file():
        return False
    if zipfile.is_zipfile(path):
        return _is_our_workbook(path)
    with path.open("rb") as file:
        head = file.read(200)
    return head.lstrip(b"\xef\xbb\xbf \r\n\t").startswith(b"{") and FORMAT.encode() in head


def _is_our_workbook(path: Path) -> bool:
    try:
        with zipfile.ZipFile(path) as packed:
            parts = packed.read("xl/workbook.xml")
    except (KeyError, OSError, zipfile.BadZipFile, NotImplementedError, RuntimeError):
        return False
    return all(f'name="{name}"'.encode() in parts for name in ("packets", "movements", "storage"))


def _from_folder(path: Path) -> dict[str, Table]:
    files = {name: path / f"{name}.csv" for name in TABLES}
    return {
        name: _table(read_grid(file), file.name) for name, file in files.items() if _has_text(file)
    }


def _has_text(file: Path) -> bool:
    return file.is_file() and file.stat().st_size > 0


def _from_workbook(path: Path) -> dict[str, Table]:
    from seedbox.tin.exchange.workbook import sheet_grids

    grids = sheet_grids(path)
    return {name: _table(grids[name], name) for name in TABLES if name in grids}


def _table(grid: Grid, name: str) -> Table:
    if not grid.rows:
        return Table([], [], 2)
    found = with_header(Grid(grid.rows[:1]), known=grid.rows[0])
    if not found.has_header:
        raise BadDataError(f"{name}: the first row must name the columns.")
    return Table(found.headers, grid.rows[1:], 2, grid.problems, grid.notes)


def _from_document(path: Path) -> dict[str, Table]:
    try:
        document = json.loads(path.read_text("utf-8-sig"))
    except (ValueError, RecursionError) as fault:
        raise BadDataError(f"{path.name} is damaged: {fault}.") from fault
    if not isinstance(document, dict) or document.get("format") != FORMAT:
        raise BadDataError(f"{path.name} is no document that Seedbox wrote.")
    version = document.get("version")
    if not isinstance(version, int) or version > VERSION:
        raise BadDataError(
            f"{path.name} was written by a newer Seedbox (format {version}; this one reads "
            f"{VERSION}).",
            hint="Update Seedbox.",
        )
    return {name: _rows_of(name, document[name], path) for name in TABLES if document.get(name)}


def _rows_of(name: str, entries: Any, path: Path) -> Table:
    if not isinstance(entries, list) or not all(isinstance(entry, dict) for entry in entries):
        raise BadDataError(f"{path.name}: “{name}” must be a list of entries.")
    columns = list(TABLES[name])
    rows = [[_text(entry.get(column)) for column in columns] for entry in entries]
    return Table(columns, rows, 1)


def _text(value: Any) -> str:
    """A value as a cell. Text is guarded as in a spreadsheet, since the reader takes that off."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return number_text(value) if abs(value) < float("inf") else str(value)
    return guarded(value) if isinstance(value, str) else guarded(json.dumps(value))


def _checked(tables: dict[str, Table]) -> dict[str, Table]:
    for name, table in tables.items():
        missing = sorted(_NEEDED[name] - set(table.headers)) if table.headers else []
        if missing:
            raise BadDataError(f"{name}: the column {', '.join(missing)} is missing.")
    return tables
