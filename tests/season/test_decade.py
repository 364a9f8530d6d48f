"""The simulated decade keeps its books, and each strategy meets the same packets and luck."""

from __future__ import annotations

import pytest

from tests.bench.accuracy_decade import TRUTHS, YEARS, gardens
from tests.bench.accuracy_strategies import COUNTED, PLAIN, RULES_OF_THUMB, Strategy

STRATEGIES = (*PLAIN, *COUNTED, *RULES_OF_THUMB)


@pytest.mark.parametrize("strategy", STRATEGIES)
@pytest.mark.parametrize("truth", TRUTHS[:2])
def test_every_seed_is_somewhere(strategy: Strategy, truth: object) -> None:
    """Arithmetic: sown, tested, thrown away and left make up what was bought."""
    for garden in gardens(truth, 3)[:4]:  # type: ignore[arg-type]
        for _ in range(YEARS):
            strategy.act(garden)
            tally = garden.tally
            spent = tally.sown + tally.tested + tally.thrown
            assert spent + garden.lot.left == garden.seeds_bought
            assert garden.lot.left >= 0
        assert tally.wanted >= tally.short


def test_all_strategies_face_the_same_packets_and_luck() -> None:
    """Whatever happened before, the packet bought in a year and its luck are the same."""
    ends = []
    for strategy in STRATEGIES:
        garden = gardens(TRUTHS[1], 5)[0]
        first = (garden.lot.viability, garden.lot.rate)
        for _ in range(6):
            strategy.act(garden)
        garden.replace()
        bought = (garden.lot.viability, garden.lot.rate)
        alive = garden.test(30)
        ends.append((first, bought, alive))
    assert len(set(ends)) == 1
    assert ends[0][0] != ends[0][1]


def test_another_grower_has_other_packets() -> None:
    one, other = (gardens(TRUTHS[0], grower)[0].lot.viability for grower in (1, 2))
    assert one != other
