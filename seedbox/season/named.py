"""What codes name: packets, germination tests and sowings of one tin, ready to be listed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from seedbox.season.listing import Listing, PacketLine
from seedbox.season.trade_numbers import bare
from seedbox.tin.codes import KINDS, shown
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import Sowing
from seedbox.tin.records import GerminationTest


@dataclass(frozen=True, slots=True)
class Named:
    """A thing of the tin that carries a code, with the packet that it is or came from.

    `test` or `sowing` is set when the code is theirs; `place` is where a sowing was sown.
    """

    code: str
    line: PacketLine
    test: GerminationTest | None = None
    sowing: Sowing | None = None
    place: str = ""

    @property
    def kind(self) -> str:
        """`packet`, `germination test` or `sowing`."""
        return KINDS[self.code[0]]

    @property
    def is_packet(self) -> bool:
        return self.test is None and self.sowing is None

    @property
    def title(self) -> str:
        """Crop and variety of the packet."""
        return ", ".join(filter(None, (self.line.crop, self.line.packet.variety)))


class NameBook:
    """One reading of a tin in which codes are looked up."""

    def __init__(self, tin: Tin, today: date) -> None:
        self.listing = Listing(tin, today)
        by_id = {line.packet.id: line for line in self.listing.lines}
        places = {place.id: place.name for place in tin.places()}
        self._named = {line.packet.code: Named(line.packet.code, line) for line in by_id.values()}
        for test in tin.tests(state=None):
            self._named[test.code] = Named(test.code, by_id[test.packet_id], test=test)
        for sowing in tin.sowings():
            line, place = by_id[sowing.packet_id], places[sowing.place_id]
            self._named[sowing.code] = Named(sowing.code, line, sowing=sowing, place=place)

    def get(self, code: str) -> Named | None:
        """What a code in its plain form names; None when this tin has no such code."""
        return self._named.get(code)

    def with_trade_number(self, number: str) -> list[Named]:
        """Packets that came with a trade number (EAN-13, or the UPC-A that is written without its
        leading 0), latest first. It tells of variety and supplier, never of identity.
        """
        wanted = bare(number)
        return [
            Named(line.packet.code, line)
            for line in reversed(self.listing.lines)
            if line.packet.ean and bare(line.packet.ean) == wanted
        ]


def told_apart(book: NameBook, codes: Iterable[str]) -> tuple[list[Named], list[str]]:
    """What the codes name, and the codes that this tin does not have, both in the given order."""
    named: list[Named] = []
    strangers: list[str] = []
    for code in codes:
        found = book.get(code)
        if found is None:
            strangers.append(code)
        else:
            named.append(found)
    return named, strangers


def stranger_words(code: str) -> str:
    """A code of ours that this tin does not have, with what it would name."""
    return f"{shown(code)}  a {KINDS[code[0]]} that is not in this tin"
