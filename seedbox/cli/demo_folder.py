"""The demo's folder: made afresh, and never over anything that is not its own."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from seedbox.cli.lookup import crop_book
from seedbox.cli.session import Session
from seedbox.errors import BadDataError, UsageError
from seedbox.resources import sample_data_dir
from seedbox.tin.file import Tin

_MARK = "made-by-seedbox-demo.txt"
_MARK_TEXT = (
    "This folder was made by `seedbox demo` and is made afresh by the next one.\n"
    "Keep nothing of your own in it.\n"
)
TIN = "demo.tin"
_TRY = "grower_list.csv"
_NEIGHBOURS = ("swap_weir_end.csv", "swap_osier_row.json")


@dataclass(frozen=True, slots=True)
class DemoFolder:
    """Where the demo lies, and the day on which it is set."""

    path: Path
    today: date

    @property
    def tin(self) -> Path:
        return self.path / TIN

    @property
    def list_to_import(self) -> Path:
        return self.path / _TRY

    @property
    def neighbours(self) -> tuple[Path, ...]:
        """Their lists for a swap."""
        return tuple(self.path / name for name in _NEIGHBOURS)

    def session(self) -> Session:
        return Session(self.tin, self.today)


def make(folder: Path, today: date) -> DemoFolder:
    """A fresh demo in `folder`. Raises UsageError when the folder is somebody's own."""
    _refuse_foreign(folder)
    folder.mkdir(parents=True, exist_ok=True)
    (folder / _MARK).write_text(_MARK_TEXT, encoding="utf-8")
    for ending in ("", "-wal", "-shm"):
        (folder / f"{TIN}{ending}").unlink(missing_ok=True)
    made = DemoFolder(folder, today)
    shipped = sample_data_dir()
    for file in (made.list_to_import, *made.neighbours):
        file.write_bytes((shipped / file.name).read_bytes())
    with made.session().tin(create=True) as tin:
        _fill(tin, shipped, today)
    return made


def _refuse_foreign(folder: Path) -> None:
    if folder.exists() and any(folder.iterdir()) and not (folder / _MARK).is_file():
        raise UsageError(
            f"{folder} holds files that are not the demo's, so it is left alone.",
            hint="Choose another folder: seedbox demo --into DIR",
        )


def _fill(tin: Tin, shipped: Path, today: date) -> None:
    from seedbox.tin.exchange.carrying import carry_out
    from seedbox.tin.exchange.planning import plan_import

    plan = plan_import(tin, shipped, resolve_crop=crop_book(tin).answer, today=today)
    if plan.problems:
        raise BadDataError(f"The demo's own data has a fault: {plan.problems[0]}")
    with tin.change("Import the demo garden"):
        carry_out(tin, plan)
