"""Exchanges in halls of 2 to 40 people with 60 offers each, by both methods; nothing is asserted.

`python -m tests.bench swap` prints the table. The halls are invented: crops differ in how many
people have them, most have a few varieties of some. Seconds are of the processor, so that a busy
machine does not count; HiGHS may take 60 of the clock.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable
from random import Random
from typing import NamedTuple

from seedbox.science.exchange import Desire, Exchange, Hall, Stock
from seedbox.science.exchange_method import best_exchange
from seedbox.season.swapping.highs import exchange_by_highs

PEOPLE = (2, 5, 10, 20, 40)
OFFERS = 60
CROPS, VARIETIES = 80, 6
TOLERANCE = 1
SECONDS = 60.0
SEEDS = range(2, 6)


class Kind(NamedTuple):
    """A kind of hall: portions an offer holds, wishes a person has, share for any variety."""

    name: str
    portions: int
    wishes: int
    any_variety: float


KINDS = (
    Kind("20 wishes, plenty offered", 5, 20, 0.5),
    Kind("60 wishes, single portions", 1, 60, 0.5),
    Kind("60 wishes, any variety will do", 5, 60, 1.0),
)

Crop = tuple[int, int]


class Row(NamedTuple):
    """One hall, what pairs and rings bring, and seconds and gap of both methods."""

    kind: Kind
    people: int
    own: Exchange
    own_seconds: float
    highs: Exchange | None
    highs_seconds: float


def hall(kind: Kind, people: int, seed: int = 1) -> Hall:
    """An invented hall; the same for the same seed."""
    random = Random(f"{kind.name} {people} {seed}")
    names = [f"grower {number:02}" for number in range(1, people + 1)]
    stocks: list[Stock] = []
    having: dict[Crop, set[str]] = {}
    for name in names:
        for number in range(OFFERS):
            stock = Stock(f"{name} offers {number:02}", name, random.randint(1, kind.portions))
            stocks.append(stock)
            having.setdefault(_crop(random), set()).add(stock.key)
    desires = [
        _desire(random, name, crop, having) for name in names for crop in _wanted(random, kind)
    ]
    return Hall(tuple(names), tuple(stocks), tuple(desires), TOLERANCE)


def _crop(random: Random) -> Crop:
    """A crop, the first ones more common, and one of its varieties."""
    crop = random.choices(range(CROPS), [1 / (1 + place / 15) for place in range(CROPS)])[0]
    return crop, min(int(random.expovariate(0.5)), VARIETIES - 1)


def _wanted(random: Random, kind: Kind) -> list[Crop]:
    """Wishes that all differ; variety -1 stands for any."""
    wanted: dict[Crop, None] = {}
    while len(wanted) < kind.wishes:
        crop, variety = _crop(random)
        wanted[crop, -1 if random.random() < kind.any_variety else variety] = None
    return list(wanted)


def _desire(random: Random, name: str, wanted: Crop, having: dict[Crop, set[str]]) -> Desire:
    crop, variety = wanted
    accepts = frozenset(
        key
        for had, keys in having.items()
        if had[0] == crop and variety in (-1, had[1])
        for key in keys
    )
    portions, worth = random.choice((1, 1, 1, 2, 2, 3)), random.randint(1, 5)
    return Desire(f"{name} wants {crop:02}/{variety}", name, accepts, portions, worth)


def measure(kind: Kind, people: int) -> Row:
    """Both methods on one hall, each from nothing."""
    asked = hall(kind, people)
    own, own_seconds = _timed(lambda: best_exchange(asked))
    highs, highs_seconds = _timed(lambda: exchange_by_highs(asked, SECONDS))
    assert own is not None
    return Row(kind, people, own, own_seconds, highs, highs_seconds)


def _timed(work: Callable[[], Exchange | None]) -> tuple[Exchange | None, float]:
    start = time.process_time()
    found = work()
    return found, time.process_time() - start


HEADINGS = ("people", "pairs", "rings", "more", "better off", "in swaps", "longest ring")
BY_METHOD = ("own s", "gap", "HiGHS s", "worth", "gap")
WIDTHS = (6, 7, 7, 7, 10, 8, 12, 8, 8, 8, 7, 8)


def written(row: Row) -> str:
    """A line of the table. `more` is by how much rings are worth more than pairs, `in swaps` the
    share of portions that two swap directly, `longest ring` the members of that."""
    own = row.own
    more = own.worth / own.pairs - 1 if own.pairs else 0.0
    better = sum(standing.better_off for standing in own.standings) / row.people
    longest = max((len(ring.transfers) for ring in own.rings if ring.closed), default=0)
    highs = (str(row.highs.worth), f"{row.highs.gap:.3%}") if row.highs else ("none", "")
    cells = (
        *(str(number) for number in (row.people, own.pairs, own.worth)),
        *(f"{share:.1%}" for share in (more, better, _in_swaps(own))),
        *(str(longest), f"{row.own_seconds:.2f}", f"{own.gap:.3%}"),
        *(f"{row.highs_seconds:.2f}", *highs),
    )
    return _line(cells)


def _line(cells: Iterable[str]) -> str:
    return " ".join(cell.rjust(width) for cell, width in zip(cells, WIDTHS, strict=True))


def _in_swaps(found: Exchange) -> float:
    moved = sum(line.portions for line in found.transfers)
    swaps = (ring for ring in found.rings if ring.closed and len(ring.transfers) == 2)
    return sum(2 * ring.portions for ring in swaps) / max(moved, 1)


def worst_of(kind: Kind, people: int) -> str:
    """How often the own method proves its answer best over several halls, and its worst gap."""
    found = [_timed(lambda seed=seed: best_exchange(hall(kind, people, seed))) for seed in SEEDS]
    proved = sum(one.proven_best for one, _ in found)
    gap, seconds = max(one.gap for one, _ in found), max(seconds for _, seconds in found)
    return (
        f"{kind.name}: {proved} of {len(found)} proved best, worst gap {gap:.3%},"
        f" slowest {seconds:.1f} s"
    )


def print_report() -> None:
    """The table, a hall a line, as they are measured."""
    print(f"{OFFERS} offers each, tolerance {TOLERANCE} portion; worth in points")
    for kind in KINDS:
        print(f"\n{kind.name}\n{_line((*HEADINGS, *BY_METHOD))}", flush=True)
        for people in PEOPLE:
            print(written(measure(kind, people)), flush=True)
    print(f"\nThe own method in {len(SEEDS)} more halls of {PEOPLE[-1]} people of each kind")
    for kind in KINDS:
        print(worst_of(kind, PEOPLE[-1]), flush=True)


if __name__ == "__main__":
    print_report()
