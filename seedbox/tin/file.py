"""The file that a person owns: opening it, reading it, changing it."""

from __future__ import annotations

import contextlib
import sqlite3
from collections.abc import Callable, Iterator
from datetime import datetime
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING

from seedbox.errors import TinError
from seedbox.tin import migrations, reading
from seedbox.tin.database import Database, address, connect, explained
from seedbox.tin.header import Header, read_header
from seedbox.tin.preferences import Settings
from seedbox.tin.records import (
    Change,
    Dossier,
    GerminationTest,
    Movement,
    OwnCrop,
    OwnFigure,
    Packet,
    StoragePeriod,
    Store,
    TestCount,
    TestState,
    TrayCount,
)

if TYPE_CHECKING:
    from random import Random

    from seedbox.tin.changes import OpenChange
    from seedbox.tin.garden_records import Place, Plan, Sowing, SowingEvent
    from seedbox.tin.list_records import QueuedLabel, SwapChoice, Want

FILE_NAME = "garden.tin"


def default_path(*, make_folder: bool = False) -> Path:
    """Where the tin lies when nobody says otherwise: the platform's folder for a user's data."""
    from platformdirs import user_data_path

    folder = user_data_path("seedbox", appauthor=False)
    if make_folder:
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise TinError(f"The folder {folder} could not be made: {error.strerror}.") from error
    return folder / FILE_NAME


def local_now() -> datetime:
    """The clock on the wall, with its offset from UTC."""
    return datetime.now().astimezone()


class Tin:
    """An open tin. Use it in a `with` block, and from one thread only."""

    def __init__(
        self, database: Database, now: Callable[[], datetime], rng: Random | None = None
    ) -> None:
        self.database = database
        self.now = now
        self.copy_kept: Path | None = None
        self._rng = rng
        self._open_change: OpenChange | None = None

    @classmethod
    def open(
        cls,
        path: Path,
        *,
        create: bool = False,
        now: Callable[[], datetime] = local_now,
        rng: Random | None = None,
        wait_seconds: float = 5.0,
    ) -> Tin:
        """Opens a tin; with `create`, makes it first when there is nothing at `path`.

        `wait_seconds` is how long to wait for another program that is writing. `rng` draws the
        codes of new packets; left out, the operating system does. A process that has the tin open
        already uses `open_again`.
        An older tin is brought up to date; the copy kept before lies at `copy_kept`.
        """
        path = Path(path)
        if create and not path.exists():
            _create(path)
        header = read_header(path)
        _refuse_newer(path, header.version)
        _refuse_newer(path, _version_written_ahead(path, wait_seconds))
        tin = cls(Database(path, _connected(path, wait_seconds)), now, rng)
        try:
            tin._make_ready(header)
        except BaseException:
            tin.close()
            raise
        return tin

    @classmethod
    def open_again(
        cls,
        path: Path,
        *,
        now: Callable[[], datetime] = local_now,
        wait_seconds: float = 5.0,
    ) -> Tin:
        """A further connection to a tin that this process has opened before: one for each thread.

        The file is not looked at by hand, as `open` does: closing a plain file handle would drop
        the locks that this process holds on it, and another program could take the write-ahead
        log away (https://www.sqlite.org/howtocorrupt.html, 2.2).
        """
        return cls(Database(path, _connected(path, wait_seconds)), now)

    def _make_ready(self, header: Header) -> None:
        if not header.writes_ahead:
            self.database.run("PRAGMA journal_mode = WAL")
        version = self.database.value("PRAGMA user_version")
        if version < migrations.newest():
            self.copy_kept = migrations.migrate(
                self.database.connection, self.path, version, self.now()
            )

    @property
    def path(self) -> Path:
        return self.database.path

    @property
    def rng(self) -> Random:
        """Draws the codes of new packets and tests."""
        if self._rng is None:
            from random import SystemRandom

            self._rng = SystemRandom()
        return self._rng

    def close(self) -> None:
        self.database.close()

    def __enter__(self) -> Tin:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        self.close()

    # Changing

    @contextlib.contextmanager
    def change(self, label: str) -> Iterator[OpenChange]:
        """One transaction and one history entry. Inside another change it joins that one."""
        if self._open_change is not None:
            with self._open_change.part() as outer:
                yield outer
            return
        from seedbox.tin.changes import OpenChange, record  # a listing changes nothing

        with self.writing() as database:
            self._open_change = OpenChange(database)
            try:
                yield self._open_change
                record(self._open_change, label, self.now())
            finally:
                self._open_change = None

    @contextlib.contextmanager
    def writing(self) -> Iterator[Database]:
        """A write transaction: all or nothing. The lock is taken at once, so that what is
        read inside stays true to the end."""
        self.database.run("BEGIN IMMEDIATE")
        try:
            yield self.database
            self.database.run("COMMIT")
        except BaseException:
            self.database.roll_back()
            raise

    # Reading. What a listing of packets needs not is imported where it is asked for.

    def packets(self) -> list[Packet]:
        return reading.packets(self.database)

    def packet(self, code_text: str) -> Packet:
        """The packet with this code, however it is spelt."""
        return reading.packet(self.database, code_text)

    def stores(self) -> list[Store]:
        """All stores by name."""
        return reading.stores(self.database)

    def store(self, name: str) -> Store:
        """The store of this name; capitals do not matter."""
        return reading.store(self.database, name)

    def store_by_id(self, store_id: int) -> Store:
        return reading.store_by_id(self.database, store_id)

    def movements(self, packet_id: int | None = None) -> list[Movement]:
        """The quantity journal of one packet, or of all, in order of date."""
        return reading.movements(self.database, packet_id)

    def storage(self, packet_id: int | None = None) -> list[StoragePeriod]:
        """Where one packet lay, or all, in order of date."""
        return reading.storage(self.database, packet_id)

    def tests(
        self, packet_id: int | None = None, *, state: TestState | None = TestState.FINISHED
    ) -> list[GerminationTest]:
        """Germination tests of one packet, or of all, by packet and date: the finished ones.

        `state` chooses others; None is all of them.
        """
        return reading.tests(self.database, packet_id, state)

    def test(self, code_text: str) -> GerminationTest:
        """The germination test with this code, however it is spelt, in whatever state."""
        return reading.test(self.database, code_text)

    def test_counts(self, test_id: int | None = None) -> list[TestCount]:
        """Counts of one test, or of all, in order of date and replicate."""
        return reading.test_counts(self.database, test_id)

    def tray_counts(self, packet_id: int | None = None) -> list[TrayCount]:
        """Emergence counted in trays, of one packet or of all, in order of date."""
        return reading.tray_counts(self.database, packet_id)

    def places(self) -> list[Place]:
        """Where things grow, by name."""
        from seedbox.tin import garden_reading

        return garden_reading.places(self.database)

    def place(self, name: str) -> Place:
        """The place of this name; capitals do not matter."""
        from seedbox.tin import garden_reading

        return garden_reading.place(self.database, name)

    def plans(self) -> list[Plan]:
        """What the household wants, by crop, variety and year."""
        from seedbox.tin import garden_reading

        return garden_reading.plans(self.database)

    def sowings(self, packet_id: int | None = None) -> list[Sowing]:
        """Sowings of one packet, or all, in order of date."""
        from seedbox.tin import garden_reading

        return garden_reading.sowings(self.database, packet_id)

    def sowing(self, code_text: str) -> Sowing:
        """The sowing with this code, however it is spelt."""
        from seedbox.tin import garden_reading

        return garden_reading.sowing(self.database, code_text)

    def sowing_events(self, sowing_id: int | None = None) -> list[SowingEvent]:
        """What became of one sowing, or of all, in order of date."""
        from seedbox.tin import garden_reading

        return garden_reading.events(self.database, sowing_id)

    def wants(self) -> list[Want]:
        """What one would take at a swap, by crop and variety."""
        from seedbox.tin import list_reading

        return list_reading.wants(self.database)

    def swap_choices(self) -> list[SwapChoice]:
        """The word that was said for packets at a swap, in the order of packets."""
        from seedbox.tin import list_reading

        return list_reading.swap_choices(self.database)

    def label_queue(self) -> list[QueuedLabel]:
        """Labels that wait to be printed, in the order in which they were asked for."""
        from seedbox.tin import list_reading

        return list_reading.label_queue(self.database)

    def dossiers(self, include_empty: bool = True) -> list[Dossier]:
        """Every packet with its store, storage, tests and what is left, in order of entry."""
        return reading.dossiers(self.database, include_empty)

    def dossier(self, code_text: str) -> Dossier:
        return reading.dossier(self.database, code_text)

    def settings(self) -> Settings:
        return reading.settings(self.database)

    def own_crops(self) -> list[OwnCrop]:
        return reading.own_crops(self.database)

    def own_figures(self) -> list[OwnFigure]:
        return reading.own_figures(self.database)

    def history(self, limit: int | None = None) -> list[Change]:
        """Latest changes first."""
        return reading.history(self.database, limit)


def _create(path: Path) -> None:
    """Makes the tin under another name first, so that a half-made tin is never found."""
    from seedbox.tin.backup import free_name, publish

    if not path.parent.is_dir():
        raise TinError(f"There is no folder {path.parent}, so no tin can be made in it.")
    unfinished = free_name(path, "unfinished")
    try:
        with contextlib.closing(connect(address(unfinished, "rwc"), wait_seconds=5)) as connection:
            migrations.lay_down(connection)
        # Another Seedbox may have made one meanwhile: then that one is the tin.
        with contextlib.suppress(FileExistsError):
            publish(unfinished, path)
    except sqlite3.Error as error:
        raise explained(error, path) from error
    finally:
        unfinished.unlink(missing_ok=True)


def _refuse_newer(path: Path, version: int) -> None:
    if version > migrations.newest():
        raise TinError(
            f"{path} was written by a newer Seedbox (layout {version}; this one knows"
            f" {migrations.newest()}). It was left untouched.",
            hint="Update Seedbox, or use the copy that was kept before the update.",
        )


def _connected(path: Path, wait_seconds: float) -> sqlite3.Connection:
    try:
        return connect(address(path, "rw"), wait_seconds=wait_seconds)
    except sqlite3.Error as error:
        raise explained(error, path) from error


def _version_written_ahead(path: Path, wait_seconds: float) -> int:
    """The layout by what a crashed program left in the write-ahead log; 0 when there is none.

    Opened for reading only, SQLite leaves both the file and the log as they are.
    """
    log = path.with_name(path.name + "-wal")
    if not log.exists() or log.stat().st_size == 0:
        return 0
    try:
        with contextlib.closing(
            connect(address(path, "ro"), wait_seconds=wait_seconds)
        ) as connection:
            return int(connection.execute("PRAGMA user_version").fetchone()[0])
    except sqlite3.Error as error:
        raise explained(error, path) from error
