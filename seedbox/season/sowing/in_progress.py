"""Sowings as they stand: what happened, how many plants there are, where they are."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from seedbox.season.crops import CropBook
from seedbox.season.sowing.garden import Garden, GrowingPlace
from seedbox.tin.codes import shown
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import EventKind, Sowing, SowingEvent
from seedbox.tin.records import Packet


class Stage(StrEnum):
    """How far a sowing has come, in the words that are shown."""

    SOWN = "sown"
    UP = "up"
    THINNED = "thinned"
    POTTED_ON = "potted on"
    HARDENING = "hardening off"
    PLANTED_OUT = "planted out"
    HARVESTED = "being harvested"
    FAILED = "failed"
    ENDED = "ended"


_STAGE = {
    EventKind.EMERGED: Stage.UP,
    EventKind.THINNED: Stage.THINNED,
    EventKind.POTTED_ON: Stage.POTTED_ON,
    EventKind.HARDENING: Stage.HARDENING,
    EventKind.PLANTED_OUT: Stage.PLANTED_OUT,
    EventKind.HARVESTED: Stage.HARVESTED,
    EventKind.FAILED: Stage.FAILED,
    EventKind.ENDED: Stage.ENDED,
}
_ORDER = list(Stage)
# Counts of these say how many plants there are. A harvest's count is of what was picked.
_COUNTS_PLANTS = (EventKind.THINNED, EventKind.POTTED_ON, EventKind.PLANTED_OUT)


@dataclass(frozen=True, slots=True)
class Growing:
    """One sowing with its packet, its events in order, and the places it was sown and stands in."""

    sowing: Sowing
    packet: Packet
    crop: str
    events: tuple[SowingEvent, ...]
    sown_in: GrowingPlace
    stands_in: GrowingPlace

    @property
    def code(self) -> str:
        return shown(self.sowing.code)

    @property
    def what(self) -> str:
        """Crop and variety."""
        return f"{self.crop} {self.packet.variety}".strip()

    @property
    def stage(self) -> Stage:
        """The furthest that it has come; failed and ended come after all."""
        reached = [_STAGE[one.kind] for one in self.events if one.kind in _STAGE and _up(one)]
        return max(reached, key=_ORDER.index, default=Stage.SOWN)

    @property
    def open(self) -> bool:
        """Whether anything is still to be done with it."""
        return not any(one.kind.ends for one in self.events)

    @property
    def emerged(self) -> int | None:
        """The last count of emergence; None before it was counted."""
        last = self.last(EventKind.EMERGED)
        return None if last is None else last.count

    @property
    def emerged_on(self) -> date | None:
        """The first day on which seedlings were counted."""
        counts = (one for one in self.events if one.kind is EventKind.EMERGED)
        return next((one.on for one in counts if one.count), None)

    def last(self, kind: EventKind) -> SowingEvent | None:
        """The latest event of a kind."""
        return next((one for one in reversed(self.events) if one.kind is kind), None)

    def day_of(self, kind: EventKind) -> date | None:
        """The day of the latest event of a kind."""
        found = self.last(kind)
        return None if found is None else found.on

    @property
    def plants(self) -> int:
        """Plants that it gives: as last counted, else by what came up, else as it was sown for."""
        if any(one.kind is EventKind.FAILED for one in self.events):
            return 0
        counted = [one for one in self.events if one.kind in _COUNTS_PLANTS]
        known = [one.count for one in counted if one.count is not None]
        if known:
            return known[-1]
        if self.emerged is not None:
            return self._from_seedlings(self.emerged)
        return self.sown_for

    @property
    def crowded(self) -> bool:
        """Whether more stand than are to stay, as far as anybody counted."""
        return self.emerged is None or self.emerged > min(self.plants, self.sown_for)

    @property
    def sown_for(self) -> int:
        """Plants that it was sown for."""
        if self.sowing.plants_wanted is not None:
            return self.sowing.plants_wanted
        cells = self.sowing.cells
        return self.sowing.seeds if cells is None else cells * self.sowing.left_per_cell

    def _from_seedlings(self, seedlings: int) -> int:
        """Plants after thinning: cells that have one, where seedlings fell into cells by chance."""
        cells, per_cell = self.sowing.cells, self.sowing.per_cell
        if cells is None or per_cell is None:
            return seedlings
        if self.sowing.left_per_cell > 1:
            return min(seedlings, cells * per_cell)
        share = min(seedlings / self.sowing.seeds, 1.0)
        return min(round(cells * (1.0 - (1.0 - share) ** per_cell)), seedlings)


def _up(event: SowingEvent) -> bool:
    return event.kind is not EventKind.EMERGED or bool(event.count)


def all_sowings(
    tin: Tin, garden: Garden, book: CropBook, packets: Iterable[Packet]
) -> tuple[Growing, ...]:
    """Every sowing of the tin as it stands, in order of date."""
    sowings = tin.sowings()
    if not sowings:
        return ()
    events: dict[int, list[SowingEvent]] = {}
    for event in tin.sowing_events():
        events.setdefault(event.sowing_id, []).append(event)
    by_id = {packet.id: packet for packet in packets}
    places = {place.id: place for place in garden.places}
    return tuple(
        _growing(one, by_id[one.packet_id], book, events.get(one.id, []), places) for one in sowings
    )


def _growing(
    sowing: Sowing,
    packet: Packet,
    book: CropBook,
    events: list[SowingEvent],
    places: Mapping[int, GrowingPlace],
) -> Growing:
    moved = [one.place_id for one in events if one.place_id is not None]
    stands_in = places[moved[-1] if moved else sowing.place_id]
    name = book.name(packet.crop_id)
    return Growing(sowing, packet, name, tuple(events), places[sowing.place_id], stands_in)
