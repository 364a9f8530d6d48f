"""One's own list for a swap: what is spare and what is wanted, and nothing private beside it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date

from seedbox.season.crops import CropBook
from seedbox.season.sowing.desk import Desk
from seedbox.season.swapping.records import Germination, Offer, SwapList
from seedbox.season.swapping.spare import Spare, spare
from seedbox.season.swapping.wants import wishes
from seedbox.tin.file import Tin
from seedbox.tin.list_records import Want

_DECIMALS = 3  # a tenth of a per cent is far below what any forecast knows


def own_list(
    tin: Tin, today: date, *, name: str = "", town: str = "", notes: bool = False
) -> SwapList:
    """The list of a tin. Without `name` and `town` it says nothing of its owner; only with `notes`
    it holds the note of each packet that is offered.
    """
    desk = Desk(tin, today)
    book = desk.listing.book
    return made_list(spare(desk, tin), tin.wants(), book, today, name=name, town=town, notes=notes)


def made_list(
    found: Iterable[Spare],
    wants: Iterable[Want],
    book: CropBook,
    today: date,
    *,
    name: str = "",
    town: str = "",
    notes: bool = False,
) -> SwapList:
    """A list of what is offered of the spare seed, and of the wants."""
    given = tuple(
        replace(_rounded(one.offer), note=one.line.packet.note if notes else "")
        for one in found
        if one.portions
    )
    return SwapList(name, given, wishes(wants, book), today, town)


def without(listed: SwapList, codes: Sequence[str]) -> SwapList:
    """The same list without the offers of some packets."""
    left = tuple(offer for offer in listed.offers if offer.code not in codes)
    return replace(listed, offers=left)


def _rounded(offer: Offer) -> Offer:
    known = offer.germination
    shares = {
        name: None if value is None else round(value, _DECIMALS)
        for name, value in (
            ("mean", known.mean),
            ("low", known.low),
            ("high", known.high),
            ("printed", known.printed),
        )
    }
    germination: Germination = replace(known, **shares)  # type: ignore[arg-type]
    return replace(offer, germination=germination)
