"""What is offered, wished for and exchanged at a swap, as frozen records.

A portion is the currency: balances are counted in portions, worth in the receiver's own worth
(1 to 5) of each portion.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from seedbox.tin.records import Treatment

USUAL_WORTH = 3
UNNAMED = "you"  # the keeper of a proposal who has not said who they are


@dataclass(frozen=True, slots=True)
class Germination:
    """What is believed of offered seed, as fractions; None where its owner does not know.

    `low` to `high` holds what the next sowing or test shows nine times in ten. `tested_on` is the
    day of the latest test, None: untested; `germinated` of `tested_seeds` came up in it.
    `printed` is the figure on the packet that the seed was bought in, of the day `printed_on`.
    """

    mean: float | None = None
    low: float | None = None
    high: float | None = None
    tested_on: date | None = None
    tested_seeds: int | None = None
    germinated: int | None = None
    printed: float | None = None
    printed_on: date | None = None


@dataclass(frozen=True, slots=True)
class Offer:
    """Portions of one lot that a person gives away.

    `crop` is the name its owner uses; `crop_id` the almanac's id, '' for a crop that it does not
    know, which then matches by equal words. `code` names the packet in its owner's tin ('' in a
    list without codes). `seeds_per_portion` is None where nobody counted. `packed_year` is the
    best known year of seed whose harvest is not known: packed, else bought. `note` is the owner's,
    '' unless they let it out.
    """

    code: str
    crop: str
    crop_id: str
    variety: str
    portions: int
    seeds_per_portion: int | None
    germination: Germination = Germination()
    harvest_year: int | None = None
    treatment: Treatment = Treatment.NONE
    hybrid: bool = False
    cautions: tuple[str, ...] = ()
    packed_year: int | None = None
    note: str = ""

    @property
    def year(self) -> str:
        """The year as it is shown; one of harvest stands alone."""
        if self.harvest_year is not None:
            return str(self.harvest_year)
        return "" if self.packed_year is None else f"packed {self.packed_year}"


@dataclass(frozen=True, slots=True)
class Wish:
    """Portions of a crop that a person would like; any variety where `variety` is ''."""

    crop: str
    crop_id: str
    variety: str
    portions: int
    worth: int = USUAL_WORTH


@dataclass(frozen=True, slots=True)
class SwapList:
    """What one person brings and looks for. `town` and `name` are there only if they said so."""

    name: str
    offers: tuple[Offer, ...] = ()
    wishes: tuple[Wish, ...] = ()
    made_on: date | None = None
    town: str = ""


@dataclass(frozen=True, slots=True)
class Return:
    """What list number `giver` gives back to the giver of a transfer, each kind by its name."""

    giver: int
    kinds: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Transfer:
    """One line of a proposal: list number `giver` gives `portions` of `offer` to `receiver`.

    Both count from 0 in the order of the lists. `worth` is what all the portions together are
    worth to the receiver. `why` explains the line by names, the same to everybody; from `returns`,
    what comes back, it is told to one of the people (None: nothing is known of it).
    """

    giver: int
    receiver: int
    offer: Offer
    wish: Wish
    portions: int
    worth: float
    why: str = ""
    returns: tuple[Return, ...] | None = None


@dataclass(frozen=True, slots=True)
class Balance:
    """What one person gives and gets in portions, and its worth to them.

    `by_pairs` is what exchanges between two at a time would be worth to them.
    """

    name: str
    gives: int
    receives: int
    worth: float
    by_pairs: float


@dataclass(frozen=True, slots=True)
class Proposal:
    """An exchange among the people of `names`.

    `bound` is a worth that no exchange of these lists can exceed; `method` says how it was found.
    """

    names: tuple[str, ...]
    transfers: tuple[Transfer, ...]
    balances: tuple[Balance, ...]
    worth: float
    bound: float
    method: str
    tolerance: int
    made_on: date | None = None
