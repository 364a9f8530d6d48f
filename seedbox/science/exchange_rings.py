"""Which portions go round together: transfers told as rings of give and take.

Between members a balanced exchange is made of rings: A gives to B, B to C, C to A. The shortest
rings are taken out first (two who swap, then three, and so on), of equal ones that through
the members who stand first by their keys. What is left within the tolerance goes round nowhere:
chains from one who gives more than they get to one who gets more.

Source: flow decomposition, Ahuja, Magnanti & Orlin 1993, Network Flows, theorem 3.5, from memory.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable
from dataclasses import replace

from seedbox.science.exchange import Ring, Transfer

_Lines = dict[str, dict[str, list[Transfer]]]


def rings_of(transfers: Iterable[Transfer]) -> tuple[Ring, ...]:
    """Every portion of the transfers in one ring or chain, the short rings first, chains last.

    >>> one = Transfer("bean", "wish 1", "Ada", "Ben", 2, 6)
    >>> back = Transfer("kale", "wish 2", "Ben", "Ada", 1, 5)
    >>> [(ring.portions, ring.closed, len(ring.transfers)) for ring in rings_of([one, back])]
    [(1, True, 2), (1, False, 1)]
    """
    lines = _by_giver(transfers)
    rings: list[Ring] = []
    for length in range(2, len(lines) + 1):
        for start in sorted(lines):
            while way := _way(lines, start, start, length):
                rings.append(_taken(lines, way, closed=True))
    while (first := _first_of_chain(lines)) is not None:
        rings.append(_taken(lines, _way(lines, first, None), closed=False))
    return tuple(rings)


def _by_giver(transfers: Iterable[Transfer]) -> _Lines:
    lines: _Lines = {}
    for transfer in sorted(transfers, key=lambda line: (line.stock, line.desire), reverse=True):
        lines.setdefault(transfer.giver, {}).setdefault(transfer.receiver, []).append(transfer)
    return lines


def _first_of_chain(lines: _Lines) -> str | None:
    """A member who still gives and to whom nobody gives, the first by key."""
    receivers = {receiver for to in lines.values() for receiver in to}
    return min((giver for giver in lines if giver not in receivers), default=None)


def _way(
    lines: _Lines, start: str, end: str | None, longest: int | None = None
) -> list[tuple[str, str]]:
    """The shortest way along transfers from start to end, or for None to one who gives nothing."""
    came: dict[str, str] = {}
    waiting = deque([(start, 0)])
    while waiting:
        giver, steps = waiting.popleft()
        if longest is not None and steps == longest:
            break
        for receiver in sorted(lines.get(giver, ())):
            if receiver == end or (end is None and receiver not in lines):
                return _traced(came, start, giver, receiver)
            if receiver not in came and receiver != start:
                came[receiver] = giver
                waiting.append((receiver, steps + 1))
    return []


def _traced(came: dict[str, str], start: str, giver: str, receiver: str) -> list[tuple[str, str]]:
    way = [(giver, receiver)]
    while giver != start:
        way.append((came[giver], giver))
        giver = came[giver]
    return way[::-1]


def _taken(lines: _Lines, way: list[tuple[str, str]], *, closed: bool) -> Ring:
    """The portions that can go along the whole way, taken out of the lines."""
    nexts = [lines[giver][receiver][-1] for giver, receiver in way]
    portions = min(line.portions for line in nexts)
    for line in nexts:
        _take(lines, line, portions)
    return Ring(tuple(_part(line, portions) for line in nexts), portions, closed)


def _take(lines: _Lines, line: Transfer, portions: int) -> None:
    to = lines[line.giver]
    between = to[line.receiver]
    between.pop()
    if line.portions > portions:
        between.append(_part(line, line.portions - portions))
    if not between:
        del to[line.receiver]
    if not to:
        del lines[line.giver]


def _part(line: Transfer, portions: int) -> Transfer:
    """So many portions of a transfer."""
    return replace(line, portions=portions, worth=line.worth // line.portions * portions)
