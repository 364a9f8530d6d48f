"""Codes that must stand for one packet, and parents that must come before their offspring."""

from __future__ import annotations

from collections.abc import Container, Iterable, Sequence

from seedbox.tin.exchange.plans import NewPacket
from seedbox.tin.exchange.rows import RowReading


def refuse_doubles(reading: RowReading) -> None:
    """A code stands for one packet: a second row with it is at fault."""
    rows: dict[str, int] = {}
    for place, one in enumerate(reading.packets):
        if one.code and one.code in rows:
            reading.sheet.fault(place, f"Row {rows[one.code]} has the code {one.code} too.", "code")
        elif one.code:
            rows[one.code] = one.row


def refuse_orphans(reading: RowReading, known: Container[str]) -> list[int]:
    """Places of the sound rows, parents first; a packet without its parent is at fault."""
    sheet, packets = reading.sheet, reading.packets
    sound = [place for place in range(len(packets)) if place not in sheet.faults]
    order, left_over = parents_first(packets, sound, known)
    for place in left_over:
        parent = packets[place].parent
        sentence = f"The parent {parent} is neither in the tin nor among the rows that fit."
        sheet.fault(place, sentence, "parent")
    return order


def parents_first(
    packets: Sequence[NewPacket], places: Iterable[int], known: Container[str]
) -> tuple[list[int], list[int]]:
    """Places in an order in which every parent is `known` or comes before, and those left over.

    Left over are packets whose parent is nowhere, or that descend from themselves.
    """
    order: list[int] = []
    waiting = list(places)
    placed: set[str] = set()
    while waiting:
        later = []
        for place in waiting:
            one = packets[place]
            if one.parent and one.parent not in placed and one.parent not in known:
                later.append(place)
                continue
            order.append(place)
            placed.add(one.code)
        if len(later) == len(waiting):
            return order, later
        waiting = later
    return order, []
