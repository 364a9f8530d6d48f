"""Fairness by weights: worth to a member who would fall short counts for more until they do not.

With a weight of ``k`` on a member, worth to them counts ``1 + k`` fold, and ``k`` times what they
must at least receive is taken off. Whatever the weights, no fair exchange is worth more than the
greatest weighed one: a bound. The best weights make the bound least, member by member.

Source: Lagrangian relaxation in Ahuja, Magnanti & Orlin 1993, Network Flows, chapter 16, from
memory; along one member the least is found where the two straight pieces next to it cross.
"""

from __future__ import annotations

from dataclasses import dataclass

from seedbox.science.exchange_mending import mended
from seedbox.science.exchange_network import HallNetwork
from seedbox.science.exchange_numbered import NumberedHall

UNIT = 5040  # weights are multiples of 1 / 5040, so that simple fractions are met exactly
_GREATEST = 64 * UNIT
_SWEEPS = 8
_RAISES = 24
_OVERHEAD = 500  # arcs; what a search costs besides looking at arcs


@dataclass(frozen=True, slots=True)
class Outcome:
    """The greatest weighed exchange: its weighed worth, `received` portions by desire.

    `weighed` [points / 5040] is a bound on what a fair exchange is worth. `over` [points] is what
    each member receives more than they must, below 0 for one who falls short.
    """

    weighed: int
    worth: int
    received: list[int]
    over: list[int]

    @property
    def bound(self) -> int:
        return self.weighed // UNIT

    @property
    def short(self) -> list[int]:
        return [member for member, over in enumerate(self.over) if over < 0]


class Weighing:
    """Weights on the members of a hall, and the best fair exchange met on the way.

    `floors` [points] is what each member must at least receive; `received` with `worth` a fair
    exchange to begin with.
    """

    def __init__(self, hall: NumberedHall, floors: list[int], received: list[int]) -> None:
        self.hall, self.floors = hall, floors
        self.received, self.worth = received, sum(hall.received_worth(received))
        self.weights = [0] * len(floors)
        self.network = HallNetwork(hall, [worth * UNIT for worth in hall.worth])
        self._desires_of: list[list[int]] = [[] for _ in floors]
        for desire, receiver in enumerate(hall.receiver):
            self._desires_of[receiver].append(desire)
        self._looks = 0

    @property
    def effort(self) -> int:
        """Work done so far [arcs looked at], the same on every machine."""
        return self.network.flow.effort + _OVERHEAD * self._looks

    def weigh(self, member: int, weight: int) -> None:
        """Put a weight on a member [1 / 5040]."""
        if weight != self.weights[member]:
            self.weights[member] = weight
            for desire in self._desires_of[member]:
                self.network.value(desire, self.hall.worth[desire] * (UNIT + weight))

    def weigh_all(self, weights: list[int]) -> None:
        for member, weight in enumerate(weights):
            self.weigh(member, weight)

    def look(self) -> Outcome | None:
        """The greatest weighed exchange, kept if it is fair and better; None if there is none."""
        self._looks += 1
        if not self.network.solve():
            return None
        received = self.network.received()
        worths = self.hall.received_worth(received)
        over = [worth - floor for worth, floor in zip(worths, self.floors, strict=True)]
        extra = sum(weight * more for weight, more in zip(self.weights, over, strict=True))
        outcome = Outcome(sum(worths) * UNIT + extra, sum(worths), received, over)
        if not outcome.short:
            self.keep(received)
        return outcome

    def mend(self, outcome: Outcome) -> None:
        """Look for a fair exchange near the outcome just met."""
        if outcome.short and outcome.worth > self.worth:
            self.keep(mended(self.network, outcome.over))

    def keep(self, received: list[int] | None) -> None:
        """Remember a fair exchange if it is better than the best known."""
        worth = sum(self.hall.received_worth(received)) if received else 0
        if received and worth > self.worth:
            self.received, self.worth = received, worth


def least_bound(weighing: Weighing, most_effort: int) -> Outcome | None:
    """Weights under which the bound is about least, left in place; None if nothing is possible.

    Stops as soon as the bound meets the best fair exchange known.
    """
    outcome = weighing.look()
    for _ in range(_SWEEPS):
        before = list(weighing.weights)
        if outcome is not None:
            weighing.mend(outcome)
        for member in range(len(before)):
            if outcome is None or outcome.bound <= weighing.worth:
                return outcome
            if _off_balance(weighing, outcome, member) and weighing.effort < most_effort:
                outcome = _least_along(weighing, outcome, member)
        if weighing.weights == before:
            break
    return outcome


def make_fair(weighing: Weighing, outcome: Outcome) -> None:
    """From good weights to fair exchanges near by: members who fall short weigh more and more."""
    steps = [0] * len(weighing.weights)
    after: Outcome | None = outcome
    for _ in range(_RAISES):
        if after is None or not after.short:
            break
        for member in after.short:
            steps[member] = min(2 * steps[member], UNIT) or UNIT // 64
            weighing.weigh(member, weighing.weights[member] + steps[member])
        after = weighing.look()


def _off_balance(weighing: Weighing, outcome: Outcome, member: int) -> bool:
    over = outcome.over[member]
    return over < 0 or (over > 0 and weighing.weights[member] > 0)


@dataclass(frozen=True, slots=True)
class _Point:
    """A weight of one member, and the outcome under it; `slope` is that of the bound there."""

    weight: int
    outcome: Outcome
    slope: int

    def line(self, weight: int) -> int:
        """The bound that this outcome implies for another weight [points / 5040]."""
        return self.outcome.weighed + self.slope * (weight - self.weight)


def _least_along(weighing: Weighing, outcome: Outcome, member: int) -> Outcome:
    """The outcome with the least bound when only this member's weight changes."""
    low, high = _bracket(weighing, member, outcome)
    while low.slope < 0 < high.slope and high.weight - low.weight > 1:
        weight = _crossing(low, high)
        met = _at(weighing, member, weight)
        if met.outcome.weighed <= max(low.line(weight), high.line(weight)):
            return met.outcome
        low, high = (met, high) if met.slope < 0 else (low, met)
    best = min((high, low), key=lambda point: point.outcome.weighed)
    return _at(weighing, member, best.weight).outcome


def _at(weighing: Weighing, member: int, weight: int) -> _Point:
    weighing.weigh(member, weight)
    outcome = weighing.look()
    assert outcome is not None  # weights change what is best, not what is possible
    return _Point(weight, outcome, outcome.over[member])


def _bracket(weighing: Weighing, member: int, outcome: Outcome) -> tuple[_Point, _Point]:
    """Two weights between which the least bound lies: the member falls short, and does not."""
    here = _Point(weighing.weights[member], outcome, outcome.over[member])
    if here.slope >= 0:
        return _at(weighing, member, 0), here
    low, step = here, UNIT // 8
    while True:
        high = _at(weighing, member, low.weight + step)
        if high.slope >= 0 or high.weight > _GREATEST:
            return low, high
        low, step = high, 2 * step


def _crossing(low: _Point, high: _Point) -> int:
    """The weight, strictly between, at which the lines of two points cross, rounded down."""
    meets = (high.line(0) - low.line(0)) // (low.slope - high.slope)
    return min(max(meets, low.weight + 1), high.weight - 1)
