"""One member gives to another: which portions, when only so many may go, are worth most.

Source: dearest first with augmenting ways is best for every number of portions, since sets
of wishes that can be met together form a matroid: Edmonds & Fulkerson 1965, Journal of Research of
the National Bureau of Standards 69B:147-153, from memory.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise


@dataclass(frozen=True, slots=True)
class Wished:
    """A desire of the receiver and the stocks of the giver that would do, by number."""

    desire: int
    worth: int
    stocks: tuple[int, ...]


@dataclass(slots=True)
class Handed:
    """`runs` are (points a portion, portions), dearest first; `carried` by stock and desire."""

    runs: list[tuple[int, int]] = field(default_factory=list)
    carried: dict[int, dict[int, int]] = field(default_factory=dict)

    @property
    def portions(self) -> int:
        return sum(portions for _, portions in self.runs)

    def worth_of(self, most: int) -> int:
        """Worth of the dearest so many portions [points]."""
        worth = 0
        for each, portions in self.runs:
            worth += each * min(portions, most)
            most -= min(portions, most)
        return worth


def hand_over(
    wishes: Sequence[Wished], left: Sequence[int], wanted: Sequence[int], most: int | None = None
) -> Handed:
    """At most `most` portions, of the greatest worth, from one member to another.

    Parameters: wishes, dearest first; portions left by number of stock and still wanted by number
    of desire; most portions, None for as many as there are.
    Returns: Handed. The dearest n of its portions are the best that n can be, for every n.

    >>> wishes = [Wished(0, 5, (0, 1)), Wished(1, 2, (0,)), Wished(2, 1, (0,))]
    >>> hand_over(wishes, left=[1, 1], wanted=[1, 1, 1])
    Handed(runs=[(5, 1), (2, 1)], carried={0: {1: 1}, 1: {0: 1}})
    """
    handed = Handed()
    giving = _Giving({wish.desire: wish.stocks for wish in wishes}, left, handed.carried)
    for wish in wishes:
        asked = wanted[wish.desire]
        if most is not None:
            asked = min(asked, most - handed.portions)
        if met := giving.meet(wish.desire, asked):
            handed.runs.append((wish.worth, met))
    return handed


def hand_dearest(wishes: Sequence[Wished], left: Sequence[int], wanted: Sequence[int]) -> Handed:
    """Portions for the dearest wish alone that can be met at all; wishes stand dearest first."""
    for wish in wishes:
        handed = hand_over([wish], left, wanted)
        if handed.runs:
            return handed
    return Handed()


class _Giving:
    """Who has what from which stock; a wish once met stays met, if from another stock."""

    def __init__(
        self,
        accepts: dict[int, tuple[int, ...]],
        left: Sequence[int],
        carried: dict[int, dict[int, int]],
    ) -> None:
        self._accepts, self._carried = accepts, carried
        stocks = {stock for sources in accepts.values() for stock in sources}
        self._free = {stock: left[stock] for stock in stocks}

    def meet(self, desire: int, asked: int) -> int:
        """Meet the desire with as many portions as can be, at most `asked`; how many it was."""
        met = 0
        while met < asked and (way := self._way(desire)):
            portions = min(asked - met, self._widest(way))
            self._move(way, portions)
            met += portions
        return met

    def _way(self, desire: int) -> list[tuple[int, int]]:
        """The shortest way to a free portion: each taker takes from the stock of the next taker."""
        came: dict[int, tuple[int, int]] = {}  # stock: its new taker, and the stock they leave
        waiting = deque([(desire, -1)])
        while waiting:
            taker, leaves = waiting.popleft()
            for stock in self._accepts[taker]:
                if stock not in came:
                    came[stock] = taker, leaves
                    if self._free[stock]:
                        return _traced(came, stock)
                    waiting.extend((other, stock) for other in sorted(self._carried.get(stock, ())))
        return []

    def _widest(self, way: list[tuple[int, int]]) -> int:
        """Portions that can move along the way: what is free, and what each taker has to leave."""
        leaving = [self._carried[left][taker] for (left, _), (_, taker) in pairwise(way)]
        return min([self._free[way[-1][0]], *leaving])

    def _move(self, way: list[tuple[int, int]], portions: int) -> None:
        for (left, _), (_, taker) in pairwise(way):
            self._change(left, taker, -portions)
        for stock, taker in way:
            self._change(stock, taker, portions)
        self._free[way[-1][0]] -= portions

    def _change(self, stock: int, taker: int, portions: int) -> None:
        takers = self._carried.setdefault(stock, {})
        takers[taker] = takers.get(taker, 0) + portions
        if not takers[taker]:
            del takers[taker]


def _traced(came: dict[int, tuple[int, int]], stock: int) -> list[tuple[int, int]]:
    """Stocks and their new takers, from the first taker's to the one with a free portion."""
    way = []
    while stock >= 0:
        taker, leaves = came[stock]
        way.append((stock, taker))
        stock = leaves
    return way[::-1]
