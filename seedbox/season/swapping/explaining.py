"""Why each line of a proposal is there: who wants it, and what its giver gets in return."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from seedbox.science.exchange import Exchange, Method
from seedbox.season.swapping.records import UNNAMED, Offer, Return, Transfer

_METHODS = {
    Method.OWN: "Seedbox’s own method",
    Method.HIGHS: "the solver HiGHS",
}
YOU, SOMEBODY = "you", "somebody unnamed"


def called(names: Sequence[str], at: int, you: int | None) -> str:
    """Number `at` of the people as reader number `you` calls them; nobody else is “you”."""
    if at == you:
        return YOU
    return SOMEBODY if names[at] == UNNAMED else names[at]


def told(one: Transfer, names: Sequence[str], you: int | None = None) -> str:
    """`You give A to the third list and get B from the fifth, because …`, as told to number `you`
    of the people; None is told by names alone.
    """
    if one.returns is None:
        return one.why
    giver, receiver = called(names, one.giver, you), called(names, one.receiver, you)
    gets = [f"{_joined(back.kinds)} from {called(names, back.giver, you)}" for back in one.returns]
    got = f" and {_verb(giver, 'get')} {_joined(gets)}" if gets else ""
    first = f"{giver} {_verb(giver, 'give')} {_what(one.offer)} to {receiver}{got}"
    because = f"because {receiver} {_verb(receiver, 'want')} {_wanted(one)}"
    nothing = f"; {giver} {_verb(giver, 'take')} nothing back for it, within the tolerance"
    return f"{_capital(first)}, {because}{'' if gets else nothing}."


def explained(one: Transfer, returns: tuple[Return, ...], names: Sequence[str]) -> Transfer:
    """The same line with its reason."""
    with_returns = replace(one, returns=returns)
    return replace(with_returns, why=told(with_returns, names))


def returns_of(
    found: Exchange, offers: Mapping[str, Offer], number: Mapping[str, int]
) -> dict[tuple[str, str], tuple[Return, ...]]:
    """What comes back for each transfer, by its stock and desire: in the rings in which it stands,
    by who gives it. `number` counts the lists from 0.
    """
    back: dict[tuple[str, str], dict[int, list[str]]] = {
        (move.stock, move.desire): {} for move in found.transfers
    }
    for ring in found.rings:
        for at, move in enumerate(ring.transfers):
            if at or ring.closed:
                before = ring.transfers[at - 1]
                givers = back.setdefault((move.stock, move.desire), {})
                kinds = givers.setdefault(number[before.giver], [])
                kinds += [] if (what := _what(offers[before.stock])) in kinds else [what]
    return {
        key: tuple(Return(giver, tuple(kinds)) for giver, kinds in givers.items())
        for key, givers in back.items()
    }


def method_words(found: Exchange) -> str:
    """How the exchange was found, and how near to the best it is."""
    how = _METHODS[found.method]
    if found.proven_best:
        return f"{how}; proved best"
    return f"{how}; at most {100 * found.gap:.1f} % below the best"


def _verb(who: str, verb: str) -> str:
    return verb if who == YOU else f"{verb}s"


def _what(offer: Offer) -> str:
    return f"{offer.crop} {offer.variety}".strip()


def _wanted(one: Transfer) -> str:
    wish = one.wish
    what = f"{wish.crop} {wish.variety}" if wish.variety else f"any {wish.crop}"
    return f"{what} (worth {wish.worth} of 5)"


def _joined(parts: Sequence[str]) -> str:
    if len(parts) < 2:
        return "".join(parts)
    return f"{', '.join(parts[:-1])} and {parts[-1]}"


def _capital(text: str) -> str:
    """A sentence begins with a capital, but a name is written as its owner does."""
    ours = text.startswith((f"{YOU} ", f"{SOMEBODY} "))
    return f"{text[0].upper()}{text[1:]}" if ours else text
