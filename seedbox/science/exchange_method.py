"""The best exchange of a hall, whole: who gives what to whom, how good it is, why.

Steps: what pairs would do (the measure of fairness); the exchange of the greatest worth that
leaves nobody below that, with a bound; the way in which its portions are brought, by what pairs
would exchange wherever that serves as well; its rings.
"""

from __future__ import annotations

from collections.abc import Iterable

from seedbox.science.exchange import Exchange, Hall, Method, Standing, Transfer
from seedbox.science.exchange_branching import USUAL_EFFORT, fairest
from seedbox.science.exchange_network import Carried, routes
from seedbox.science.exchange_numbered import NumberedHall, numbered
from seedbox.science.exchange_pairs import PairsPlan, pairs_plan
from seedbox.science.exchange_rings import rings_of


def best_exchange(hall: Hall, most_effort: int = USUAL_EFFORT) -> Exchange:
    """The exchange of the greatest total worth in which nobody is worse off than by pairs.

    Every member gives and receives equally many portions but for the tolerance, nobody gives to
    themselves, no stock gives more than it holds, no desire gets more than it asks.

    Parameters: hall; most_effort [arcs looked at], work after which it stops with what it has.
    Returns: Exchange; `proven_best` where the worth meets the bound, else the gap says how much
    may be missing. The same for the same hall, however its lists are ordered; of several best
    exchanges, pairs where pairs are as good, and else the one that the method meets first.

    >>> from seedbox.science.exchange import Desire, Stock
    >>> stocks = tuple(Stock(f"{name}'s", name, 1) for name in ("Ada", "Ben", "Cy"))
    >>> wants = (("Ada", "Cy"), ("Ben", "Ada"), ("Cy", "Ben"))
    >>> desires = tuple(Desire(f"{a}<{b}", a, frozenset({f"{b}'s"}), 1, 3) for a, b in wants)
    >>> best = best_exchange(Hall(("Ada", "Ben", "Cy"), stocks, desires, tolerance=0))
    >>> best.worth, best.bound, best.pairs, [line.receiver for line in best.rings[0].transfers]
    (9, 9, 0, ['Ben', 'Cy', 'Ada'])

    Source: see the modules `exchange_network`, `exchange_weighing` and `exchange_branching`.
    """
    lists = numbered(hall)
    pairs = pairs_plan(lists)
    found = fairest(lists, pairs.worth, pairs.received, most_effort)
    return proposal(lists, pairs, found.received, found.bound, Method.OWN)


def proposal(
    hall: NumberedHall, pairs: PairsPlan, received: list[int], bound: int, method: Method
) -> Exchange:
    """The exchange that brings so many portions for each desire.

    Raises: ValueError if no exchange of the hall brings them.
    """
    carried = pairs.carried if received == pairs.received else routes(hall, received, pairs.carried)
    if carried is None:
        raise ValueError("no exchange of this hall brings these portions")
    transfers = _transfers(hall, carried)
    return Exchange(
        transfers=transfers,
        standings=tuple(_standings(hall, transfers, pairs)),
        rings=rings_of(transfers),
        worth=sum(transfer.worth for transfer in transfers),
        bound=bound,
        pairs=sum(pairs.worth),
        method=method,
    )


def _transfers(hall: NumberedHall, carried: Carried) -> tuple[Transfer, ...]:
    return tuple(
        Transfer(
            stock=hall.stocks[stock],
            desire=hall.desires[desire],
            giver=hall.members[hall.giver[stock]],
            receiver=hall.members[hall.receiver[desire]],
            portions=portions,
            worth=portions * hall.worth[desire],
        )
        for (stock, desire), portions in sorted(carried.items())
    )


def _standings(
    hall: NumberedHall, transfers: tuple[Transfer, ...], pairs: PairsPlan
) -> Iterable[Standing]:
    for member, by_pairs in zip(hall.members, pairs.worth, strict=True):
        given = [line for line in transfers if line.giver == member]
        received = [line for line in transfers if line.receiver == member]
        yield Standing(
            member=member,
            gives=sum(line.portions for line in given),
            receives=sum(line.portions for line in received),
            worth=sum(line.worth for line in received),
            by_pairs=by_pairs,
        )
