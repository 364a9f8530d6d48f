"""Whose offer serves whose want, and the sentences that explain a proposal."""

from __future__ import annotations

from collections import Counter
from datetime import date
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seedbox.errors import BadDataError
from seedbox.science.exchange import Exchange, Hall, Method, Ring, Standing
from seedbox.science.exchange import Transfer as Move
from seedbox.season.swapping.explaining import told
from seedbox.season.swapping.matching import distinct_names, gather, match, serves
from seedbox.season.swapping.records import UNNAMED, Offer, Proposal, SwapList, Wish

TODAY = date(2027, 2, 20)


def _offer(crop: str, variety: str = "", portions: int = 2, *, crop_id: str | None = None) -> Offer:
    return Offer("", crop, crop if crop_id is None else crop_id, variety, portions, 30)


def _wish(crop: str, variety: str = "", portions: int = 1, worth: int = 3) -> Wish:
    return Wish(crop, crop, variety, portions, worth)


@pytest.mark.parametrize(
    ("offer", "wish", "fits"),
    [
        (_offer("zucchini", crop_id="courgette"), _wish("courgette"), True),
        (_offer("leek", "Grey Mast"), _wish("leek"), True),
        (_offer("leek", "Grey Mast"), _wish("leek", "grey  mast"), True),
        (_offer("leek", "‘Früher Kahn’"), _wish("leek", "Fruher Kahn"), True),
        (_offer("leek", "Grey Mast"), _wish("leek", "Long Hill"), False),
        (_offer("leek", ""), _wish("leek", "Grey Mast"), False),
        (_offer("kale"), _wish("leek"), False),
        (_offer("Sea  Kale", crop_id=""), Wish("sea kale", "", "", 1), True),
        (_offer("Sea kale", crop_id=""), _wish("kale"), False),
    ],
)
def test_an_offer_serves_a_want_of_its_crop_and_variety(
    offer: Offer, wish: Wish, fits: bool
) -> None:
    assert serves(offer, wish) is fits


def test_a_hall_holds_every_offer_and_want_once_under_keys_of_their_own() -> None:
    twice = (_offer("leek", "Grey Mast"), _offer("leek", "Grey Mast", 5))
    lists = (
        SwapList("Maud", twice, (_wish("kale"),)),
        SwapList("Iestyn", (_offer("kale"),), (_wish("leek", portions=3, worth=5),)),
    )
    hall = gather(lists, 2).hall
    assert hall.members == ("Maud", "Iestyn") and hall.tolerance == 2
    assert sorted(stock.portions for stock in hall.stocks) == [2, 2, 5]
    assert len({stock.key for stock in hall.stocks}) == 3
    leek = next(one for one in hall.desires if one.member == "Iestyn")
    assert (len(leek.accepts), leek.portions, leek.worth) == (2, 3, 5)


def test_the_keys_do_not_depend_on_the_order_of_the_lists() -> None:
    one = SwapList("Maud", (_offer("leek"), _offer("kale")), (_wish("pea_garden"),))
    other = SwapList("Ida", (_offer("pea_garden"),), (_wish("leek"),))
    turned = SwapList("Maud", one.offers[::-1], one.wishes)
    first, second = gather((one, other), 1).hall, gather((other, turned), 1).hall
    assert set(first.stocks) == set(second.stocks)
    assert set(first.desires) == set(second.desires)


def test_people_of_one_name_are_told_apart() -> None:
    names = [one.name for one in distinct_names([SwapList("Maud"), SwapList("maud"), SwapList("")])]
    assert names == ["Maud", "maud (2)", "a list"]


@pytest.mark.parametrize("count", [0, 1, 201])
def test_too_few_and_too_many_lists_are_refused(count: int) -> None:
    with pytest.raises(BadDataError, match="2 to 200 lists"):
        match([SwapList(str(at)) for at in range(count)], 1, TODAY)


def test_a_packet_that_two_lists_offer_is_not_given_away_twice() -> None:
    offer = Offer("P1G1D22F", "leek", "leek", "", 2, 30)
    with pytest.raises(BadDataError, match="both offer the packet P1G1 D22F"):
        match([SwapList("Maud", (offer,)), SwapList("maud.csv", (offer,))], 1, TODAY)
    numbered = Offer("12", "leek", "leek", "", 2, 30)  # two people may both count their packets
    lists = [SwapList("Maud", (numbered,)), SwapList("Ida", (numbered,))]
    assert not match(lists, 1, TODAY, solve=_nothing).transfers


def _nothing(hall: Hall) -> Exchange:
    standings = tuple(Standing(name, 0, 0, 0, 0) for name in hall.members)
    return Exchange((), standings, (), 0, 0, 0)


def _ring_of_three(hall: Hall, first: str = "Maud") -> Exchange:
    """The one exchange of the hall below, told by hand."""
    stock = {one.member: one.key for one in hall.stocks}
    desire = {one.member: one.key for one in hall.desires}
    moves = tuple(
        Move(stock[giver], desire[taker], giver, taker, 1, 4)
        for giver, taker in ((first, "Ida"), ("Ida", "Iestyn"), ("Iestyn", first))
    )
    standings = tuple(Standing(name, 1, 1, 4, 0) for name in hall.members)
    return Exchange(moves, standings, (Ring(moves, 1, closed=True),), 12, 12, 0, Method.OWN)


_THREE = (
    SwapList("Maud", (_offer("leek", "Grey Mast"),), (_wish("pea_garden", worth=4),)),
    SwapList("Iestyn", (_offer("pea_garden"),), (_wish("kale", worth=4),)),
    SwapList("Ida", (_offer("kale"),), (_wish("leek", worth=4),)),
)


def test_each_line_says_who_wants_it_and_what_its_giver_gets() -> None:
    proposal = match(_THREE, 1, TODAY, solve=_ring_of_three)
    said = {(one.giver, one.receiver): told(one, proposal.names, 0) for one in proposal.transfers}
    assert said[0, 2] == (
        "You give leek Grey Mast to Ida and get pea_garden from Iestyn,"
        " because Ida wants any leek (worth 4 of 5)."
    )
    assert said[1, 0] == (
        "Iestyn gives pea_garden to you and gets kale from Ida,"
        " because you want any pea_garden (worth 4 of 5)."
    )
    # Iestyn is told the same line as his; kept for all of them it is told by names.
    one = next(one for one in proposal.transfers if one.giver == 1)
    assert told(one, proposal.names, 1).startswith("You give pea_garden to Maud and get kale from")
    assert (
        one.why
        == told(one, proposal.names)
        == (
            "Iestyn gives pea_garden to Maud and gets kale from Ida,"
            " because Maud wants any pea_garden (worth 4 of 5)."
        )
    )
    assert proposal.method == "Seedbox’s own method; proved best"
    assert (proposal.worth, proposal.bound) == (12, 12)
    assert [one.name for one in proposal.balances] == ["Maud", "Iestyn", "Ida"]


def test_nobody_is_called_you_but_the_reader() -> None:
    """Whoever keeps a proposal without a name goes by “you”, which others are not told."""
    lists = (SwapList(UNNAMED, _THREE[0].offers, _THREE[0].wishes), *_THREE[1:])
    proposal = match(lists, 1, TODAY, solve=lambda hall: _ring_of_three(hall, UNNAMED))
    first, middle, last = proposal.transfers
    assert first.why.startswith("Somebody unnamed gives leek Grey Mast to Ida and gets")
    for one in proposal.transfers:
        assert "you" not in one.why.casefold().split()
        for reader in range(3):
            said = told(one, proposal.names, reader).casefold().split()
            assert ("you" in said) or reader not in (one.giver, one.receiver)
    assert "to somebody unnamed and get kale" in told(middle, proposal.names, 1)
    assert told(last, proposal.names, 1) == (
        "Ida gives kale to you and gets leek Grey Mast from somebody unnamed,"
        " because you want any kale (worth 4 of 5)."
    )


def test_a_gift_within_the_tolerance_says_that_nothing_comes_back() -> None:
    def gift(hall: Hall) -> Exchange:
        whole = _ring_of_three(hall)
        move = whole.transfers[0]
        standings = tuple(Standing(name, 0, 0, 0, 0) for name in hall.members)
        return Exchange((move,), standings, (Ring((move,), 1, closed=False),), 4, 5, 0)

    proposal = match(_THREE, 1, TODAY, solve=gift)
    assert proposal.transfers[0].why == (
        "Maud gives leek Grey Mast to Ida, because Ida wants any leek (worth 4 of 5);"
        " Maud takes nothing back for it, within the tolerance."
    )
    assert "at most 20.0 % below the best" in proposal.method


CROPS = st.sampled_from(("leek", "kale", "pea_garden", "Sea kale"))
VARIETIES = st.sampled_from(("", "Grey Mast", "Long Hill"))


@st.composite
def _halls(draw: st.DrawFn) -> list[SwapList]:
    def known(crop: str) -> str:
        return "" if crop == "Sea kale" else crop

    lists = []
    for number in range(draw(st.integers(2, 5))):
        offers = [
            Offer("", crop, known(crop), variety, portions, 30)
            for crop, variety, portions in draw(
                st.lists(st.tuples(CROPS, VARIETIES, st.integers(1, 4)), max_size=3)
            )
        ]
        wishes = [
            Wish(crop, known(crop), variety, portions, worth)
            for crop, variety, portions, worth in draw(
                st.lists(
                    st.tuples(CROPS, VARIETIES, st.integers(1, 3), st.integers(1, 5)), max_size=3
                )
            )
        ]
        lists.append(SwapList(f"list {number}", tuple(offers), tuple(wishes)))
    return lists


@settings(max_examples=30, deadline=None)
@given(_halls(), st.integers(0, 2), st.randoms(use_true_random=False))
def test_no_portion_comes_from_nowhere_and_the_order_of_lists_does_not_matter(
    lists: list[SwapList], tolerance: int, chance: Random
) -> None:
    proposal = match(lists, tolerance, TODAY)
    given_away: Counter[tuple[int, Offer]] = Counter()
    got: Counter[tuple[int, Wish]] = Counter()
    for one in proposal.transfers:
        assert one.giver != one.receiver and one.portions > 0
        assert serves(one.offer, one.wish)
        assert one.worth == one.portions * one.wish.worth
        given_away[one.giver, one.offer] += one.portions
        got[one.receiver, one.wish] += one.portions
    # An offer or a want may be written down twice in one list: then both count.
    for (at, offer), portions in given_away.items():
        assert portions <= sum(o.portions for o in lists[at].offers if o == offer)
    for (at, wish), portions in got.items():
        assert portions <= sum(w.portions for w in lists[at].wishes if w == wish)
    for at, side in enumerate(proposal.balances):
        assert side.gives == sum(n for (giver, _), n in given_away.items() if giver == at)
        assert side.receives == sum(n for (taker, _), n in got.items() if taker == at)
        assert abs(side.gives - side.receives) <= tolerance
        assert side.worth >= side.by_pairs
    assert proposal.worth == sum(one.worth for one in proposal.transfers) <= proposal.bound
    assert all(one.why for one in proposal.transfers)
    turned = list(lists)
    chance.shuffle(turned)
    again = match(turned, tolerance, TODAY)
    assert _told(again) == _told(proposal)


def _told(proposal: Proposal) -> set[tuple[object, ...]]:
    return {
        (proposal.names[one.giver], proposal.names[one.receiver], one.offer, one.wish, one.portions)
        for one in proposal.transfers
    }
