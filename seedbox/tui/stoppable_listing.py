"""A reading of the tin that may be broken off: a tin of thousands takes half a minute."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from seedbox.season.listing import Listing, PacketLine
from seedbox.tin.file import Tin


class StoppedError(Exception):
    """Nobody waits for the answer any more."""


class StoppableListing(Listing):
    """Asks before each forecast whether to go on."""

    def __init__(self, tin: Tin, today: date, stop: Callable[[], bool]) -> None:
        super().__init__(tin, today)
        self._stop = stop

    def forecast(self, line: PacketLine) -> PacketLine:
        self._ask()
        return super().forecast(line)

    def masses(self, line: PacketLine, on: date | None = None) -> list[float]:
        self._ask()
        return super().masses(line, on)

    def _ask(self) -> None:
        if self._stop():
            raise StoppedError
