"""What is spare and what is wanted, read in a thread; only what changed is reckoned again."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import asdict, dataclass
from datetime import date

from seedbox.season.crops import CropBook
from seedbox.season.sowing.buying import BuyLine, buying
from seedbox.season.sowing.desk import Desk as Season
from seedbox.season.swapping.spare import Spare, judged_again, spare
from seedbox.tin.file import Tin
from seedbox.tin.list_records import SwapChoice, Want
from seedbox.tin.preferences import Settings
from seedbox.tin.records import TestState
from seedbox.tui.stoppable_listing import StoppableListing, StoppedError

# Settings by which no seed becomes spare.
_NO_MATTER = ("theme", "label_", "grower_", "swap_tolerance")


@dataclass(frozen=True, slots=True)
class Wanted:
    """The quick part: the wants by name of their crops, and how many packets hold something."""

    wants: tuple[Want, ...]
    book: CropBook
    settings: Settings
    packets: int


@dataclass(frozen=True, slots=True)
class SwapReading:
    """The whole: what is spare of each packet, what can be given first; and what it rests on."""

    wanted: Wanted
    spare: tuple[Spare, ...]
    ground: tuple[object, ...]

    def by_code(self) -> dict[str, Spare]:
        return {one.code: one for one in self.spare}


class SwapReader:
    """One look at the tin. `stop` is asked before each forecast."""

    def __init__(self, tin: Tin, today: date, stop: Callable[[], bool]) -> None:
        self._tin, self._today, self._stop = tin, today, stop
        self._season: Season | None = None

    @property
    def season(self) -> Season:
        if self._season is None:
            listing = StoppableListing(self._tin, self._today, self._stop)
            self._season = Season(self._tin, self._today, listing=listing)
        return self._season

    def wanted(self) -> Wanted:
        """What is known without a forecast."""
        listing = self.season.listing
        wants = sorted(self._tin.wants(), key=lambda one: _order(one, listing.book))
        packets = sum(not line.is_empty for line in listing.lines)
        return Wanted(tuple(wants), listing.book, listing.settings, packets)

    def read(self, before: SwapReading | None) -> SwapReading | None:
        """All of it; None when it was stopped. What rests on the same ground stays."""
        ground = _ground(self._tin, self.season)
        try:
            if before is not None and before.ground == ground:
                found = self._judged_again(before)
            else:
                found = spare(self.season, self._tin)
        except StoppedError:
            return None
        given_first = sorted(found, key=lambda one: one.could_give == 0)
        return SwapReading(self.wanted(), tuple(given_first), ground)

    def missing(self) -> tuple[BuyLine, ...] | None:
        """What the plans miss; None when it was stopped."""
        try:
            return buying(self.season)
        except StoppedError:
            return None

    def _judged_again(self, before: SwapReading) -> tuple[Spare, ...]:
        said: dict[int, SwapChoice] = {one.packet_id: one for one in self._tin.swap_choices()}
        return tuple(
            one
            if one.choice == said.get(one.line.packet.id)
            else judged_again(self.season, one, said.get(one.line.packet.id))
            for one in before.spare
        )


def _order(want: Want, book: CropBook) -> tuple[int, str, str]:
    """The dearest first."""
    return -want.worth, book.name(want.crop_id).casefold(), want.variety.casefold()


def _ground(tin: Tin, season: Season) -> tuple[object, ...]:
    """All that spare seed rests on besides a person's word: equal ground, equal spare seed."""
    listing = season.listing
    running = tin.tests(state=TestState.RUNNING)
    settings = {
        name: value
        for name, value in asdict(listing.settings).items()
        if not name.startswith(_NO_MATTER)
    }
    return (
        listing.today,
        settings,
        listing.stores,
        [line.dossier for line in listing.lines],
        tin.own_figures(),
        tin.own_crops(),
        season.garden,
        season.sowings,
        running,
        [tin.movements(test.packet_id) for test in running],
    )
