"""What every command shares: which tin, which day."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from seedbox.cli.output import warn
from seedbox.errors import TinError

if TYPE_CHECKING:
    from seedbox.tin.file import Tin


@dataclass(slots=True)
class Session:
    """The global options. `chosen_day` is None when the machine's own day counts."""

    chosen_tin: Path | None = None
    chosen_day: date | None = None

    @property
    def today(self) -> date:
        """The day for which everything is answered."""
        return self.chosen_day or date.today()

    @property
    def tin_path(self) -> Path:
        """The tin file that was named, or the usual place for it."""
        return self._path(make_folder=False)

    def _path(self, *, make_folder: bool) -> Path:
        if self.chosen_tin is not None:
            return self.chosen_tin
        from seedbox.tin.file import default_path

        return default_path(make_folder=make_folder)

    def now(self) -> datetime:
        """The chosen day at the machine's time of day, in the local zone."""
        here = datetime.now().astimezone()
        return here.replace(year=self.today.year, month=self.today.month, day=self.today.day)

    def tin(self, *, create: bool = False) -> Tin:
        """Open the tin, as a context manager. Reading commands never create one."""
        from seedbox.tin.file import Tin

        path = self._path(make_folder=create)
        if not create and not path.exists():
            raise TinError(
                f"There is no tin at {path} yet.",
                hint="Put a first packet in with: seedbox add CROP VARIETY. Or see: seedbox demo",
            )
        tin = Tin.open(path, create=create, now=self.now)
        if tin.copy_kept is not None:
            warn(f"Your tin was brought up to date. The copy from before is {tin.copy_kept}.")
        return tin
