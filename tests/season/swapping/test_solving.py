"""HiGHS as a second solver: the same worth as the own method, checked the same, told by name."""

from __future__ import annotations

from random import Random

import pytest

from seedbox.science.exchange import Desire, Exchange, Hall, Method, Stock
from seedbox.science.exchange_method import best_exchange
from seedbox.season.swapping import highs, solving
from seedbox.season.swapping.highs import exchange_by_highs
from seedbox.season.swapping.solving import solve


def hall(seed: int, members: int = 5, offers: int = 4, wishes: int = 5) -> Hall:
    random = Random(seed)
    names = [f"member {n}" for n in range(members)]
    stocks = [
        Stock(f"{name} has {n}", name, random.randint(1, 3))
        for name in names
        for n in range(offers)
    ]
    keys = [stock.key for stock in stocks]
    desires = [
        Desire(
            f"{name} wants {n}",
            name,
            frozenset(random.sample(keys, 3)),
            random.randint(1, 3),
            random.randint(1, 5),
        )
        for name in names
        for n in range(wishes)
    ]
    return Hall(tuple(names), tuple(stocks), tuple(desires), seed % 3)


@pytest.mark.parametrize("seed", range(12))
def test_both_methods_find_the_same_worth(seed: int) -> None:
    # HiGHS is the oracle of the own method here, and the other way round.
    asked = hall(seed)
    own, other = best_exchange(asked), exchange_by_highs(asked)
    assert other is not None
    assert (own.worth, own.bound, own.pairs) == (other.worth, other.bound, other.pairs)
    assert (own.method, other.method) == (Method.OWN, Method.HIGHS)
    for found in (own, other):
        assert all(standing.worth >= standing.by_pairs for standing in found.standings)
        assert all(abs(standing.balance) <= asked.tolerance for standing in found.standings)


def test_the_order_of_the_lists_changes_nothing_for_highs_either() -> None:
    asked = hall(5)
    turned = Hall(asked.members[::-1], asked.stocks[::-1], asked.desires[::-1], asked.tolerance)
    assert exchange_by_highs(turned) == exchange_by_highs(asked)


def test_a_hall_without_wishes_needs_no_solver() -> None:
    found = exchange_by_highs(Hall(("Ada", "Ben"), (Stock("bean", "Ada", 1),), ()))
    assert found is not None
    assert (found.worth, found.bound, found.transfers) == (0, 0, ())


def test_what_the_own_method_proves_is_not_asked_again(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(solving, "exchange_by_highs", _must_not_be_asked)
    assert solve(hall(1)).method is Method.OWN


def test_highs_closes_what_the_own_method_leaves_open(monkeypatch: pytest.MonkeyPatch) -> None:
    asked = hall(2)
    best = best_exchange(asked)
    hasty = best_exchange(asked, most_effort=0)
    assert not hasty.proven_best
    monkeypatch.setattr(solving, "best_exchange", lambda asked: hasty)
    found = solve(asked)
    assert (found.worth, found.bound, found.method) == (best.worth, best.worth, Method.HIGHS)


def test_without_scipy_the_own_answer_stands(monkeypatch: pytest.MonkeyPatch) -> None:
    asked = hall(2)
    hasty = best_exchange(asked, most_effort=0)
    monkeypatch.setattr(solving, "best_exchange", lambda asked: hasty)
    monkeypatch.setattr(highs, "find_spec", lambda name: None)
    assert solve(asked) is hasty


def test_no_time_for_highs_leaves_the_own_answer() -> None:
    asked = hall(3, members=12, offers=12, wishes=20)
    assert exchange_by_highs(asked, seconds=0.0) is None
    assert solve(asked, Method.HIGHS, seconds=0.0).method is Method.OWN


def test_each_method_can_be_asked_for_by_name() -> None:
    assert solve(hall(4), Method.OWN).method is Method.OWN
    assert solve(hall(4), Method.HIGHS).method is Method.HIGHS


def _must_not_be_asked(*_: object, **__: object) -> Exchange:
    raise AssertionError("HiGHS was asked although nothing was open")
