"""What an exchange of seed is reckoned from, and what comes out: numbers and keys, no crops.

The currency is the swap portion: what a member gives and receives is balanced in portions. Worth
is what one portion is worth to the member who receives it, a whole number of points, so that
sums are exact and an answer can be proved best.

Everything is known by its key, never by its place in a list: the same hall written down in any
other order has the same answer.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import StrEnum

from seedbox.science.errors import require

MOST_PORTIONS = 1_000_000
MOST_WORTH = 1_000
MOST_MEMBERS = 1_000


class HallError(ValueError):
    """A hall that contradicts itself: a key used twice, or one that nobody has."""


@dataclass(frozen=True, slots=True)
class Stock:
    """What a member can give of one packet: `portions`, whole, 0 or more."""

    key: str
    member: str
    portions: int

    def __post_init__(self) -> None:
        require(f"portions of {self.key}", self.portions, 0, MOST_PORTIONS)


@dataclass(frozen=True, slots=True)
class Desire:
    """What a member would like: at most `portions` from any of the stocks it `accepts`.

    `accepts` holds keys of stocks; a member's own are passed over. `worth` [points a portion] is a
    whole number of 1 or more.
    """

    key: str
    member: str
    accepts: frozenset[str]
    portions: int
    worth: int

    def __post_init__(self) -> None:
        require(f"portions of {self.key}", self.portions, 0, MOST_PORTIONS)
        require(f"worth of {self.key}", self.worth, 1, MOST_WORTH)


@dataclass(frozen=True, slots=True)
class Hall:
    """All who exchange. `tolerance`: portions by which what one gives and receives may differ."""

    members: tuple[str, ...]
    stocks: tuple[Stock, ...]
    desires: tuple[Desire, ...]
    tolerance: int = 1

    def __post_init__(self) -> None:
        require("members", len(self.members), 0, MOST_MEMBERS)
        require("tolerance", self.tolerance, 0, MOST_PORTIONS)
        members = _once("member", self.members)
        stocks = _once("stock", (stock.key for stock in self.stocks))
        _once("desire", (desire.key for desire in self.desires))
        for stock in self.stocks:
            _known("member", {stock.member}, members, stock.key)
        for desire in self.desires:
            _known("member", {desire.member}, members, desire.key)
            _known("stock", desire.accepts, stocks, desire.key)


@dataclass(frozen=True, slots=True)
class Transfer:
    """Portions of one stock that go to one desire; `worth` is of all of them [points]."""

    stock: str
    desire: str
    giver: str
    receiver: str
    portions: int
    worth: int


@dataclass(frozen=True, slots=True)
class Standing:
    """One member's side: portions given and received, worth received, worth by pairs [points]."""

    member: str
    gives: int
    receives: int
    worth: int
    by_pairs: int

    @property
    def balance(self) -> int:
        """Portions received more than given; never beyond the tolerance either way."""
        return self.receives - self.gives

    @property
    def better_off(self) -> bool:
        """Whether the member receives more than two-person exchanges alone would bring."""
        return self.worth > self.by_pairs


@dataclass(frozen=True, slots=True)
class Ring:
    """Give and take: in each transfer the next one's giver receives `portions` of each.

    Closed, the last receiver is the first giver, and the ring is balanced by itself. Open, it is a
    chain: its first member gives and its last receives within the tolerance.
    """

    transfers: tuple[Transfer, ...]
    portions: int
    closed: bool


class Method(StrEnum):
    """How an exchange was found."""

    OWN = "own"
    HIGHS = "highs"


@dataclass(frozen=True, slots=True)
class Exchange:
    """A proposal for a hall.

    `worth` [points] is the sum over all transfers; no fair exchange is worth more than `bound`.
    `pairs` [points] is the worth of two-person exchanges alone. `rings` tell the same portions as
    `transfers`, each in the ring of give and take in which it stands.
    """

    transfers: tuple[Transfer, ...]
    standings: tuple[Standing, ...]
    rings: tuple[Ring, ...]
    worth: int
    bound: int
    pairs: int
    method: Method = field(default=Method.OWN)

    @property
    def proven_best(self) -> bool:
        """Whether no fair exchange can be worth more."""
        return self.worth == self.bound

    @property
    def gap(self) -> float:
        """By how much the bound lies above the worth, as a fraction of the bound."""
        return (self.bound - self.worth) / self.bound if self.bound else 0.0


def _once(kind: str, keys: Iterable[str]) -> set[str]:
    seen: set[str] = set()
    for key in keys:
        if key in seen:
            raise HallError(f"{kind} {key} stands in the hall twice")
        seen.add(key)
    return seen


def _known(kind: str, asked: Iterable[str], there: set[str], by: str) -> None:
    missing = sorted(set(asked) - there)
    if missing:
        raise HallError(f"{by} names {kind} {missing[0]}, which is not in the hall")
