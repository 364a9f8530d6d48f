"""When a packet's ageing starts: the best known date, and what a year on a packet means.

The days on which years begin and the lag of a sow-by date are common practice, no source.
"""

from __future__ import annotations

from datetime import date, timedelta

from seedbox.tin.frozen import record
from seedbox.tin.records import Dossier, Packet

# Seed is harvested at the end of the local growing season.
_HARVEST = {"north": (10, 1), "south": (4, 1)}
# Seed packed for a year, or bought in it, is on sale when that year begins.
_ON_SALE = (1, 1)
# Packets are usually dated to be sown within two seasons of packing.
_SOW_BY_LAG_DAYS = 730


@record
class TimeZero:
    """The day from which ageing counts, and a sentence that says why it is this day."""

    day: date
    reason: str
    known: bool = True


def time_zero(dossier: Dossier, hemisphere: str, on: date) -> TimeZero:
    """The best known start of ageing; never after the packet's first test or the day asked for."""
    stated = _stated(dossier.packet, hemisphere) or _first_seen(dossier, on)
    tests = [test.on for test in dossier.tests]
    earliest = min([stated.day, on, *tests])
    if earliest == stated.day:
        return stated
    if earliest in tests:
        return TimeZero(earliest, f"Counted from its first test, {_day(earliest)}.")
    return TimeZero(on, f"{stated.reason[:-1]}; that day is still to come, so it counts as new.")


def _stated(packet: Packet, hemisphere: str) -> TimeZero | None:
    if packet.harvest_year:
        month, day = _HARVEST.get(hemisphere, _HARVEST["north"])
        return TimeZero(date(packet.harvest_year, month, day), f"Harvested {packet.harvest_year}.")
    if packet.packed_year:
        return TimeZero(
            date(packet.packed_year, *_ON_SALE),
            f"Packed {packet.packed_year}; its harvest is not known.",
        )
    if packet.bought_year:
        return TimeZero(
            date(packet.bought_year, *_ON_SALE),
            f"Bought {packet.bought_year}, taken as fresh then; its harvest is not known.",
        )
    if packet.sow_by:
        return TimeZero(
            packet.sow_by - timedelta(days=_SOW_BY_LAG_DAYS),
            f"Sow by {_day(packet.sow_by)}: taken as packed two years before.",
        )
    return None


def _first_seen(dossier: Dossier, on: date) -> TimeZero:
    """No year on the packet: the first day on which the tin knows of it."""
    known = [period.from_date for period in dossier.storage]
    known += [day for day in (dossier.packet.received_on, dossier.packet.printed_on) if day]
    if not known:
        return TimeZero(on, "Age unknown: taken as new today. Give it a year.", known=False)
    first = min(known)
    return TimeZero(
        first, f"Age unknown: taken as new on {_day(first)}, when first heard of.", known=False
    )


def _day(day: date) -> str:
    return f"{day.day} {day:%B %Y}"
