"""Why each line of a proposal is there: who wants it, and what its giver gets in return."""

from __future__ import annotations

from collections.abc import Mapping

from seedbox.science.exchange import Exchange, Method, Ring
from seedbox.science.exchange import Transfer as Move
from seedbox.season.swapping.records import Offer, Wish

_METHODS = {
    Method.OWN: "Seedbox’s own method",
    Method.HIGHS: "the solver HiGHS",
}


def reasons(
    found: Exchange,
    offers: Mapping[str, Offer],
    wishes: Mapping[str, Wish],
    number: Mapping[str, int],
    you: int | None,
) -> dict[tuple[str, str], str]:
    """A sentence for each transfer, by its stock and desire.

    `number` counts the lists from 0; the one numbered `you` is called “you”.
    """
    telling, rings = _Telling(offers, wishes, number, you), _rings_of(found)
    return {
        (move.stock, move.desire): telling.sentence(move, rings.get((move.stock, move.desire), []))
        for move in found.transfers
    }


def method_words(found: Exchange) -> str:
    """How the exchange was found, and how near to the best it is."""
    how = _METHODS[found.method]
    if found.proven_best:
        return f"{how}; proved best"
    return f"{how}; at most {100 * found.gap:.1f} % below the best"


class _Telling:
    def __init__(
        self,
        offers: Mapping[str, Offer],
        wishes: Mapping[str, Wish],
        number: Mapping[str, int],
        you: int | None,
    ) -> None:
        self._offers, self._wishes, self._number, self._you = offers, wishes, number, you

    def sentence(self, move: Move, rings: list[tuple[Ring, int]]) -> str:
        """`You give A to the third list and get B from the fifth, because …`"""
        giver, receiver = self._who(move.giver), self._who(move.receiver)
        give = "give" if giver == "you" else "gives"
        gets = self._returns(rings)
        got = f" and {'get' if giver == 'you' else 'gets'} {_joined(gets)}" if gets else ""
        want = "want" if receiver == "you" else "wants"
        first = f"{giver} {give} {self._what(move)} to {receiver}{got}"
        because = f"because {receiver} {want} {self._wanted(move)}"
        return f"{_capital(first)}, {because}{self._nothing(gets, giver)}."

    def _returns(self, rings: list[tuple[Ring, int]]) -> list[str]:
        """What the giver of a transfer gets in the rings in which it stands, by who gives it."""
        found: dict[str, list[str]] = {}
        for ring, at in rings:
            if at or ring.closed:
                before = ring.transfers[at - 1]
                seeds = found.setdefault(self._who(before.giver), [])
                seeds += [] if self._what(before) in seeds else [self._what(before)]
        return [f"{_joined(what)} from {who}" for who, what in found.items()]

    def _nothing(self, gets: list[str], giver: str) -> str:
        if gets:
            return ""
        takes = "take" if giver == "you" else "takes"
        return f"; {giver} {takes} nothing back for it, within the tolerance"

    def _what(self, move: Move) -> str:
        offer = self._offers[move.stock]
        return f"{offer.crop} {offer.variety}".strip()

    def _wanted(self, move: Move) -> str:
        wish = self._wishes[move.desire]
        what = f"{wish.crop} {wish.variety}" if wish.variety else f"any {wish.crop}"
        return f"{what} (worth {wish.worth} of 5)"

    def _who(self, member: str) -> str:
        at = self._number[member]
        return "you" if at == self._you else member


def _rings_of(found: Exchange) -> dict[tuple[str, str], list[tuple[Ring, int]]]:
    """The rings in which each transfer stands, and its place there."""
    places: dict[tuple[str, str], list[tuple[Ring, int]]] = {}
    for ring in found.rings:
        for at, one in enumerate(ring.transfers):
            places.setdefault((one.stock, one.desire), []).append((ring, at))
    return places


def _joined(parts: list[str]) -> str:
    if len(parts) < 2:
        return "".join(parts)
    return f"{', '.join(parts[:-1])} and {parts[-1]}"


def _capital(text: str) -> str:
    """A sentence begins with a capital, but a name is written as its owner does."""
    return f"You{text[3:]}" if text.startswith("you ") else text
