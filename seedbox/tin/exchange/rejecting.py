"""The rows that stayed out, as a file to mend and to bring in again."""

from __future__ import annotations

import csv
from collections import defaultdict
from collections.abc import Sequence
from pathlib import Path

from seedbox.errors import BadDataError
from seedbox.tin.exchange.fields import Field
from seedbox.tin.exchange.neutral import guarded
from seedbox.tin.exchange.plans import ImportPlan, Reject


def write_rejects(plan: ImportPlan, path: Path, *, force: bool = False) -> tuple[Path, ...]:
    """Writes the rows with their own columns and one that says what is wrong.

    That last column is passed over when the mended file is brought in. Rejects of a whole tin
    come one file a table, named `NAME-TABLE.csv`. Returns the files written; none for no rejects.
    """
    path = Path(path)
    tables: dict[str, list[Reject]] = defaultdict(list)
    for reject in plan.rejects:
        tables[reject.where].append(reject)
    files = {where: _place(path, where, alone=len(tables) == 1) for where in tables}
    for file in files.values():
        if file.exists() and not force and not _is_ours(file):
            raise BadDataError(
                f"{file} is there already and is no file of rejects, so it was left alone.",
                hint="Choose another name.",
            )
    for where, rejects in tables.items():
        _write(files[where], rejects)
    return tuple(files.values())


def _place(path: Path, where: str, *, alone: bool) -> Path:
    return path if alone else path.with_name(f"{path.stem}-{where}{path.suffix or '.csv'}")


def _write(path: Path, rejects: Sequence[Reject]) -> None:
    headers = list(rejects[0].headers)
    width = max(len(headers), *(len(reject.cells) for reject in rejects))
    spare = [""] * (width - len(headers))
    try:
        with path.open("w", encoding="utf-8-sig", newline="", errors="replace") as file:
            writer = csv.writer(file)
            writer.writerow([*map(guarded, headers), *spare, Field.WRONG.value])
            for reject in rejects:
                cells = [guarded(cell) for cell in reject.cells]
                blank = [""] * (width - len(cells))
                writer.writerow([*cells, *blank, " ".join(reject.sentences)])
    except OSError as fault:
        raise BadDataError(f"{path} could not be written: {fault.strerror}.") from fault


def _is_ours(path: Path) -> bool:
    try:
        with path.open(encoding="utf-8-sig", newline="") as file:
            return Field.WRONG.value in next(csv.reader(file), [])
    except (OSError, ValueError, csv.Error):
        return False
