"""What the Swap tab knows of the tin: read in a thread, and read again after a change."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from textual.worker import get_current_worker

from seedbox.errors import SeedboxError
from seedbox.season.swapping.own_list import made_list
from seedbox.season.swapping.records import SwapList
from seedbox.season.swapping.spare import Spare
from seedbox.tin.list_records import Want
from seedbox.tui.page import Page
from seedbox.tui.swap_actions import SwapActions
from seedbox.tui.swap_reading import SwapReader, SwapReading, Wanted

if TYPE_CHECKING:
    from seedbox.tui.app import SeedboxApp


class SwapKnown(SwapActions):
    """What is spare and what is wanted; a page that rests on it shows it in `_show`."""

    def __init__(self) -> None:
        super().__init__()
        self._wanted: Wanted | None = None
        self._reading: SwapReading | None = None
        self._reckoning = False

    def _show(self) -> None:
        raise NotImplementedError

    def reload(self) -> None:
        """Read the tin in a thread of its own: spare seed takes some milliseconds a packet."""
        desk = self.seedbox.desk
        if not desk.exists:
            self._wanted = self._reading = None
            self._show()
            return
        try:
            desk.tin()  # judged on this thread before another opens it too
        except SeedboxError as error:
            self.seedbox.complain(error)
            return
        self._reckoning = True
        work = partial(self._read, self.seedbox)
        self.run_worker(work, thread=True, exclusive=True, group="swap")

    def _read(self, app: SeedboxApp) -> None:
        desk, worker = app.desk, get_current_worker()
        try:
            with desk.another() as tin:
                reader = SwapReader(tin, desk.today, lambda: worker.is_cancelled)
                wanted = reader.wanted()
                if not worker.is_cancelled:
                    app.call_from_thread(self._show_wanted, wanted)
                found = reader.read(self._reading)
        except SeedboxError as error:
            app.call_from_thread(app.complain, error)
            return
        if found is not None and not worker.is_cancelled:
            app.call_from_thread(self._show_reading, found)

    def _show_wanted(self, wanted: Wanted) -> None:
        self._wanted = wanted
        self._show()

    def _show_reading(self, found: SwapReading) -> None:
        self._reading, self._wanted = found, found.wanted
        self._reckoning = False
        self._show()
        for page in self.app.screen_stack:  # the lists, and a proposal, rest on this
            if isinstance(page, Page) and page is not self and page.place.startswith(self.place):
                page.reload()

    @property
    def wants(self) -> tuple[Want, ...]:
        return self._wanted.wants if self._wanted else ()

    @property
    def found(self) -> tuple[Spare, ...]:
        return self._reading.spare if self._reading else ()

    @property
    def reckoned(self) -> bool:
        """Whether it is known what is spare now."""
        return self._reading is not None and not self._reckoning

    def spare_now(self) -> tuple[Spare, ...] | None:
        """What is spare; None before it is reckoned."""
        return self.found if self.reckoned else None

    def own_list(self, name: str = "", town: str = "", *, notes: bool = False) -> SwapList | None:
        """What this tin offers and wants; None before it is reckoned."""
        if self._reading is None or self._reckoning:
            return None
        book, today = self._reading.wanted.book, self.seedbox.desk.today
        return made_list(self.found, self.wants, book, today, name=name, town=town, notes=notes)
