"""XLSX to a grid of text, with openpyxl (loaded here only): values, never formulas.

A workbook is a zip of XML; what is too large to unpack is refused before it is unpacked.
"""

from __future__ import annotations

import re
import zipfile
from collections.abc import Iterable, Iterator
from datetime import date, datetime, time
from pathlib import Path
from typing import Any

from seedbox.errors import BadDataError
from seedbox.problems import Problem
from seedbox.tin.exchange.table import Grid, column_letter

LARGEST_UNPACKED_BYTES = 400_000_000
MOST_ROWS = 200_000
MOST_COLUMNS = 500
_MERGED = re.compile(rb'<mergeCell\s[^>]*?ref="([A-Z]+)(\d+):([A-Z]+)(\d+)"')
_FORMULA = re.compile(rb"<(?:\w+:)?f[\s/>]")
_UNSOLVED = (
    "holds a formula without a stored result. Open the file in a spreadsheet, save it, import again"
)


def workbook_grid(path: Path, sheet: str | None = None) -> Grid:
    """The first sheet that holds anything, or the one named (or numbered). Raises BadDataError."""
    _refuse_what_is_too_large(path)
    book = _opened(path, data_only=True)
    try:
        page = _named(book, sheet, path) if sheet else _first_filled(book)
        return _page_grid(path, page, len(book.sheetnames))
    except BadDataError:
        raise
    except Exception as fault:  # openpyxl raises whatever its XML leads it to
        raise _damaged(path) from fault
    finally:
        book.close()


def sheet_grids(path: Path) -> dict[str, Grid]:
    """Every sheet of a workbook by name."""
    _refuse_what_is_too_large(path)
    book = _opened(path, data_only=True)
    try:
        return {page.title: _page_grid(path, page, 1) for page in book.worksheets}
    except BadDataError:
        raise
    except Exception as fault:
        raise _damaged(path) from fault
    finally:
        book.close()


def _page_grid(path: Path, page: Any, sheets: int) -> Grid:
    rows = list(_limited(page.iter_rows(), path))
    texts = [[_text(cell) for cell in row] for row in rows]
    xml = _sheet_xml(path, page)
    problems = _mark_unsolved(path, page.title, texts) if _FORMULA.search(xml) else []
    filled = _fill_merged(xml, texts)
    notes = [f"The sheet “{page.title}” was read."] if sheets > 1 else []
    if filled:
        notes.append("Merged cells were filled down: each row of a merged block got its text.")
    return Grid([_trimmed(row) for row in texts], tuple(problems), tuple(notes), page.title)


def _limited(rows: Iterable[Any], path: Path) -> Iterator[Any]:
    filled = 0
    for row in rows:
        filled += any(cell.value is not None for cell in row)
        if filled > MOST_ROWS or len(row) > MOST_COLUMNS:
            raise BadDataError(
                f"{path.name} is larger than Seedbox reads: at most {MOST_ROWS:,} rows "
                f"of {MOST_COLUMNS} columns.",
                hint="Split the table, or delete the empty columns on its right.",
            )
        yield row


def _text(cell: Any) -> str:
    """A cell as a person reads it.

    2019.0 is 2019, 0.85 formatted as a percentage is 85%, a date is written year-month-day.
    """
    value = cell.value
    if value is None:
        return ""
    if isinstance(value, str):
        return value
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return _number_text(value, str(cell.number_format or ""))
    return _moment_text(value)


def _number_text(value: float, number_format: str) -> str:
    if "%" in number_format and '"' not in number_format:
        return f"{value * 100:.10g}%"
    return f"{value:.15g}" if abs(value) < 1e15 else str(value)


def _moment_text(value: object) -> str:
    if isinstance(value, datetime):
        midnight = value.time() == time(0)
        return value.date().isoformat() if midnight else value.isoformat(" ", "seconds")
    if isinstance(value, date | time):
        return value.isoformat()
    return str(value)


def _trimmed(row: list[str]) -> list[str]:
    while row and not row[-1]:
        row.pop()
    return row


def _mark_unsolved(path: Path, title: str, texts: list[list[str]]) -> list[Problem]:
    """Cells that hold a formula but no result: `data_only` shows them empty, which loses them."""
    book = _opened(path, data_only=False)
    problems: list[Problem] = []
    try:
        for number, row in enumerate(book[title].iter_rows()):
            for index, cell in enumerate(row):
                if cell.data_type == "f" and not texts[number][index]:
                    texts[number][index] = str(cell.value)
                    problems.append(
                        Problem(f"Cell {column_letter(index)}{number + 1} {_UNSOLVED}.", number + 1)
                    )
    finally:
        book.close()
    return problems


def _fill_merged(xml: bytes, texts: list[list[str]]) -> bool:
    """Gives every row of a block merged downwards the text of its first cell."""
    filled = False
    for left, top, right, bottom in _MERGED.findall(xml):
        first, last, column = int(top) - 1, int(bottom) - 1, _column_index(left)
        if left != right or first >= len(texts) or column >= len(texts[first]):
            continue
        for row in texts[first + 1 : last + 1]:
            if column < len(row) and any(row) and not row[column]:
                row[column] = texts[first][column]
                filled = True
    return filled


def _column_index(letters: bytes) -> int:
    index = 0
    for letter in letters:
        index = index * 26 + letter - 64
    return index - 1


def _sheet_xml(path: Path, page: Any) -> bytes:
    with zipfile.ZipFile(path) as packed:
        return packed.read(str(page._worksheet_path).lstrip("/"))


def _named(book: Any, sheet: str, path: Path) -> Any:
    for page in book.worksheets:
        if page.title.casefold() == sheet.strip().casefold():
            return page
    if sheet.strip().isdecimal() and 0 < int(sheet) <= len(book.worksheets):
        return book.worksheets[int(sheet) - 1]
    names = ", ".join(f"“{page.title}”" for page in book.worksheets)
    raise BadDataError(f"{path.name} has no sheet “{sheet}”.", hint=f"Its sheets: {names}.")


def _first_filled(book: Any) -> Any:
    for page in book.worksheets:
        if any(cell for row in page.iter_rows(values_only=True, max_row=1000) for cell in row):
            return page
    return book.worksheets[0]


def _opened(path: Path, *, data_only: bool) -> Any:
    import openpyxl

    try:
        return openpyxl.load_workbook(path, read_only=True, data_only=data_only)
    except Exception as fault:
        raise _damaged(path) from fault


def _damaged(path: Path) -> BadDataError:
    return BadDataError(
        f"{path.name} is damaged, or no XLSX workbook.",
        hint="Open it in a spreadsheet and save it again as XLSX or CSV.",
    )


def _refuse_what_is_too_large(path: Path) -> None:
    try:
        with zipfile.ZipFile(path) as packed:
            unpacked = sum(entry.file_size for entry in packed.infolist())
            encrypted = any(entry.flag_bits & 1 for entry in packed.infolist())
    except (zipfile.BadZipFile, OSError, NotImplementedError) as fault:
        raise _damaged(path) from fault
    if encrypted:
        raise BadDataError(f"{path.name} is locked with a password.", hint="Save it without one.")
    if unpacked > LARGEST_UNPACKED_BYTES:
        raise BadDataError(
            f"{path.name} would unpack to {unpacked // 1_000_000:,} MB. "
            f"Seedbox reads at most {LARGEST_UNPACKED_BYTES // 1_000_000} MB.",
            hint="Save only the table of packets as CSV.",
        )
