"""The lines of the tin behind the screen: read and forecast in a thread, in order and filtered."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from textual.worker import get_current_worker

from seedbox.errors import SeedboxError
from seedbox.tui.packet_actions import PacketActions
from seedbox.tui.virtual_list import VirtualList

if TYPE_CHECKING:
    from textual.widgets import Input

    from seedbox.season.listing import PacketLine
    from seedbox.tui.catalogue import Catalogue
    from seedbox.tui.reader import Reading


class TinLines(PacketActions):
    """What the tab shows, without how it shows it."""

    def __init__(self) -> None:
        super().__init__()
        self.reading: Reading | None = None
        self.marked: set[str] = set()
        self.wanted_code = ""

    @cached_property
    def catalogue(self) -> Catalogue:
        """All lines. Made when first asked for: what it imports is not needed to paint."""
        from seedbox.tui.catalogue import Catalogue

        return Catalogue(self.seedbox.desk.today)

    def show_lines(self, code: str = "") -> None:
        """Draw the lines, with the cursor on `code` where that is shown."""
        raise NotImplementedError

    def filter_box(self) -> Input:
        """The field whose text filters the lines."""
        raise NotImplementedError

    def reload(self) -> None:
        """Read the tin again in a thread of its own, then forecast what has no forecast."""
        if not self.seedbox.desk.exists:
            self._show_reading(None)
            return
        if self.tin_opens():
            self.run_worker(self._read, thread=True, exclusive=True, group="reading")

    def _read(self) -> None:
        from seedbox.tui.reader import forecasts, read

        worker = get_current_worker()
        known = {line.packet.code: line for line in self.catalogue.all_lines}
        try:
            reading = read(self.seedbox.desk, self.reading, known)
        except SeedboxError as error:
            self.app.call_from_thread(self.seedbox.complain, error)
            return
        if worker.is_cancelled:
            return
        self.app.call_from_thread(self._show_reading, reading)
        for portion in forecasts(reading, self.catalogue.waiting, lambda: worker.is_cancelled):
            self.app.call_from_thread(self._show_forecasts, reading, portion)
        if not worker.is_cancelled:
            self.app.call_from_thread(self._forecasts_done, reading)
            self.app.call_from_thread(self.seedbox.count_jobs)

    def _show_reading(self, reading: Reading | None) -> None:
        self.reading = reading
        here = self.wanted_code or self.code_here()
        self.catalogue.replace(reading.lines if reading else [])
        self.catalogue.select(self.filter_box().value)
        self.marked &= {line.packet.code for line in self.catalogue.all_lines}
        self.show_lines(here)

    def _show_forecasts(self, reading: Reading, portion: list[PacketLine]) -> None:
        if reading is self.reading:
            here = self.code_here()
            self.catalogue.put(portion)
            self.show_lines(here)

    def _forecasts_done(self, reading: Reading) -> None:
        if reading is self.reading and self.catalogue.sort not in ("crop", "year"):
            here = self.code_here()
            self.catalogue.order()
            self.show_lines(here)

    def line_here(self) -> PacketLine | None:
        """The highlighted packet."""
        if self.reading is None:
            return None
        shown = self.catalogue.shown
        for listed in self.query(VirtualList):  # none on a page that is being closed
            if listed.cursor < len(shown):
                return shown[listed.cursor]
        return None

    def code_here(self) -> str:
        """Code of the highlighted packet; empty when there is none."""
        line = self.line_here()
        return line.packet.code if line else ""

    def lines_meant(self) -> list[PacketLine]:
        """The marked packets, or else the highlighted one."""
        marked = [line for line in self.catalogue.all_lines if line.packet.code in self.marked]
        here = self.line_here()
        return marked or ([here] if here else [])

    def codes_shown(self) -> list[str]:
        shown = self.catalogue.shown if self.reading is not None else ()
        return [line.packet.code for line in shown]

    def show_packet_next(self, code: str) -> None:
        """Put the cursor on a packet once the tin has been read again."""
        self.wanted_code = code
