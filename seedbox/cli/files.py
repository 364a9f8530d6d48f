"""Writing files: nothing of another sort is overwritten."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Sequence
from io import StringIO
from pathlib import Path

from seedbox.errors import UsageError
from seedbox.whole_file import write_whole


def write_table(path: Path, rows: Iterable[Sequence[str]]) -> None:
    """Rows as CSV (RFC 4180) that a spreadsheet reads as UTF-8; no cell runs as a formula."""
    from seedbox.tin.exchange.neutral import guarded

    text = StringIO()
    csv.writer(text).writerows([guarded(cell) for cell in row] for row in rows)
    write_whole(path, text.getvalue().encode("utf-8-sig"))


def refuse_table_target(path: Path, heading: str) -> None:
    """Refuses a place where no table can go. Only a former table of the kind is overwritten."""
    if path.is_dir():
        raise UsageError(f"{path} is a folder: name a file, such as order.csv.")
    if not path.parent.is_dir():
        raise UsageError(f"There is no folder {path.parent} to write {path.name} into.")
    if path.is_file() and path.stat().st_size:
        with path.open("rb") as file:
            head = file.read(200).removeprefix(b"\xef\xbb\xbf")
        if not head.startswith(heading.encode()):
            raise UsageError(f"{path} exists and is another file; it is left alone.")


def refuse_document_target(path: Path, form: str) -> None:
    """Refuses a place where no JSON document of a form can go; only a former one is overwritten."""
    if path.is_dir():
        raise UsageError(f"{path} is a folder: name a file, such as swap.json.")
    if not path.parent.is_dir():
        raise UsageError(f"There is no folder {path.parent} to write {path.name} into.")
    if path.is_file() and path.stat().st_size:
        with path.open("rb") as file:
            head = file.read(200)
        if f'"format": "{form}"'.encode() not in head:
            raise UsageError(f"{path} exists and is another file; it is left alone.")
