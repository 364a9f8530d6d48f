"""How much stands on a sharing label that is printed before anything is given: one portion."""

from __future__ import annotations

from seedbox.season.forecast import Advice
from seedbox.season.listing import PacketLine
from seedbox.season.sowing.desk import Desk
from seedbox.season.swapping.aliveness import Alive
from seedbox.season.swapping.portions import portion
from seedbox.season.swapping.seasons import next_sowing_day
from seedbox.tin.records import Kind, Unit
from seedbox.tin.text import amount_text

SHARING = "sharing"
"""The design that goes out of the house with a portion."""


class PortionWords:
    """The seeds of a swap portion of each packet, as words for its label."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._alive = Alive(desk, next_sowing_day(desk))

    def of(self, line: PacketLine) -> str:
        """`35 seeds`. Nothing where no portion can be reckoned (planting stock, spent seed, seed
        that nobody counted or weighed) or the packet holds less than one: to be written by hand.
        """
        left = None if line.packet.kind is Kind.STOCK else self._desk.seeds_left(line)
        if not left or line.advice == Advice.SPENT:
            return ""
        chances = self._alive.chances(line)
        if chances is None:
            return ""
        one = portion(line.packet.crop_id, chances, self._desk.settings.assurance)
        return amount_text(one.seeds, Unit.SEEDS) if one.seeds <= left else ""
