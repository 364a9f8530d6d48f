"""Looking through the tin for what can be sown, in a thread that can be stopped."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from seedbox.season.listing import Listing, PacketLine
from seedbox.season.sowing.now import SowingNow, now
from seedbox.tin.file import Tin


class StoppedError(Exception):
    """Nobody waits for the answer any more."""


class _StoppableListing(Listing):
    """Asks before each packet whether to go on: a tin of thousands takes half a minute."""

    def __init__(self, tin: Tin, today: date, stop: Callable[[], bool]) -> None:
        super().__init__(tin, today)
        self._stop = stop

    def forecast(self, line: PacketLine) -> PacketLine:
        if self._stop():
            raise StoppedError
        return super().forecast(line)


def look_through(tin: Tin, today: date, stop: Callable[[], bool]) -> SowingNow | None:
    """What can be sown now; None when `stop` said so on the way."""
    try:
        return now(tin, today, listing=_StoppableListing(tin, today, stop))
    except StoppedError:
        return None
