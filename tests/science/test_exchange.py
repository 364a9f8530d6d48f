"""The best exchange of a hall: by brute force, by a linear program, and what must always hold."""

from __future__ import annotations

import os
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from itertools import combinations
from random import Random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from seedbox.science.errors import OutOfRangeError
from seedbox.science.exchange import Desire, Exchange, Hall, HallError, Method, Stock
from seedbox.science.exchange_method import best_exchange
from seedbox.science.exchange_network import greatest_exchange, routes
from seedbox.science.exchange_numbered import numbered
from seedbox.science.exchange_pairs import pairs_plan

NAMES = ("Ada", "Ben", "Cy", "Dee")


@st.composite
def halls(draw: st.DrawFn, most_members: int = 4, most: int = 5, portions: int = 2) -> Hall:
    members = NAMES[: draw(st.integers(2, most_members))]
    stocks = [
        Stock(f"s{n}", draw(st.sampled_from(members)), draw(st.integers(0, portions)))
        for n in range(draw(st.integers(0, most)))
    ]
    keys = [stock.key for stock in stocks]
    desires = [
        Desire(
            f"d{n}",
            draw(st.sampled_from(members)),
            draw(st.frozensets(st.sampled_from(keys), max_size=3)) if keys else frozenset(),
            draw(st.integers(0, portions)),
            draw(st.integers(1, 5)),
        )
        for n in range(draw(st.integers(0, most)))
    ]
    return Hall(members, tuple(stocks), tuple(desires), draw(st.integers(0, 2)))


def crowded_hall(seed: int) -> Hall:
    """Few stocks that many want, in a hall small enough for an exhaustive search."""
    random = Random(seed)
    names = [f"member {n}" for n in range(random.randint(3, 5))]
    stocks = [
        Stock(f"s{n}", random.choice(names), random.randint(1, 2))
        for n in range(random.randint(3, 7))
    ]
    keys = [stock.key for stock in stocks]
    desires = [
        Desire(
            f"d{n}",
            random.choice(names),
            frozenset(random.sample(keys, random.randint(1, 3))),
            random.randint(1, 2),
            random.randint(1, 5),
        )
        for n in range(random.randint(3, 7))
    ]
    return Hall(tuple(names), tuple(stocks), tuple(desires), random.choice([0, 0, 1]))


def random_hall(
    seed: int, members: int, offers: int = 8, wishes: int = 6, tolerance: int = 1
) -> Hall:
    random = Random(seed)
    names = [f"member {n:02}" for n in range(members)]
    stocks, kinds = [], {}
    for name in names:
        for n in range(offers):
            stocks.append(Stock(f"{name} has {n}", name, random.randint(1, 4)))
            kinds.setdefault(random.randrange(12), set()).add(stocks[-1].key)
    desires = [
        Desire(
            f"{name} wants {n}",
            name,
            frozenset(random.choice(list(kinds.values()))),
            random.randint(1, 3),
            random.randint(1, 5),
        )
        for name in names
        for n in range(wishes)
    ]
    return Hall(tuple(names), tuple(stocks), tuple(desires), tolerance)


# --- an independent exhaustive search


def _links(hall: Hall) -> list[tuple[Stock, Desire]]:
    return [
        (stock, desire)
        for stock in hall.stocks
        for desire in hall.desires
        if stock.key in desire.accepts and stock.member != desire.member
    ]


def _every_way(
    links: list[tuple[Stock, Desire]], left: Counter[str], carried: tuple[int, ...] = ()
) -> Iterator[tuple[int, ...]]:
    """Every way to carry whole portions that keeps stock and wishes; balance is not looked at."""
    if len(carried) == len(links):
        yield carried
        return
    stock, desire = links[len(carried)]
    for portions in range(min(left[stock.key], left[desire.key]) + 1):
        left[stock.key] -= portions
        left[desire.key] -= portions
        yield from _every_way(links, left, (*carried, portions))
        left[stock.key] += portions
        left[desire.key] += portions


def exhaustive_best(hall: Hall, floors: dict[str, int]) -> int:
    """The greatest worth of a balanced exchange in which all reach their floors."""
    links = _links(hall)
    left = Counter({one.key: one.portions for one in (*hall.stocks, *hall.desires)})
    best = 0 if not any(floors.values()) else -1
    for carried in _every_way(links, left):
        worth, balance = Counter(), Counter()
        for (stock, desire), portions in zip(links, carried, strict=True):
            worth[desire.member] += portions * desire.worth
            balance[desire.member] += portions
            balance[stock.member] -= portions
        if all(abs(balance[member]) <= hall.tolerance for member in hall.members) and all(
            worth[member] >= floors.get(member, 0) for member in hall.members
        ):
            best = max(best, worth.total())
    return best


def by_pairs(found: Exchange) -> dict[str, int]:
    return {standing.member: standing.by_pairs for standing in found.standings}


@settings(max_examples=120, deadline=None)
@given(halls())
def test_small_halls_are_as_good_as_an_exhaustive_search(hall: Hall) -> None:
    found = best_exchange(hall)
    assert found.proven_best
    assert found.worth == exhaustive_best(hall, by_pairs(found))


# Of the first 6,385 such halls fairness costs something in 193. In the last three of these here
# weights alone leave the bound open, so that branches are needed.
@pytest.mark.parametrize("seed", [35, 152, 264, 336, 406, 490, 17676, 24132, 28655])
def test_where_fairness_costs_something_it_costs_no_more_than_it_must(seed: int) -> None:
    hall = crowded_hall(seed)
    found = best_exchange(hall)
    lists = numbered(hall)
    assert sum(lists.received_worth(greatest_exchange(lists))) > found.worth
    assert found.worth == found.bound == exhaustive_best(hall, by_pairs(found))


@settings(max_examples=60, deadline=None)
@given(halls(most_members=2))
def test_two_people_exchange_the_best_pairs(hall: Hall) -> None:
    found = best_exchange(hall)
    assert found.worth == found.pairs == exhaustive_best(hall, {})


@settings(max_examples=60, deadline=None)
@given(halls())
def test_the_pair_that_gains_most_exchanges_first(hall: Hall) -> None:
    # The plan by pairs begins with the best pair, so it is worth at least what that pair can do,
    # and nothing unless some pair can do something.
    alone = [exhaustive_best(_only(hall, pair), {}) for pair in combinations(hall.members, 2)]
    found = best_exchange(hall)
    assert max(alone) <= found.pairs <= sum(alone)


def _only(hall: Hall, members: tuple[str, ...]) -> Hall:
    stocks = tuple(stock for stock in hall.stocks if stock.member in members)
    keys = {stock.key for stock in stocks}
    desires = tuple(
        Desire(one.key, one.member, one.accepts & keys, one.portions, one.worth)
        for one in hall.desires
        if one.member in members
    )
    return Hall(members, stocks, desires, hall.tolerance)


@pytest.mark.parametrize("seed", range(6))
def test_the_greatest_circulation_is_that_of_a_linear_program(seed: int) -> None:
    # Oracle: scipy.optimize.linprog (HiGHS); the corners of a circulation are whole.
    hall = random_hall(seed, members=4 + 2 * seed, tolerance=seed % 3)
    lists = numbered(hall)
    worth = sum(lists.received_worth(greatest_exchange(lists)))
    assert worth == pytest.approx(_by_linear_program(hall), abs=1e-6)


def _by_linear_program(hall: Hall) -> float:
    links = _links(hall)
    rows, most = [], []
    for one in (*hall.stocks, *hall.desires):
        rows.append([float(one in link) for link in links])
        most.append(one.portions)
    for member in hall.members:
        row = [float(to.member == member) - float(of.member == member) for of, to in links]
        rows += [row, [-factor for factor in row]]
        most += [hall.tolerance, hall.tolerance]
    return -linprog([-to.worth for _, to in links], A_ub=np.array(rows), b_ub=most).fun


# --- what must hold of every exchange


@settings(max_examples=80, deadline=None)
@given(halls(most=8, portions=4))
def test_nothing_comes_from_nowhere(hall: Hall) -> None:
    check(hall, best_exchange(hall))


@pytest.mark.parametrize(("members", "tolerance"), [(3, 0), (6, 1), (9, 5), (12, 0), (14, 2)])
def test_nothing_comes_from_nowhere_in_larger_halls(members: int, tolerance: int) -> None:
    hall = random_hall(members, members, tolerance=tolerance)
    check(hall, best_exchange(hall))


def test_little_effort_still_gives_a_fair_exchange_and_says_how_far_the_best_may_be() -> None:
    hall = random_hall(3, 12, offers=10, wishes=20)
    hasty, best = best_exchange(hall, most_effort=0), best_exchange(hall)
    check(hall, hasty)
    assert hasty.pairs <= hasty.worth <= best.worth <= best.bound <= hasty.bound
    assert hasty.worth == hasty.pairs and not hasty.proven_best
    assert hasty.gap == pytest.approx(1 - hasty.worth / hasty.bound)


def check(hall: Hall, found: Exchange) -> None:
    stocks = {stock.key: stock for stock in hall.stocks}
    desires = {desire.key: desire for desire in hall.desires}
    given_out, taken_in, worth, balance = Counter(), Counter(), Counter(), Counter()
    for line in found.transfers:
        stock, desire = stocks[line.stock], desires[line.desire]
        assert line.portions >= 1 and isinstance(line.portions, int)
        assert (line.giver, line.receiver) == (stock.member, desire.member)
        assert stock.member != desire.member and stock.key in desire.accepts
        assert line.worth == line.portions * desire.worth
        given_out[line.stock] += line.portions
        taken_in[line.desire] += line.portions
        worth[line.receiver] += line.worth
        balance[line.receiver] += line.portions
        balance[line.giver] -= line.portions
    assert all(given_out[key] <= stock.portions for key, stock in stocks.items())
    assert all(taken_in[key] <= desire.portions for key, desire in desires.items())
    assert all(abs(balance[member]) <= hall.tolerance for member in hall.members)
    assert [standing.member for standing in found.standings] == sorted(hall.members)
    for standing in found.standings:
        assert standing.worth == worth[standing.member] >= standing.by_pairs
        assert standing.balance == balance[standing.member]
    assert found.pairs <= found.worth == worth.total() <= found.bound
    assert found.pairs == sum(standing.by_pairs for standing in found.standings)


@settings(max_examples=40, deadline=None)
@given(halls(most=7), st.randoms(use_true_random=False))
def test_the_order_of_the_lists_changes_nothing(hall: Hall, random: Random) -> None:
    members, stocks, desires = list(hall.members), list(hall.stocks), list(hall.desires)
    for entries in (members, stocks, desires):
        random.shuffle(entries)
    shuffled = Hall(tuple(members), tuple(stocks), tuple(desires), hall.tolerance)
    assert best_exchange(shuffled) == best_exchange(hall)


def test_the_seed_of_hashes_changes_nothing() -> None:
    program = (
        "from seedbox.science.exchange import *\n"
        "from seedbox.science.exchange_method import best_exchange\n"
        "names = tuple('ABCDEF')\n"
        "stocks = tuple(Stock(f'{n}{k}', n, 2) for n in names for k in range(3))\n"
        "desires = tuple(Desire(f'{n} {k}', n, frozenset(s.key for s in stocks if"
        " (ord(s.key[0]) * 7 + int(s.key[1]) * 5 + k) % 4 == 0), 2, 1 + k) for n in names"
        " for k in range(4))\n"
        "print(best_exchange(Hall(names, stocks, desires)))\n"
    )
    told = {
        subprocess.run(
            [sys.executable, "-c", program],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(told) == 1
    assert "portions=2" in told.pop()


# --- cases by hand


def want(member: str, *accepts: str, portions: int = 1, worth: int = 1) -> Desire:
    return Desire(
        f"{member} wants {' '.join(accepts)}", member, frozenset(accepts), portions, worth
    )


def have(member: str, key: str, portions: int = 1) -> Stock:
    return Stock(key, member, portions)


def test_nobody_is_left_behind_for_a_ring_that_is_worth_more() -> None:
    # Ada and Ben swap for 3 each. Ben, Cy and Dee would make a ring of 3 + 2 + 2 without Ada.
    hall = Hall(
        NAMES,
        (have("Ada", "bean"), have("Ben", "kale"), have("Cy", "leek"), have("Dee", "pea")),
        (
            want("Ada", "kale", worth=3),
            want("Ben", "bean", "pea", worth=3),
            want("Cy", "kale", worth=2),
            want("Dee", "leek", worth=2),
        ),
        tolerance=0,
    )
    lists = numbered(hall)
    assert sum(lists.received_worth(greatest_exchange(lists))) == 7
    found = best_exchange(hall)
    assert (found.worth, found.bound, found.pairs) == (6, 6, 6)
    assert {line.receiver for line in found.transfers} == {"Ada", "Ben"}


def test_where_pairs_are_as_good_as_rings_pairs_it_is() -> None:
    # Two swaps of two, or one ring of four: the same worth either way.
    stocks = tuple(have(name, name.lower(), 1) for name in NAMES)
    desires = (
        want("Ada", "ben", "dee"),
        want("Ben", "ada"),
        want("Cy", "dee", "ben"),
        want("Dee", "cy"),
    )
    found = best_exchange(Hall(NAMES, stocks, desires, tolerance=0))
    assert [len(ring.transfers) for ring in found.rings] == [2, 2]


def test_the_tolerance_lets_one_give_more_than_they_get() -> None:
    stocks, desires = (have("Ada", "bean", 5),), (want("Ben", "bean", portions=9, worth=2),)
    gifts = [
        best_exchange(Hall(("Ada", "Ben"), stocks, desires, tolerance)).worth
        for tolerance in (0, 1, 3, 20)
    ]
    assert gifts == [0, 2, 6, 10]


def test_balance_is_left_uneven_only_where_that_earns_something() -> None:
    stocks = (have("Ada", "bean", 3), have("Ben", "kale", 3))
    desires = (want("Ada", "kale", portions=2), want("Ben", "bean", portions=2))
    found = best_exchange(Hall(("Ada", "Ben"), stocks, desires, tolerance=2))
    assert [standing.balance for standing in found.standings] == [0, 0]


@pytest.mark.parametrize(
    "hall",
    [
        Hall((), (), ()),
        Hall(("Ada",), (have("Ada", "bean"),), (want("Ada", "bean"),), 5),
        Hall(("Ada", "Ben"), (), (want("Ben"),)),
        Hall(("Ada", "Ben"), (have("Ada", "bean"),), ()),
        Hall(("Ada", "Ben"), (have("Ada", "bean", 0),), (want("Ben", "bean"),)),
        Hall(("Ada", "Ben"), (have("Ada", "bean"),), (want("Ben", "bean", portions=0),)),
    ],
    ids=["nobody", "alone", "nothing offered", "nothing wanted", "none left", "none asked for"],
)
def test_where_nothing_can_be_exchanged_nothing_is(hall: Hall) -> None:
    found = best_exchange(hall)
    assert (found.transfers, found.rings, found.worth, found.bound) == ((), (), 0, 0)
    assert found.proven_best and found.gap == 0.0 and found.method is Method.OWN
    assert len(found.standings) == len(hall.members)


def test_large_numbers_of_portions_take_no_longer() -> None:
    many = 1_000_000
    stocks = tuple(have(name, name.lower(), many) for name in NAMES)
    desires = tuple(
        want(name, *(other.lower() for other in NAMES if other != name), portions=many, worth=1000)
        for name in NAMES
    )
    hall = Hall(NAMES, stocks, desires, tolerance=0)
    found = best_exchange(hall)
    check(hall, found)
    assert found.worth == 4 * 1000 * many


@pytest.mark.parametrize(
    ("stocks", "desires", "sentence"),
    [
        ((have("Eve", "bean"),), (), "bean names member Eve, which is not in the hall"),
        ((), (want("Eve"),), "Eve wants  names member Eve, which is not in the hall"),
        ((), (want("Ada", "pea"),), "Ada wants pea names stock pea, which is not in the hall"),
        ((have("Ada", "pea"), have("Ben", "pea")), (), "stock pea stands in the hall twice"),
        ((), (want("Ada"), want("Ada")), "desire Ada wants  stands in the hall twice"),
    ],
)
def test_a_hall_that_contradicts_itself_is_refused(
    stocks: tuple[Stock, ...], desires: tuple[Desire, ...], sentence: str
) -> None:
    with pytest.raises(HallError, match=f"^{sentence}$"):
        Hall(("Ada", "Ben"), stocks, desires)


def test_portions_and_worth_have_a_range() -> None:
    with pytest.raises(OutOfRangeError, match="portions of bean is -1"):
        have("Ada", "bean", -1)
    with pytest.raises(OutOfRangeError, match="worth of"):
        want("Ada", worth=0)
    with pytest.raises(OutOfRangeError, match="tolerance"):
        Hall((), (), (), -1)


def test_swap_by_swap_counts_where_it_is_worth_more_than_pair_by_pair() -> None:
    # Pair by pair Ada and Ben go first, two swaps worth 3 + 3 and 1 + 1, which leaves Cy nothing
    # of Ben's. Swap by swap Ben's kale goes to Cy, for 3 + 3, instead of for 1 + 1 to Ada.
    hall = Hall(
        ("Ada", "Ben", "Cy"),
        (
            *(have("Ada", key) for key in ("bean", "chard")),
            *(have("Ben", key) for key in ("leek", "kale")),
            have("Cy", "pea"),
        ),
        (
            want("Ada", "leek", worth=3),
            want("Ada", "kale", worth=1),
            want("Ben", "bean", worth=3),
            want("Ben", "chard", worth=1),
            want("Ben", "pea", worth=3),
            want("Cy", "kale", worth=3),
        ),
        tolerance=0,
    )
    found = best_exchange(hall)
    assert (found.pairs, found.worth) == (12, 12)
    assert {line.receiver: line.stock for line in found.transfers}["Cy"] == "kale"


@pytest.mark.parametrize("seed", range(4))
def test_what_pairs_would_exchange_is_kept_where_it_serves_as_well(seed: int) -> None:
    lists = numbered(random_hall(seed, 8))
    pairs = pairs_plan(lists).carried
    received = greatest_exchange(lists)
    plain, kept = routes(lists, received), routes(lists, received, pairs)
    assert plain is not None and kept is not None
    assert sum(plain.values()) == sum(kept.values()) == sum(received)

    def in_pairs(carried: dict[tuple[int, int], int]) -> int:
        return sum(portions for link, portions in carried.items() if link in pairs)

    assert in_pairs(kept) > in_pairs(plain)
