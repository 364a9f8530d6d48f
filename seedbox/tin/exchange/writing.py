"""The three forms of an export, each the same bytes for the same tin."""

from __future__ import annotations

import csv
import json
import re
import zipfile
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from typing import Any

from seedbox.tin.exchange.neutral import guarded
from seedbox.tin.exchange.shapes import EARLIER, FORMAT, NUMBERS, TABLES, VERSION, exact_number
from seedbox.tin.exchange.snapshot import Rows

LISTED = 22  # columns of a table of packets alone: all but the import key
_MODIFIED = re.compile(rb"(<dcterms:(?:created|modified)[^>]*>)[^<]*<")


def write_csv(path: Path, name: str, rows: Rows, width: int | None = None) -> None:
    """One table (RFC 4180). The mark at its head is what makes spreadsheets read it as UTF-8."""
    columns = TABLES[name][:width]
    with path.open("w", encoding="utf-8-sig", newline="") as file:
        writer = csv.writer(file)
        writer.writerow(columns)
        writer.writerows(_guarded_cells(columns, row) for row in rows)


def _guarded_cells(columns: tuple[str, ...], row: tuple[str, ...]) -> Iterator[str]:
    for column, cell in zip(columns, row, strict=True):
        yield cell if column in NUMBERS else guarded(cell)


def write_json(path: Path, tables: dict[str, Rows]) -> None:
    """One document with the name and version of the format."""
    document: dict[str, Any] = {"format": FORMAT, "version": VERSION}
    for name, rows in tables.items():
        document[name] = [
            {
                column: _json_value(column, cell)
                for column, cell in zip(TABLES[name], row, strict=True)
            }
            for row in rows
        ]
    with path.open("w", encoding="utf-8", newline="\n") as file:
        json.dump(document, file, ensure_ascii=False, indent=1)
        file.write("\n")


def _json_value(column: str, cell: str) -> str | float | bool | None:
    if column in NUMBERS:
        number = exact_number(cell)
        return number if number is not None else cell or None
    if column in ("sealed", "covered"):
        return cell == "yes"
    return str(cell)


def write_xlsx(path: Path, tables: dict[str, Rows]) -> None:
    """One workbook, a sheet a table. Text is always written as text, so nothing can run."""
    import openpyxl

    book = openpyxl.Workbook(write_only=True)
    book.properties.creator = "Seedbox"
    for name, rows in tables.items():
        page = book.create_sheet(name)
        page.freeze_panes = "A2"
        page.append(list(TABLES[name]))
        for row in rows:
            page.append([_xlsx_cell(page, *cell) for cell in zip(TABLES[name], row, strict=True)])
    _save_without_clock(book, path)


def _save_without_clock(book: Any, path: Path) -> None:
    """openpyxl stamps the time into the workbook; here the same tin gives the same bytes."""
    raw = BytesIO()
    book.save(raw)
    with (
        zipfile.ZipFile(raw) as stamped,
        zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as plain,
    ):
        for name in stamped.namelist():
            part = stamped.read(name)
            if name == "docProps/core.xml":
                part = _MODIFIED.sub(rb"\g<1>2000-01-01T00:00:00Z<", part)
            entry = zipfile.ZipInfo(name, date_time=(2000, 1, 1, 0, 0, 0))
            entry.compress_type = zipfile.ZIP_DEFLATED
            plain.writestr(entry, part)


def _xlsx_cell(page: Any, column: str, text: str) -> Any:
    from openpyxl.cell import WriteOnlyCell

    if not text:
        return None
    number = exact_number(text) if column in NUMBERS else None
    if number is not None:
        return number
    cell = WriteOnlyCell(page)
    cell._value, cell.data_type = guarded(str(text)), "s"
    return cell


def is_export(path: Path) -> bool:
    """Whether an export wrote this file, judged by what is in it."""
    from seedbox.errors import SeedboxError
    from seedbox.tin.exchange.whole import is_whole_file

    try:
        if is_whole_file(path):
            return True
        with path.open(encoding="utf-8-sig", newline="") as file:
            first = tuple(next(csv.reader(file), ()))
    except (OSError, ValueError, csv.Error, SeedboxError):
        return False
    earlier = (columns for table in EARLIER.values() for columns in table)
    return first in (*TABLES.values(), *earlier, TABLES["packets"][:LISTED])
