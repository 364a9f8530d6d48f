"""Reads the tin and forecasts in a thread of its own, and hands lines over in portions."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import islice

from seedbox.season.listing import Listing, PacketLine
from seedbox.tin.file import Tin
from seedbox.tui.desk import Desk

FIRST_PORTION, PORTION = 40, 250


@dataclass(frozen=True, slots=True)
class Reading:
    """One reading of the tin. Lines that did not change since the last one keep their forecast."""

    listing: Listing
    lines: list[PacketLine]
    ground: tuple[object, ...]


def read(desk: Desk, before: Reading | None, known: Mapping[str, PacketLine]) -> Reading:
    """Read the tin afresh over a connection of its own."""
    with desk.another() as tin:
        listing = Listing(tin, desk.today)
        ground = _ground(tin, listing)
    lines = listing.lines
    if before is not None and before.ground == ground:
        lines = [_kept(line, known.get(line.packet.code)) for line in lines]
    return Reading(listing, lines, ground)


def forecasts(
    reading: Reading, waiting: Iterable[PacketLine], stop: Callable[[], bool]
) -> Iterator[list[PacketLine]]:
    """Forecast the waiting lines, a portion at a time: a small one first, then larger ones."""
    queue = iter(waiting)
    size = FIRST_PORTION
    while not stop():
        portion = [reading.listing.forecast(line) for line in islice(queue, size)]
        if not portion:
            return
        yield portion
        size = PORTION


def _ground(tin: Tin, listing: Listing) -> tuple[object, ...]:
    """All that a forecast rests on besides the packet: equal ground, equal forecasts."""
    # How it looks and what labels are printed on is nothing to a forecast.
    settings = replace(listing.settings, theme="", label_sheet="", label_start=1)
    return (listing.today, settings, listing.stores, tin.own_figures(), tin.own_crops())


def _kept(line: PacketLine, earlier: PacketLine | None) -> PacketLine:
    if earlier is None or earlier.forecast is None or earlier.dossier != line.dossier:
        return line
    return replace(line, forecast=earlier.forecast)
