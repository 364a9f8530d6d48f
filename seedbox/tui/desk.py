"""The open tin as the screens use it: read it, change it, notice when another program did."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import TypeVar

from seedbox.errors import TinError
from seedbox.tin.file import Tin

T = TypeVar("T")
WAIT_SECONDS = 1.0


@dataclass(slots=True)
class Desk:
    """One connection for the thread that draws. Other threads open their own with `another`."""

    path: Path
    today: date
    _tin: Tin | None = None
    _seen_version: int = -1
    _seen_file: tuple[int, int] = (0, 0)

    @property
    def exists(self) -> bool:
        return self.path.exists()

    def now(self) -> datetime:
        """The chosen day at the machine's time of day."""
        here = datetime.now().astimezone()
        return here.replace(year=self.today.year, month=self.today.month, day=self.today.day)

    def tin(self, *, create: bool = False) -> Tin:
        """The open tin; opened when first needed.

        Raises:
            TinError: it is missing (and `create` is not asked), locked, damaged or newer.
        """
        if self._tin is None:
            self._tin = self._open(create=create)
            self._seen_version, self._seen_file = self._version(), self._file()
        return self._tin

    def another(self) -> Tin:
        """A connection of its own, for another thread; the caller closes it."""
        if not self.exists:
            raise TinError(f"There is no tin at {self.path} any more.")
        return Tin.open_again(self.path, now=self.now, wait_seconds=WAIT_SECONDS)

    def _open(self, *, create: bool) -> Tin:
        if create:
            self._make_folder()
        return Tin.open(self.path, create=create, now=self.now, wait_seconds=WAIT_SECONDS)

    def _make_folder(self) -> None:
        folder = self.path.parent
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise TinError(f"The folder {folder} could not be made: {error.strerror}.") from error

    def change(self, work: Callable[[Tin], T]) -> T:
        """Carry out a change; an absent tin is made first."""
        return work(self.tin(create=True))

    def changed_elsewhere(self) -> bool:
        """Whether another program wrote to the tin since this was last asked.

        SQLite's data_version counts the commits of other connections only.
        """
        if self._tin is None:
            return self.exists
        if self._file() != self._seen_file:
            self.close()  # another file lies there now: a backup was put back, or it is gone
            return True
        version = self._version()
        changed = version != self._seen_version
        self._seen_version = version
        return changed

    def _file(self) -> tuple[int, int]:
        """Which file lies at the path, whatever its name; (0, 0) when there is none."""
        try:
            found = self.path.stat()
        except OSError:
            return (0, 0)
        return (found.st_dev, found.st_ino)

    def _version(self) -> int:
        return int(self._tin.database.value("PRAGMA data_version")) if self._tin else -1

    def shown_place(self) -> str:
        """Tin and day, for the title line."""
        return f"{self.path.name} · {self.today.day} {self.today:%b %Y} "

    def close(self) -> None:
        if self._tin is not None:
            self._tin.close()
            self._tin = None
