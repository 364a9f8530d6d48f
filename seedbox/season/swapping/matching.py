"""From lists to a proposal: whose offer serves whose want, and what the exchange then is."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from seedbox.errors import BadDataError
from seedbox.science.exchange import Desire, Exchange, Hall, Stock
from seedbox.season.swapping.explaining import explained, method_words, returns_of
from seedbox.season.swapping.records import Balance, Offer, Proposal, SwapList, Transfer, Wish
from seedbox.season.swapping.words import crop_key, variety_key
from seedbox.tin.codes import looks_like_code, shown

Solve = Callable[[Hall], Exchange]
FEWEST_LISTS, MOST_LISTS = 2, 200


@dataclass(frozen=True, slots=True)
class Gathered:
    """A hall made of lists, and what its keys stand for."""

    hall: Hall
    offers: dict[str, Offer]
    wishes: dict[str, Wish]
    members: tuple[str, ...]


def match(
    lists: Sequence[SwapList],
    tolerance: int,
    today: date,
    *,
    solve: Solve | None = None,
) -> Proposal:
    """The exchange among lists that is worth most, where no one is worse off than by pairs.

    `tolerance` is by how many portions what one gives and receives may differ. The
    order of the lists does not matter.
    Raises BadDataError for fewer than two lists, and where two of them offer the same packet.
    """
    named = distinct_names(lists)
    _refuse_the_same_twice(named)
    gathered = gather(named, tolerance)
    found = (solve or _usual)(gathered.hall)
    return _proposal(gathered, found, tolerance, today)


def distinct_names(lists: Sequence[SwapList]) -> tuple[SwapList, ...]:
    """The lists, each under a name of its own: `Maud`, `Maud (2)`."""
    if not FEWEST_LISTS <= len(lists) <= MOST_LISTS:
        raise BadDataError(
            f"An exchange is among {FEWEST_LISTS} to {MOST_LISTS} lists, not {len(lists)}."
        )
    taken: set[str] = set()
    found = []
    for listed in lists:
        name, again = listed.name or "a list", 2
        while name.casefold() in taken:
            name, again = f"{listed.name or 'a list'} ({again})", again + 1
        taken.add(name.casefold())
        found.append(replace(listed, name=name))
    return tuple(found)


def _refuse_the_same_twice(lists: Sequence[SwapList]) -> None:
    """A packet in two lists would be given away twice: one of them is an older copy."""
    seen: dict[str, str] = {}
    for listed in lists:
        for code in (offer.code for offer in listed.offers if looks_like_code(offer.code)):
            if seen.setdefault(code, listed.name) != listed.name:
                raise BadDataError(
                    f"{seen[code]} and {listed.name} both offer the packet {shown(code)}, so it"
                    " would be given away twice.",
                    hint="Is it the same list twice, or an older copy? Leave one out.",
                )


def gather(lists: Sequence[SwapList], tolerance: int) -> Gathered:
    """Stocks and desires of lists whose names differ."""
    offers: dict[str, Offer] = {}
    wishes: dict[str, Wish] = {}
    owner: dict[str, str] = {}
    for listed in lists:
        for key, offer in _keyed_offers(listed):
            offers[key], owner[key] = offer, listed.name
        for key, wish in _keyed_wishes(listed):
            wishes[key], owner[key] = wish, listed.name
    serving = _by_crop(offers)
    hall = Hall(
        tuple(listed.name for listed in lists),
        tuple(Stock(key, owner[key], offer.portions) for key, offer in offers.items()),
        tuple(
            Desire(key, owner[key], _accepted(wish, serving, offers), wish.portions, wish.worth)
            for key, wish in wishes.items()
        ),
        tolerance,
    )
    return Gathered(hall, offers, wishes, hall.members)


def serves(offer: Offer, wish: Wish) -> bool:
    """Whether an offer is what is wanted: the same crop, and the variety where one is named."""
    if crop_key(offer.crop, offer.crop_id) != crop_key(wish.crop, wish.crop_id):
        return False
    return not wish.variety or variety_key(offer.variety) == variety_key(wish.variety)


def _by_crop(offers: dict[str, Offer]) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for key, offer in offers.items():
        found.setdefault(crop_key(offer.crop, offer.crop_id), []).append(key)
    return found


def _accepted(
    wish: Wish, serving: dict[str, list[str]], offers: dict[str, Offer]
) -> frozenset[str]:
    of_crop = serving.get(crop_key(wish.crop, wish.crop_id), ())
    return frozenset(key for key in of_crop if serves(offers[key], wish))


def _keyed_offers(listed: SwapList) -> list[tuple[str, Offer]]:
    """Offers by keys that do not depend on their order, as far as they differ."""
    seen: Counter[str] = Counter()
    found = []
    for offer in listed.offers:
        what = "/".join((crop_key(offer.crop, offer.crop_id), variety_key(offer.variety)))
        found.append((_key(seen, f"{listed.name}/gives/{what}/{offer.code}"), offer))
    return found


def _keyed_wishes(listed: SwapList) -> list[tuple[str, Wish]]:
    seen: Counter[str] = Counter()
    found = []
    for wish in listed.wishes:
        what = "/".join((crop_key(wish.crop, wish.crop_id), variety_key(wish.variety)))
        found.append((_key(seen, f"{listed.name}/wants/{what}"), wish))
    return found


def _key(seen: Counter[str], key: str) -> str:
    seen[key] += 1
    return key if seen[key] == 1 else f"{key}/{seen[key]}"


def _proposal(gathered: Gathered, found: Exchange, tolerance: int, today: date) -> Proposal:
    number = {name: at for at, name in enumerate(gathered.members)}
    returns = returns_of(found, gathered.offers, number)
    transfers = [
        explained(
            Transfer(
                number[one.giver],
                number[one.receiver],
                gathered.offers[one.stock],
                gathered.wishes[one.desire],
                one.portions,
                one.worth,
            ),
            returns[one.stock, one.desire],
            gathered.members,
        )
        for one in found.transfers
    ]
    standings = {one.member: one for one in found.standings}
    balances = [
        Balance(name, one.gives, one.receives, one.worth, one.by_pairs)
        for name, one in ((name, standings[name]) for name in gathered.members)
    ]
    return Proposal(
        gathered.members,
        tuple(sorted(transfers, key=_order)),
        tuple(balances),
        found.worth,
        found.bound,
        method_words(found),
        tolerance,
        today,
    )


def _order(one: Transfer) -> tuple[int, int, str, str]:
    return one.giver, one.receiver, one.offer.crop.casefold(), one.offer.variety.casefold()


def _usual(hall: Hall) -> Exchange:
    from seedbox.season.swapping.solving import solve

    return solve(hall)
