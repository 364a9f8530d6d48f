"""Settling a flow: what stands over is brought to where it is owed, along the cheapest ways.

Successive shortest paths with node prices. While much stands over, all that can go at the price of
the shortest way goes at once, level by level (the primal-dual algorithm); the last portions
go one way at a time, since a search then ends as soon as it meets a node that is owed something.

Source: Ahuja, Magnanti & Orlin 1993, Network Flows, 9.7 (successive shortest paths) and 9.8
(primal-dual), 7.5 (layered networks), from memory.
"""

from __future__ import annotations

from dataclasses import dataclass
from heapq import heappop, heappush

from seedbox.science.exchange_flow import Flow

_FAR = 1 << 62
_FEW = 10  # portions; below that, single ways were faster than levels by a third


@dataclass(frozen=True, slots=True)
class _Found:
    """The nearest node that is owed something, how far, and the arc by which each was entered."""

    node: int
    distance: int
    distances: list[int]
    entered: list[int]


def settle(flow: Flow) -> bool:
    """Bring the excess of every node to 0 at the least cost.

    Returns: whether that is possible. If not, the flow stays optimal for what it carries, and
    settling can go on after rooms have changed.
    """
    while sources := _with_excess(flow):
        found = _nearest_owed(flow, sources)
        if found is None:
            return False
        _send(flow, found)
        _raise_prices(flow, found)
        if sum(flow.excess[node] for node in sources) > _FEW:
            while _send_by_levels(flow):
                pass
    return not any(flow.excess)


def _with_excess(flow: Flow) -> list[int]:
    return [node for node, portions in enumerate(flow.excess) if portions > 0]


def _nearest_owed(flow: Flow, sources: list[int]) -> _Found | None:
    """Dijkstra's search from all sources at once, by reduced costs, in buckets of equal distance.

    The latest node reached is looked at first, so that a search at no cost goes deep, not wide.
    """
    heads, rooms, costs, prices = flow.heads, flow.rooms, flow.costs, flow.prices
    distances = [_FAR] * len(prices)
    entered = [-1] * len(prices)
    for node in sources:
        distances[node] = 0
    flow.effort += len(heads)
    waiting, queue = {0: list(sources)}, [0]
    while queue:
        distance = heappop(queue)
        bucket = waiting[distance]
        while bucket:
            node = bucket.pop()
            if distances[node] < distance:
                continue
            if flow.excess[node] < 0:
                return _Found(node, distance, distances, entered)
            base = distance + prices[node]
            for arc in flow.arcs[node]:
                if rooms[arc]:
                    head = heads[arc]
                    reached = base + costs[arc] - prices[head]
                    if reached < distances[head]:
                        distances[head], entered[head] = reached, arc
                        if reached not in waiting:
                            waiting[reached] = []
                            heappush(queue, reached)
                        waiting[reached].append(head)
    return None


def _send(flow: Flow, found: _Found) -> None:
    """As much as fits along the way that was found."""
    way, node = [], found.node
    while (arc := found.entered[node]) >= 0:
        way.append(arc)
        node = flow.heads[arc ^ 1]
    _send_along(flow, node, way, found.node)


def _send_along(flow: Flow, source: int, way: list[int], owed: int) -> None:
    rooms = flow.rooms
    portions = min(flow.excess[source], -flow.excess[owed], *(rooms[arc] for arc in way))
    for arc in way:
        rooms[arc] -= portions
        rooms[arc ^ 1] += portions
    flow.excess[source] -= portions
    flow.excess[owed] += portions


def _raise_prices(flow: Flow, found: _Found) -> None:
    """Prices at which the way found costs nothing more, and no arc with room less than nothing."""
    if found.distance:
        flow.prices = [
            price + min(distance, found.distance)
            for price, distance in zip(flow.prices, found.distances, strict=True)
        ]


def _send_by_levels(flow: Flow) -> bool:
    """All that fits along the shortest ways, in arcs, that cost nothing more; False for none."""
    sources = _with_excess(flow)
    levels = _levels(flow, sources)
    if levels is None:
        return False
    nexts = [0] * len(levels)
    for source in sources:
        while flow.excess[source] > 0:
            way = _way_down(flow, levels, nexts, source)
            if not way:
                break
            _send_along(flow, source, way, flow.heads[way[-1]])
    return True


def _levels(flow: Flow, sources: list[int]) -> list[int] | None:
    """How many free arcs each node lies from a source (-1: farther than the nearest owed)."""
    heads, rooms, costs, prices = flow.heads, flow.rooms, flow.costs, flow.prices
    levels = [-1] * len(prices)
    for node in sources:
        levels[node] = 0
    flow.effort += len(heads)
    front, level, met = sources, 0, False
    while front and not met:
        level += 1
        following = []
        for node in front:
            price = prices[node]
            for arc in flow.arcs[node]:
                head = heads[arc]
                if levels[head] < 0 and rooms[arc] and price + costs[arc] == prices[head]:
                    levels[head] = level
                    following.append(head)
                    met = met or flow.excess[head] < 0
        front = following
    return levels if met else None


def _way_down(flow: Flow, levels: list[int], nexts: list[int], source: int) -> list[int]:
    """Arcs from the source, a level each, to a node that is owed something; empty for none.

    `nexts` holds for each node the first arc that has not yet led nowhere.
    """
    way: list[int] = []
    node = source
    while flow.excess[node] >= 0:
        arc = _next_down(flow, levels, nexts, node)
        if arc >= 0:
            way.append(arc)
            node = flow.heads[arc]
        elif way:
            node = flow.heads[way.pop() ^ 1]
            nexts[node] += 1
        else:
            break
    return way


def _next_down(flow: Flow, levels: list[int], nexts: list[int], node: int) -> int:
    """The first arc with room that leads a level down at no cost, or -1."""
    heads, rooms, costs, prices = flow.heads, flow.rooms, flow.costs, flow.prices
    arcs, level, price = flow.arcs[node], levels[node] + 1, flow.prices[node]
    for place in range(nexts[node], len(arcs)):
        arc = arcs[place]
        head = heads[arc]
        if levels[head] == level and rooms[arc] and price + costs[arc] == prices[head]:
            nexts[node] = place
            return arc
    nexts[node] = len(arcs)
    return -1
