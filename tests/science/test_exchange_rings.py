"""Rings: every portion in one, the short ones first, and nothing but chains left over."""

from __future__ import annotations

from collections import Counter
from random import Random

from hypothesis import given
from hypothesis import strategies as st

from seedbox.science.exchange import Ring, Transfer
from seedbox.science.exchange_rings import rings_of

NAMES = "ABCDE"


def line(giver: str, receiver: str, portions: int = 1, number: int = 0) -> Transfer:
    return Transfer(
        f"{giver}{number}",
        f"{receiver} wants {giver}{number}",
        giver,
        receiver,
        portions,
        3 * portions,
    )


@st.composite
def exchanges(draw: st.DrawFn) -> list[Transfer]:
    """Any transfers between different people, balanced or not."""
    return [
        line(giver, receiver, draw(st.integers(1, 4)), number)
        for number in range(draw(st.integers(0, 12)))
        for giver, receiver in [draw(st.permutations(NAMES))[:2]]
    ]


def members(ring: Ring) -> list[str]:
    return [transfer.giver for transfer in ring.transfers]


@given(exchanges())
def test_every_portion_goes_round_once(transfers: list[Transfer]) -> None:
    told: Counter[tuple[str, str]] = Counter()
    worth: Counter[tuple[str, str]] = Counter()
    for ring in rings_of(transfers):
        for part in ring.transfers:
            assert part.portions == ring.portions >= 1
            told[part.stock, part.desire] += part.portions
            worth[part.stock, part.desire] += part.worth
    assert told == {(one.stock, one.desire): one.portions for one in transfers}
    assert worth == {(one.stock, one.desire): one.worth for one in transfers}


@given(exchanges())
def test_each_receiver_is_the_next_giver(transfers: list[Transfer]) -> None:
    for ring in rings_of(transfers):
        assert len(set(members(ring))) == len(ring.transfers)
        for one, following in zip(ring.transfers, ring.transfers[1:], strict=False):
            assert one.receiver == following.giver
        assert ring.closed == (ring.transfers[-1].receiver == ring.transfers[0].giver)


@given(exchanges())
def test_chains_are_only_what_is_out_of_balance(transfers: list[Transfer]) -> None:
    balance: Counter[str] = Counter()
    for one in transfers:
        balance[one.receiver] += one.portions
        balance[one.giver] -= one.portions
    rings = rings_of(transfers)
    chains = [ring for ring in rings if not ring.closed]
    assert [ring.closed for ring in rings] == sorted((ring.closed for ring in rings), reverse=True)
    ends: Counter[str] = Counter()
    for chain in chains:
        ends[chain.transfers[-1].receiver] += chain.portions
        ends[chain.transfers[0].giver] -= chain.portions
    assert {name: ends[name] for name in NAMES} == {name: balance[name] for name in NAMES}
    assert not _ways_round([part for chain in chains for part in chain.transfers])


def _ways_round(transfers: list[Transfer]) -> bool:
    """Whether there is a cycle: people who only give or only receive are struck out in turn."""
    left = {(one.giver, one.receiver) for one in transfers}
    while left:
        inner = {giver for giver, _ in left} & {receiver for _, receiver in left}
        kept = {way for way in left if set(way) <= inner}
        if kept == left:
            return True
        left = kept
    return False


@given(exchanges(), st.randoms(use_true_random=False))
def test_the_order_of_the_transfers_changes_nothing(
    transfers: list[Transfer], random: Random
) -> None:
    shuffled = transfers[:]
    random.shuffle(shuffled)
    assert rings_of(shuffled) == rings_of(transfers)


def test_those_who_swap_come_before_those_who_go_round() -> None:
    # A and B swap one portion; A's second goes round by way of B and C.
    rings = rings_of([line("A", "B", 2), line("B", "A"), line("B", "C"), line("C", "A")])
    assert [(members(ring), ring.portions, ring.closed) for ring in rings] == [
        (["A", "B"], 1, True),
        (["A", "B", "C"], 1, True),
    ]


def test_one_large_ring_and_the_gift_beside_it() -> None:
    rings = rings_of(
        [*(line(a, b, 5) for a, b in zip(NAMES, "BCDEA", strict=True)), line("C", "E", 2, number=1)]
    )
    assert [(members(ring), ring.portions, ring.closed) for ring in rings] == [
        (["A", "B", "C", "E"], 2, True),
        (["A", "B", "C", "D", "E"], 3, True),
        (["C", "D"], 2, False),
    ]


def test_no_transfers_no_rings() -> None:
    assert rings_of([]) == ()
