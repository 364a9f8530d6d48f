"""The best fair exchange by branch and bound: bounds from weights, branches on single wishes.

Where the bound stays above the best fair exchange known, one wish is split: at most so many
portions of it, or more. Before that, every wish is held to the portions that can still be
better, by what a portion more or less would cost the bound (reduced-cost fixing). On small halls it
ends with a proof; elsewhere it ends with its effort, and the greatest open bound is what is told.

Source: Land & Doig 1960, Econometrica 28:497-520 (branch and bound), from memory; the rest is
Seedbox's own.
"""

from __future__ import annotations

from dataclasses import dataclass

from seedbox.science.exchange_numbered import NumberedHall
from seedbox.science.exchange_weighing import UNIT, Outcome, Weighing, least_bound, make_fair

USUAL_EFFORT = 80_000_000  # arcs looked at: about ten seconds of one core


@dataclass(frozen=True, slots=True)
class Fairest:
    """Portions `received` for each desire, their `worth`, and a `bound` on any fair exchange."""

    received: list[int]
    worth: int
    bound: int


@dataclass(frozen=True, slots=True)
class _Branch:
    """Portions between which each desire is held, a bound known before, weights to begin with."""

    least: list[int]
    most: list[int]
    bound: int
    weights: list[int]


def fairest(
    hall: NumberedHall, floors: list[int], received: list[int], most_effort: int = USUAL_EFFORT
) -> Fairest:
    """The exchange of the greatest worth in which nobody receives less than their floor.

    Parameters: hall; floors [points] by member; received, portions by desire of an exchange that
    keeps the floors; most_effort [arcs looked at].
    Returns: Fairest; proved best where worth and bound are the same.
    """
    weighing = Weighing(hall, floors, received)
    wishes = len(hall.desires)
    everything = sum(w * n for w, n in zip(hall.worth, hall.wanted, strict=True))
    open_branches = [_Branch([0] * wishes, list(hall.wanted), everything, weighing.weights[:])]
    given_up = 0
    while open_branches:
        branch = open_branches.pop()
        if weighing.effort >= most_effort:
            given_up = max(given_up, branch.bound)
        elif branch.bound > weighing.worth:
            open_branches += _explored(weighing, branch, most_effort)
    return Fairest(weighing.received, weighing.worth, max(weighing.worth, given_up))


def _explored(weighing: Weighing, branch: _Branch, most_effort: int) -> list[_Branch]:
    """What is left of the branch to explore, the more promising half last."""
    for desire, (least, most) in enumerate(zip(branch.least, branch.most, strict=True)):
        weighing.network.hold(desire, least, most)
    weighing.weigh_all(branch.weights)
    outcome = least_bound(weighing, most_effort)
    if outcome is None:
        return []
    weighing.mend(outcome)
    if min(outcome.bound, branch.bound) <= weighing.worth:
        return []
    weights = weighing.weights[:]
    make_fair(weighing, outcome)
    weighing.weigh_all(weights)
    settled = weighing.look()
    if settled is None or min(settled.bound, branch.bound) <= weighing.worth:
        return []
    return _halves(weighing, _held(weighing, branch, settled), settled)


def _held(weighing: Weighing, branch: _Branch, outcome: Outcome) -> _Branch:
    """The branch without portions that would cost the bound all it has above the best known."""
    to_spare = outcome.weighed - (weighing.worth + 1) * UNIT
    least, most = branch.least[:], branch.most[:]
    for desire, portions in enumerate(outcome.received):
        regret = weighing.network.regret(desire)
        if regret > 0:
            most[desire] = min(most[desire], portions + to_spare // regret)
        elif regret < 0:
            least[desire] = max(least[desire], portions - to_spare // -regret)
    return _Branch(least, most, min(branch.bound, outcome.bound), weighing.weights[:])


def _halves(weighing: Weighing, branch: _Branch, outcome: Outcome) -> list[_Branch]:
    """The branch split at one wish that is still open, or nothing if none is."""
    desire = _to_split(weighing, branch, outcome)
    if desire is None:
        return []
    at = min(outcome.received[desire], branch.most[desire] - 1)
    fewer, more = branch.most[:], branch.least[:]
    fewer[desire], more[desire] = at, at + 1
    below = _Branch(branch.least, fewer, branch.bound, branch.weights)
    above = _Branch(more, branch.most, branch.bound, branch.weights)
    return [below, above]


def _to_split(weighing: Weighing, branch: _Branch, outcome: Outcome) -> int | None:
    """An open wish of the member furthest from their floor, the dearest, then the first."""
    hall = weighing.hall
    still_open = [
        desire
        for desire, (least, most) in enumerate(zip(branch.least, branch.most, strict=True))
        if least < most
    ]

    def urgency(desire: int) -> tuple[bool, int, int]:
        over = outcome.over[hall.receiver[desire]]
        weighted = over < 0 or weighing.weights[hall.receiver[desire]] > 0
        return weighted and over != 0, hall.worth[desire], -desire

    return max(still_open, key=urgency, default=None)
