"""The best fair exchange by HiGHS, the solver that comes with scipy (the extra `swap`).

A mixed-integer program: portions received for each desire are whole, portions carried need not be,
since whole ways to carry whole portions always exist. HiGHS reckons with floating point, so its
answer is checked in whole numbers before it is told, and its bound is rounded up by a hair.

Source: Huangfu & Hall 2018, Mathematical Programming Computation 10:119-142 (HiGHS), from memory;
reached through `scipy.optimize.milp`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from importlib.util import find_spec
from math import floor, inf
from typing import Any

from seedbox.science.exchange import Exchange, Hall, Method
from seedbox.science.exchange_method import proposal
from seedbox.science.exchange_network import routes
from seedbox.science.exchange_numbered import NumberedHall, numbered
from seedbox.science.exchange_pairs import pairs_plan

USUAL_SECONDS = 30.0
_HAIR = 1e-3
_RELATIVE_HAIR = 1e-7


@dataclass(frozen=True, slots=True)
class _Row:
    """low <= sum of columns with their factors <= high."""

    terms: tuple[tuple[int, int], ...]
    low: float
    high: float


def installed() -> bool:
    """Whether scipy is there; does not load it."""
    return find_spec("scipy") is not None


def exchange_by_highs(
    hall: Hall, seconds: float = USUAL_SECONDS, at_least: int = 0
) -> Exchange | None:
    """The exchange of the greatest worth in which nobody is worse off than by pairs.

    Parameters: hall; seconds that HiGHS may take; at_least [points], the worth of a fair exchange
    that is known, below which it need not look.
    Returns: Exchange with HiGHS's bound, or None when it found nothing in its time. The same for
    the same hall in any order of its lists, unless time ran out.
    Raises: ImportError without scipy.
    """
    lists = numbered(hall)
    pairs = pairs_plan(lists)
    found = _solved(lists, pairs.worth, seconds, at_least)
    if found is None:
        return None
    received, bound = found
    return proposal(lists, pairs, received, bound, Method.HIGHS)


def _solved(
    hall: NumberedHall, floors: list[int], seconds: float, at_least: int
) -> tuple[list[int], int] | None:
    """Portions received for each desire, and the bound on the worth."""
    wishes = len(hall.desires)
    if not any(hall.sources):
        return [0] * wishes, 0
    links = _links(hall)
    rows = [*_rows(hall, links, floors), _worth_row(hall, range(wishes), at_least)]
    answer = _milp(hall, len(links), rows, seconds)
    if answer.x is None:
        return None
    received = [round(portions) for portions in answer.x[:wishes]]
    worths = hall.received_worth(received)
    if routes(hall, received) is None or any(
        worth < least for worth, least in zip(worths, floors, strict=True)
    ):
        return None
    return received, max(sum(worths), _rounded(-answer.mip_dual_bound))


def _rounded(bound: float) -> int:
    """The bound in whole points, never too low for want of digits."""
    return floor(bound + max(_HAIR, _RELATIVE_HAIR * abs(bound)))


def _links(hall: NumberedHall) -> list[tuple[int, int]]:
    """Which pool of stocks can go to which desire; a pool is all that one member has for
    the same desires."""
    pool_of = _pools(hall)
    return [
        (pool, desire)
        for desire, sources in enumerate(hall.sources)
        for pool in sorted({pool_of[stock] for stock in sources})
    ]


def _pools(hall: NumberedHall) -> list[int]:
    """The pool of each stock: the number of the first stock with the same giver and takers."""
    takers: list[list[int]] = [[] for _ in hall.stocks]
    for desire, sources in enumerate(hall.sources):
        for stock in sources:
            takers[stock].append(desire)
    first: dict[tuple[int, tuple[int, ...]], int] = {}
    return [
        first.setdefault((hall.giver[stock], tuple(to)), stock) for stock, to in enumerate(takers)
    ]


def _rows(hall: NumberedHall, links: list[tuple[int, int]], floors: list[int]) -> Iterator[_Row]:
    """Stock, wishes met by what is carried, balance, and fairness. Column d is desire d."""
    wishes = len(hall.desires)
    from_pool: dict[int, list[int]] = {}
    to_desire: list[list[int]] = [[] for _ in range(wishes)]
    given: list[list[int]] = [[] for _ in hall.members]
    for column, (pool, desire) in enumerate(links, start=wishes):
        from_pool.setdefault(pool, []).append(column)
        to_desire[desire].append(column)
        given[hall.giver[pool]].append(column)
    taken = _taken(hall)
    for pool, offered in _offered(hall).items():
        yield _Row(_all(from_pool.get(pool, [])), 0, offered)
    for desire, columns in enumerate(to_desire):
        yield _Row((*_all(columns), (desire, -1)), 0, 0)
    for member, desires in enumerate(taken):
        terms = (*_all(desires), *_all(given[member], -1))
        yield _Row(terms, -hall.tolerance, hall.tolerance)
        yield _worth_row(hall, desires, floors[member])


def _all(columns: list[int], factor: int = 1) -> tuple[tuple[int, int], ...]:
    return tuple((column, factor) for column in columns)


def _taken(hall: NumberedHall) -> list[list[int]]:
    """Desires of each member."""
    taken: list[list[int]] = [[] for _ in hall.members]
    for desire, receiver in enumerate(hall.receiver):
        taken[receiver].append(desire)
    return taken


def _offered(hall: NumberedHall) -> dict[int, int]:
    """Portions in each pool."""
    offered: dict[int, int] = {}
    for pool, portions in zip(_pools(hall), hall.offered, strict=True):
        offered[pool] = offered.get(pool, 0) + portions
    return offered


def _worth_row(hall: NumberedHall, desires: range | list[int], least: int) -> _Row:
    return _Row(tuple((desire, hall.worth[desire]) for desire in desires), least, inf)


def _milp(hall: NumberedHall, links: int, rows: list[_Row], seconds: float) -> Any:
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import coo_array

    wishes = len(hall.desires)
    at = [(row, column, factor) for row, one in enumerate(rows) for column, factor in one.terms]
    across, down, factors = (np.array(part) for part in zip(*at, strict=True))
    matrix = coo_array((factors.astype(float), (across, down)), (len(rows), wishes + links))
    most = np.concatenate([np.array(hall.wanted, float), np.full(links, np.inf)])
    return milp(
        np.concatenate([-np.array(hall.worth, float), np.zeros(links)]),
        integrality=np.concatenate([np.ones(wishes), np.zeros(links)]),
        bounds=Bounds(np.zeros(wishes + links), most),
        constraints=LinearConstraint(
            matrix.tocsr(), [row.low for row in rows], [row.high for row in rows]
        ),
        options={"time_limit": seconds, "mip_rel_gap": 0.0},
    )
