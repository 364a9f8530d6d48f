"""A network in which whole portions flow at a cost: rooms, costs, node prices, what is left over.

Every arc has a partner that runs the other way and undoes it: arc `a` and `a ^ 1`. The room of the
partner is what flows on the arc. Costs are whole numbers, so that nothing is ever rounded.

The flow is kept optimal at all times for what it carries (no arc with room has a reduced cost
below 0), while some nodes may still hold more than they pass on. `exchange_settling.settle`
brings that to nothing. So a cost or a room can change in the middle of the work, and only what
that disturbs is done again.

Source: Ahuja, Magnanti & Orlin 1993, Network Flows, chapters 2.4 (residual networks) and 9.3
(reduced cost optimality), from memory.
"""

from __future__ import annotations


class Flow:
    """Arcs between nodes 0 to n - 1, all in lists by number of node or arc.

    `heads`, `rooms` [portions], `costs` [points a portion] by arc; `arcs` by node; `prices` and
    `excess` [portions] by node: what has come in and not yet gone out, below 0 what is still owed.
    `effort` counts arcs looked at, a measure of work that is the same on every machine.
    """

    def __init__(self, nodes: int) -> None:
        self.heads: list[int] = []
        self.rooms: list[int] = []
        self.costs: list[int] = []
        self.arcs: list[list[int]] = [[] for _ in range(nodes)]
        self.prices = [0] * nodes
        self.excess = [0] * nodes
        self.effort = 0

    def add(self, tail: int, head: int, room: int, cost: int = 0) -> int:
        """A new arc and its partner; its number."""
        arc = len(self.heads)
        self.heads += (head, tail)
        self.rooms += (room, 0)
        self.costs += (cost, -cost)
        self.arcs[tail].append(arc)
        self.arcs[head].append(arc + 1)
        return arc

    def flowing(self, arc: int) -> int:
        """Portions on the arc."""
        return self.rooms[arc ^ 1]

    def reduced_cost(self, arc: int) -> int:
        """Cost of one more portion on the arc when nodes have their prices."""
        tail, head = self.heads[arc ^ 1], self.heads[arc]
        return self.costs[arc] + self.prices[tail] - self.prices[head]

    def carry(self, arc: int, portions: int) -> None:
        """Send portions along the arc, whatever its ends then hold too much or too little."""
        self.rooms[arc] -= portions
        self.rooms[arc ^ 1] += portions
        self.excess[self.heads[arc ^ 1]] -= portions
        self.excess[self.heads[arc]] += portions

    def mend(self, arc: int) -> None:
        """Make the arc optimal again at the present prices: fill it or empty it if need be."""
        for way in (arc, arc ^ 1):
            if self.rooms[way] and self.reduced_cost(way) < 0:
                self.carry(way, self.rooms[way])

    def reprice(self, arc: int, cost: int) -> None:
        """Give the arc another cost."""
        self.costs[arc], self.costs[arc ^ 1] = cost, -cost
        self.mend(arc)
