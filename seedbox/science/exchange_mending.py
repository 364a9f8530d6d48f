"""From an exchange in which a few fall short to a fair one near by, a portion at a time.

Somebody who falls short gets a portion more, round the cheapest ring of changes on which nobody
else comes to fall short: they give one more themselves or give up a wish less dear, whoever gets
that gives one more, and so on, until one comes free that is wanted. The network itself is left
as it is; changes are made on a copy of its rooms, at its prices.

A search finds a ring if it meets one; it is not sure to find the best, so nothing is proved by it.

Source: Seedbox's own; rings of changes are cycles of the residual network, Ahuja, Magnanti & Orlin
1993, Network Flows, 3.5, from memory.
"""

from __future__ import annotations

from heapq import heappop, heappush

from seedbox.science.exchange_network import HallNetwork

_MOST_CHANGES = 200
_FAR = 1 << 62


def mended(network: HallNetwork, over: list[int]) -> list[int] | None:
    """Portions received for each desire once nobody falls short any more, or None.

    Parameters: network, solved; over [points], what each member receives more than they must.
    """
    mending = _Mending(network, over)
    for _ in range(_MOST_CHANGES):
        short = next((member for member, more in enumerate(mending.over) if more < 0), None)
        if short is None:
            return mending.received()
        if not mending.helps(short):
            return None
    return None


class _Mending:
    def __init__(self, network: HallNetwork, over: list[int]) -> None:
        self.over = over[:]
        self._network, self._flow = network, network.flow
        self._rooms = network.flow.rooms[:]
        self._worth_on: dict[int, int] = {}  # what an arc into or out of a wish brings its member
        for desire, arc in enumerate(network.met):
            self._worth_on[arc] = network.hall.worth[desire]
            self._worth_on[arc ^ 1] = -network.hall.worth[desire]

    def received(self) -> list[int]:
        return self._network.received(self._rooms)

    def helps(self, member: int) -> bool:
        """Change a portion round the cheapest ring that brings the member more; whether one was."""
        ring = self._ring(member)
        for arc in ring:
            self._rooms[arc] -= 1
            self._rooms[arc ^ 1] += 1
            if worth := self._worth_on.get(arc, 0):
                self.over[self._flow.heads[arc if worth > 0 else arc ^ 1]] += worth
        return bool(ring)

    def _ring(self, member: int) -> list[int]:
        """Arcs from the member back to them, through a wish dearer than what they give up."""
        flow, rooms = self._flow, self._rooms
        heads, costs, prices = flow.heads, flow.costs, flow.prices
        flow.effort += 2 * len(heads)
        distances, entered = [_FAR] * len(prices), [-1] * len(prices)
        given_up = [0] * len(prices)
        distances[member] = 0
        queue = [(0, 0, member)]
        while queue:
            distance, _, node = heappop(queue)
            if distance > distances[node]:
                continue
            for arc in self._ways_on(member, node, entered[node]):
                head = heads[arc]
                if head == member:
                    if self._worth_on.get(arc, 0) > given_up[node]:
                        return [*_traced(heads, entered, node), arc]
                    continue
                reached = distance + max(costs[arc] + prices[node] - prices[head], 0)
                if reached < distances[head] and rooms[arc]:
                    distances[head], entered[head] = reached, arc
                    given_up[head] = (
                        -self._worth_on.get(arc, 0) if node == member else given_up[node]
                    )
                    heappush(queue, (reached, -len(queue), head))
        return []

    def _ways_on(self, member: int, node: int, entered: int) -> list[int]:
        """Arcs with room out of a node; others than the member may only give up a wish
        if what they just got makes up for it."""
        arcs = [arc for arc in self._flow.arcs[node] if self._rooms[arc]]
        if node >= len(self.over) or node == member:
            return arcs
        spare = self.over[node] + max(self._worth_on.get(entered, 0), 0)
        return [arc for arc in arcs if -self._worth_on.get(arc, 0) <= max(spare, 0)]


def _traced(heads: list[int], entered: list[int], node: int) -> list[int]:
    way = []
    while (arc := entered[node]) >= 0:
        way.append(arc)
        node = heads[arc ^ 1]
    return way[::-1]
