"""A tin to plain files: a folder of CSV, one JSON document, one workbook, or a table of packets."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from seedbox.errors import BadDataError, UsageError
from seedbox.tin.exchange import writing
from seedbox.tin.exchange.answers import NameOfCrop
from seedbox.tin.exchange.snapshot import Rows, snapshot
from seedbox.tin.file import Tin

FORMATS = ("csv", "json", "xlsx")


def export(
    tin: Tin,
    path: Path,
    *,
    name_of_crop: NameOfCrop,
    format: str | None = None,
    force: bool = False,
) -> tuple[Path, ...]:
    """Writes the tin to `path` and returns the files written.

    By its ending or by `format`: `.json` one document, `.xlsx` one workbook, `.csv` the packets
    alone, anything else a folder of CSV files. All but the packets alone bring back an equal tin.
    Raises BadDataError rather than overwrite what is no export (unless `force`), UsageError for an
    unknown format.
    """
    path = Path(path)
    kind = _kind(path, format)
    _refuse_the_tin_itself(tin, path)
    tables = snapshot(tin, name_of_crop)
    if kind == "folder":
        return _export_folder(path, tables, force=force)
    _refuse_to_overwrite(path, force=force)
    _WRITERS[kind](path, tables)
    return (path,)


def _kind(path: Path, chosen: str | None) -> str:
    ending = path.suffix.lower().lstrip(".")
    if chosen is not None and chosen.lower() not in FORMATS:
        raise UsageError(
            f"There is no format “{chosen}”.", hint=f"There are: {', '.join(FORMATS)}."
        )
    kind = (chosen or ending).lower()
    if chosen is None and ending and ending not in FORMATS and not path.is_dir():
        raise UsageError(
            f"“.{ending}” says no format that Seedbox writes.",
            hint="End the name in .csv, .json or .xlsx, or name a folder.",
        )
    if kind in ("json", "xlsx") or (kind == "csv" and ending == "csv"):
        return kind
    return "folder"


def _packets_alone(path: Path, tables: dict[str, Rows]) -> None:
    width = writing.LISTED
    rows = [row[:width] for row in tables["packets"]]
    _write_safely(path, lambda target: writing.write_csv(target, "packets", rows, width))


_WRITERS: dict[str, Callable[[Path, dict[str, Rows]], None]] = {
    "csv": _packets_alone,
    "json": lambda path, tables: _write_safely(path, lambda to: writing.write_json(to, tables)),
    "xlsx": lambda path, tables: _write_safely(path, lambda to: writing.write_xlsx(to, tables)),
}


def _export_folder(path: Path, tables: dict[str, Rows], *, force: bool) -> tuple[Path, ...]:
    if path.exists() and not path.is_dir():
        raise BadDataError(f"{path} is a file, not a folder.", hint="Name a folder.")
    files = {name: path / f"{name}.csv" for name in tables}
    for file in files.values():
        _refuse_to_overwrite(file, force=force)
    try:
        path.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        raise BadDataError(f"The folder {path} could not be made: {fault.strerror}.") from fault
    for name, file in files.items():
        _write_table(file, name, tables[name])
    return tuple(files.values())


def _write_table(file: Path, name: str, rows: Rows) -> None:
    _write_safely(file, lambda target: writing.write_csv(target, name, rows))


def _write_safely(path: Path, write: Callable[[Path], None]) -> None:
    """Writes beside the file first, so that a full disk leaves the old file whole."""
    unfinished = path.with_name(f"{path.name}.unfinished")
    try:
        write(unfinished)
        unfinished.replace(path)
    except OSError as fault:
        raise BadDataError(f"{path} could not be written: {fault.strerror}.") from fault
    finally:
        unfinished.unlink(missing_ok=True)


def _refuse_the_tin_itself(tin: Tin, path: Path) -> None:
    if path.exists() and path.resolve() == tin.path.resolve():
        raise BadDataError(f"{path} is the tin itself.", hint="Export to another name.")


def _refuse_to_overwrite(path: Path, *, force: bool) -> None:
    if path.is_dir():
        raise BadDataError(f"{path} is a folder.", hint="Name a file in it.")
    if path.exists() and not force and not writing.is_export(path):
        raise BadDataError(
            f"{path} is there already and was not written by an export, so it was left alone.",
            hint="Choose another name, or force it.",
        )
