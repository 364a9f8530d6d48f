"""A file that a person points at, to a table of text with its header found."""

from __future__ import annotations

import zipfile
from collections.abc import Collection
from pathlib import Path

from seedbox.errors import BadDataError, NotFoundError
from seedbox.tin.exchange import headers
from seedbox.tin.exchange.decoding import decoded
from seedbox.tin.exchange.delimited import delimited_grid
from seedbox.tin.exchange.table import Grid, Table, column_letter

LARGEST_FILE_BYTES = 100_000_000
_ROWS_TO_SEARCH = 15
_OLD_OFFICE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"


def read_table(
    path: Path,
    *,
    sheet: str | None = None,
    encoding: str | None = None,
    known: Collection[str] = (),
) -> Table:
    """Reads a CSV or XLSX file. `known` are header texts that a person has named themselves.

    Raises NotFoundError or BadDataError with a sentence where there is no table to read.
    """
    grid = read_grid(Path(path), sheet=sheet, encoding=encoding, known=known)
    if not any(cell.strip() for row in grid.rows for cell in row):
        raise BadDataError(f"{Path(path).name} holds no table: every cell is empty.")
    return with_header(grid, known)


def read_grid(
    path: Path,
    *,
    sheet: str | None = None,
    encoding: str | None = None,
    known: Collection[str] = (),
) -> Grid:
    """Every row of the file, before a header is looked for."""
    data = file_bytes(path)
    if data.startswith(b"PK\x03\x04"):
        _refuse_other_archives(path)
        from seedbox.tin.exchange.workbook import workbook_grid

        return workbook_grid(path, sheet)
    if data.startswith(_OLD_OFFICE):
        raise _old_office(path, data)
    if sheet:
        raise BadDataError(f"{path.name} is no workbook: it has no sheets to choose from.")
    folded = headers.folded_all(known)
    return delimited_grid(
        decoded(data, path.name, encoding), lambda row: headers.count_known(row, folded)
    )


def with_header(grid: Grid, known: Collection[str] = ()) -> Table:
    """Finds the row that names the columns; a title above it is passed over and said."""
    folded = headers.folded_all(known)
    at = _header_index(grid.rows, folded)
    notes = list(grid.notes)
    if at is None:
        width = max(map(len, grid.rows))
        head, first = [column_letter(index) for index in range(width)], 0
        notes.append("No row names the columns; they are called A, B, C and so on.")
    else:
        head, first = [cell.strip() for cell in grid.rows[at]], at + 1
        passed = [cell.strip() for row in grid.rows[:at] for cell in row if cell.strip()]
        if passed:
            notes.append(f"Passed over above the header: {'; '.join(passed)[:200]}.")
    return Table(
        head,
        grid.rows[first:],
        first + 1,
        grid.problems,
        tuple(notes),
        grid.sheet,
        grid.encoding,
        at is not None,
    )


def _header_index(rows: list[list[str]], known: frozenset[str]) -> int | None:
    best, most = None, 0
    for index, row in enumerate(rows[:_ROWS_TO_SEARCH]):
        count = headers.count_known(row, known)
        if count > most and headers.could_be_header(row, known):
            best, most = index, count
    return best


def file_bytes(path: Path) -> bytes:
    """What a file holds. Raises NotFoundError or BadDataError with a sentence where it cannot."""
    if path.is_dir():
        raise BadDataError(
            f"{path.name} is a folder without a packets.csv.", hint="Name the file in it."
        )
    try:
        if path.stat().st_size > LARGEST_FILE_BYTES:
            raise BadDataError(
                f"{path.name} is larger than {LARGEST_FILE_BYTES // 1_000_000} MB.",
                hint="Split it into smaller tables.",
            )
        data = path.read_bytes()
    except FileNotFoundError:
        raise NotFoundError(f"There is no file {path}.") from None
    except (OSError, ValueError) as fault:
        reason = getattr(fault, "strerror", None) or "its name cannot be used"
        raise BadDataError(f"{path.name} cannot be read: {reason}.") from fault
    if not data.strip(b"\0 \t\r\n"):
        raise BadDataError(f"{path.name} is empty.")
    return data


def _old_office(path: Path, data: bytes) -> BadDataError:
    if "EncryptedPackage".encode("utf-16-le") in data:
        return BadDataError(f"{path.name} is locked with a password.", hint="Save it without one.")
    return BadDataError(
        f"{path.name} is in an old office format that Seedbox does not read.",
        hint="Open it in a spreadsheet and save it as XLSX or CSV.",
    )


def _refuse_other_archives(path: Path) -> None:
    try:
        with zipfile.ZipFile(path) as packed:
            names = packed.namelist()
    except (zipfile.BadZipFile, OSError):
        raise BadDataError(
            f"{path.name} is damaged, or no XLSX workbook.",
            hint="Open it in a spreadsheet and save it again as XLSX or CSV.",
        ) from None
    if not any(name.startswith("xl/") for name in names):
        raise BadDataError(
            f"{path.name} is an archive or another program's document, not an XLSX workbook.",
            hint="Open it in a spreadsheet and save it as XLSX or CSV.",
        )
