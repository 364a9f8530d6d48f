"""What two at a time would exchange: the measure of fairness.

Two plans are made, and the one that is worth more in all counts; of equal ones the first:

- *Pair by pair.* Of all pairs that have not yet exchanged, the pair whose exchange is worth most,
  to both together, exchanges first, all that they can, then the best of the rest with what is left.
- *Swap by swap.* Of all swaps of a portion for a portion, the one worth most, to both together, is
  made first, then the best of the rest. At the end, what still serves within the tolerance
  goes pair by pair.

Each goes on until no pair gains anything; ties go to the pair that stands first by its keys. Each
pair keeps within the tolerance by itself, and so does each member over all their pairs. For two
people the plan is the best exchange there is. Among more no claim is made that pairs could not
reach a greater sum: that would take one planner for the whole hall, who would not stop at pairs.

Source: Seedbox's own rule.
"""

from __future__ import annotations

from dataclasses import dataclass
from heapq import heapify, heappop, heappush

from seedbox.science.exchange_network import Carried
from seedbox.science.exchange_numbered import NumberedHall
from seedbox.science.exchange_one_way import Handed, Wished, hand_dearest, hand_over

_Pair = tuple[int, int]
_Window = tuple[int, int]  # portions that the first of a pair may give more than take, least, most


@dataclass(frozen=True, slots=True)
class PairsPlan:
    """Portions carried, received for each desire, and the worth that each member receives."""

    carried: Carried
    received: list[int]
    worth: list[int]


@dataclass(frozen=True, slots=True, order=True)
class _Deal:
    """What a pair can do: `loss` is its worth below 0, so that the best stands first."""

    loss: int
    pair: _Pair
    gives: int = 0
    takes: int = 0


def pairs_plan(hall: NumberedHall) -> PairsPlan:
    """The plan of two-person exchanges by which fairness is measured."""
    pair_by_pair = _plan(hall, _dealt(_Dealing(hall, {})))
    swaps = _dealt(_Swapping(hall, {}))
    swap_by_swap = _plan(hall, _dealt(_Dealing(hall, swaps)))
    return max(pair_by_pair, swap_by_swap, key=lambda plan: sum(plan.worth))


def _plan(hall: NumberedHall, carried: Carried) -> PairsPlan:
    received = [0] * len(hall.desires)
    for (_, desire), portions in carried.items():
        received[desire] += portions
    return PairsPlan(carried, received, hall.received_worth(received))


def _dealt(dealing: _Dealing) -> Carried:
    while deal := dealing.best():
        dealing.close(deal)
    return dealing.carried


class _Dealing:
    """What is left between one exchange and the next; `carried` went before, one for one.

    `queue` holds each pair by what it could do if neither had a balance with others. That only
    falls, and is never less than what the pair can do, so most pairs need no second look.
    """

    def __init__(self, hall: NumberedHall, carried: Carried) -> None:
        self.carried: Carried = {}
        self._tolerance = hall.tolerance
        self._left, self._wanted = list(hall.offered), list(hall.wanted)
        for link, portions in carried.items():
            self._carry(link, portions)
        self._balance, self._turns = [0] * len(hall.members), [0] * len(hall.members)
        self._wishes = _wishes_by_way(hall)
        self._known: dict[_Pair, tuple[_Pair, Handed, Handed]] = {}
        pairs = sorted({(min(way), max(way)) for way in self._wishes})
        self._queue = [self._deal(pair, self._open_window) for pair in pairs]
        heapify(self._queue)

    def best(self) -> _Deal | None:
        """The deal worth most now, taken out of the queue; None when nobody gains."""
        looked_at: list[_Deal] = []
        best: _Deal | None = None
        while self._queue and (best is None or self._queue[0] < best):
            outlook = self._deal(heappop(self._queue).pair, self._open_window)
            if outlook.loss:
                looked_at.append(outlook)
                deal = self._deal(outlook.pair, self._window(outlook.pair))
                best = min(best, deal) if best else deal
        if best is None or not best.loss:
            return None
        for outlook in looked_at:
            if outlook.pair != best.pair:
                heappush(self._queue, outlook)
        return best

    def close(self, deal: _Deal) -> None:
        """Hand over what the pair agreed on."""
        first, second = deal.pair
        for giver, receiver, most in ((first, second, deal.gives), (second, first, deal.takes)):
            wishes = self._wishes.get((giver, receiver), [])
            handed = hand_over(wishes, self._left, self._wanted, most)
            self._book(handed)
            self._balance[giver] -= handed.portions
            self._balance[receiver] += handed.portions
            self._turns[giver] += 1

    def _book(self, handed: Handed) -> None:
        for stock, takers in handed.carried.items():
            for desire, portions in takers.items():
                self._carry((stock, desire), portions)

    def _carry(self, link: tuple[int, int], portions: int) -> None:
        self._left[link[0]] -= portions
        self._wanted[link[1]] -= portions
        self.carried[link] = self.carried.get(link, 0) + portions

    @property
    def _open_window(self) -> _Window:
        return -self._tolerance, self._tolerance

    def _window(self, pair: _Pair) -> _Window:
        """How uneven the pair may be, so that neither's balance over all leaves the tolerance."""
        first, second = (self._balance[member] for member in pair)
        least = max(-self._tolerance, first - self._tolerance, -self._tolerance - second)
        most = min(self._tolerance, first + self._tolerance, self._tolerance - second)
        return least, most

    def _deal(self, pair: _Pair, window: _Window) -> _Deal:
        """The pair's best: every portion is worth something, so as many as the window allows."""
        out, back = self._both_ways(pair)
        least, most = window
        gives = min(out.portions, back.portions + most)
        takes = min(back.portions, gives - least)
        return _Deal(-out.worth_of(gives) - back.worth_of(takes), pair, gives, takes)

    def _both_ways(self, pair: _Pair) -> tuple[Handed, Handed]:
        """What each could give the other if balance did not matter, remembered while it holds."""
        turns = self._turns[pair[0]], self._turns[pair[1]]
        known = self._known.get(pair)
        if known is None or known[0] != turns:
            known = turns, self._most(*pair), self._most(*pair[::-1])
            self._known[pair] = known
        return known[1], known[2]

    def _most(self, giver: int, receiver: int) -> Handed:
        return hand_over(self._wishes.get((giver, receiver), []), self._left, self._wanted)


class _Swapping(_Dealing):
    """One for one: the dearest that each can have of the other, again and again."""

    def close(self, deal: _Deal) -> None:
        super().close(deal)
        heappush(self._queue, self._deal(deal.pair, self._open_window))

    def _deal(self, pair: _Pair, window: _Window) -> _Deal:
        """Worth of one swap; as many are made as there are before a wish less dear has its turn."""
        out, back = self._both_ways(pair)
        swaps = min(out.portions, back.portions)
        return _Deal(-out.worth_of(1) - back.worth_of(1) if swaps else 0, pair, swaps, swaps)

    def _most(self, giver: int, receiver: int) -> Handed:
        return hand_dearest(self._wishes.get((giver, receiver), []), self._left, self._wanted)


def _wishes_by_way(hall: NumberedHall) -> dict[_Pair, list[Wished]]:
    """What each member could meet of each other's wishes, dearest first, then by number."""
    by_way: dict[_Pair, list[Wished]] = {}
    for desire in sorted(range(len(hall.desires)), key=lambda desire: -hall.worth[desire]):
        stocks_of: dict[int, list[int]] = {}
        for stock in hall.sources[desire]:
            stocks_of.setdefault(hall.giver[stock], []).append(stock)
        for giver, stocks in stocks_of.items():
            wished = Wished(desire, hall.worth[desire], tuple(stocks))
            by_way.setdefault((giver, hall.receiver[desire]), []).append(wished)
    return by_way
