"""Looking through the tin for what can be sown, in a thread that can be stopped."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from seedbox.season.sowing.now import SowingNow, now
from seedbox.tin.file import Tin
from seedbox.tui.stoppable_listing import StoppableListing, StoppedError


def look_through(tin: Tin, today: date, stop: Callable[[], bool]) -> SowingNow | None:
    """What can be sown now; None when `stop` said so on the way."""
    try:
        return now(tin, today, listing=StoppableListing(tin, today, stop))
    except StoppedError:
        return None
