"""The hall as a network: member, stock, desire, and back to the member who receives.

A portion flows from the member who gives through a stock to a desire that accepts it and on to the
member who receives; what a member receives flows on as what they give. A clearing node lends and
takes back up to the tolerance. Each portion into a member earns its worth, so the best exchange is
a circulation of the greatest worth, and a whole one exists whatever the sizes.

Source: circulations in Ahuja, Magnanti & Orlin 1993, Network Flows, 1.2 and 9.1, from memory.
"""

from __future__ import annotations

from seedbox.science.exchange_flow import Flow
from seedbox.science.exchange_numbered import NumberedHall
from seedbox.science.exchange_settling import settle

Carried = dict[tuple[int, int], int]
"""Portions by number of stock and of desire."""


class HallNetwork:
    """The flow of a hall; `gains` [any whole unit a portion] by desire are what it maximises.

    It starts with every desire met and owed for; `solve` settles that. `least` and `most` are the
    portions between which each desire is held; `met` is the arc from each desire to its member.
    `loan` is the cost of a portion out of balance.
    """

    def __init__(self, hall: NumberedHall, gains: list[int], loan: int = 0) -> None:
        self.hall = hall
        members, stocks = len(hall.members), len(hall.stocks)
        self._first_stock, self._first_desire = members + 1, members + 1 + stocks
        self.flow = Flow(self._first_desire + len(hall.desires))
        self.least, self.most = [0] * len(hall.desires), list(hall.wanted)
        self._lend(loan)
        self._offer()
        self._handed = self._accept()
        self.met = [self._desire(number, gain) for number, gain in enumerate(gains)]

    def solve(self) -> bool:
        """The exchange of the greatest gain; False if none keeps within `least` and `most`."""
        return settle(self.flow)

    def received(self, rooms: list[int] | None = None) -> list[int]:
        """Portions received for each desire, at the rooms that the arcs have or would have."""
        rooms = rooms or self.flow.rooms
        return [rooms[arc ^ 1] + low for arc, low in zip(self.met, self.least, strict=True)]

    def carried(self) -> Carried:
        """Portions of each stock that go to each desire."""
        return {
            link: self.flow.flowing(arc)
            for link, arc in self._handed.items()
            if self.flow.flowing(arc)
        }

    def value(self, desire: int, gain: int) -> None:
        """Let a portion for this desire gain so much."""
        self.flow.reprice(self.met[desire], -gain)

    def hold(self, desire: int, least: int, most: int) -> None:
        """Hold what is received for this desire between two numbers of portions."""
        if (least, most) == (self.least[desire], self.most[desire]):
            return
        arc = self.met[desire]
        portions = self.flow.flowing(arc) + self.least[desire]
        kept = min(max(portions, least), most)
        self.flow.carry(arc, kept - portions)
        self.flow.rooms[arc], self.flow.rooms[arc ^ 1] = most - kept, kept - least
        self.least[desire], self.most[desire] = least, most
        self.flow.mend(arc)

    def charge_detours(self, known: Carried) -> None:
        """Let a portion cost 1 on every link but the known ones."""
        for link, arc in self._handed.items():
            self.flow.reprice(arc, int(link not in known))

    def regret(self, desire: int) -> int:
        """What one portion more (above 0) or less (below 0) of this desire would cost, at least."""
        return self.flow.reduced_cost(self.met[desire])

    def _lend(self, loan: int) -> None:
        clearing = len(self.hall.members)
        if self.hall.tolerance:
            for member in range(clearing):
                self.flow.add(member, clearing, self.hall.tolerance, loan)
                self.flow.add(clearing, member, self.hall.tolerance, loan)

    def _offer(self) -> None:
        for stock, (giver, portions) in enumerate(
            zip(self.hall.giver, self.hall.offered, strict=True)
        ):
            self.flow.add(giver, self._first_stock + stock, portions)

    def _accept(self) -> dict[tuple[int, int], int]:
        hall = self.hall
        return {
            (stock, desire): self.flow.add(
                self._first_stock + stock, self._first_desire + desire, hall.offered[stock]
            )
            for desire, sources in enumerate(hall.sources)
            for stock in sources
        }

    def _desire(self, desire: int, gain: int) -> int:
        portions = self.hall.wanted[desire]
        arc = self.flow.add(
            self._first_desire + desire, self.hall.receiver[desire], portions, -gain
        )
        self.flow.carry(arc, portions)
        return arc


def greatest_exchange(hall: NumberedHall) -> list[int]:
    """Portions received for each desire in the exchange of the greatest worth, fair or not."""
    network = HallNetwork(hall, list(hall.worth))
    network.solve()
    return network.received()


def routes(hall: NumberedHall, received: list[int], known: Carried | None = None) -> Carried | None:
    """How these portions are brought, by number of stock and desire.

    Of all ways, those with the fewest portions out of balance; of these, one that goes as far as
    it can by the `known` links, such as those of pairs; further ties go by number. None if
    no exchange of the hall brings these portions.
    """
    network = HallNetwork(hall, [0] * len(hall.desires), loan=1 + sum(received))
    network.charge_detours(known or {})
    for desire, portions in enumerate(received):
        network.hold(desire, portions, portions)
    return network.carried() if network.solve() else None
