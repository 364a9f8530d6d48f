"""The lists of others that were read: they lie on the table while the program runs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from seedbox.season.swapping.list_reading import ReadList
from seedbox.season.swapping.matching import serves
from seedbox.season.swapping.records import Offer, Proposal, SwapList, Wish
from seedbox.season.swapping.words import crop_key, named
from seedbox.tui.sowing_words import counted


@dataclass(frozen=True, slots=True)
class TableList:
    """One file: what was read from it, or the `fault` for which nothing could be."""

    path: Path
    read: ReadList | None
    fault: str = ""

    @property
    def listed(self) -> SwapList:
        return self.read.swap_list if self.read else SwapList(self.path.stem)


@dataclass(slots=True)
class SwapTable:
    """All files that were named, in that order; one that is read again replaces itself."""

    files: list[TableList] = field(default_factory=list)
    _proposed: tuple[tuple[SwapList, ...], int, Proposal] | None = None

    @property
    def lists(self) -> tuple[SwapList, ...]:
        """The lists that could be read."""
        return tuple(one.listed for one in self.files if one.read)

    def put(self, one: TableList) -> None:
        """Lay a list on the table."""
        places = [at for at, known in enumerate(self.files) if known.path == one.path]
        if places:
            self.files[places[0]] = one
        else:
            self.files.append(one)

    def remove(self, at: int) -> TableList:
        """Take one away, by its number."""
        return self.files.pop(at)

    def remember(self, lists: tuple[SwapList, ...], tolerance: int, found: Proposal) -> None:
        """Keep the latest proposal: to leave its page must not cost it."""
        self._proposed = (lists, tolerance, found)

    def known(self, lists: tuple[SwapList, ...], tolerance: int) -> Proposal | None:
        """The proposal for these very lists, if it was the latest."""
        if self._proposed is None or self._proposed[:2] != (lists, tolerance):
            return None
        return self._proposed[2]


class Offered:
    """What lists offer, found by crop: a hall holds thousands of offers."""

    def __init__(self, lists: Iterable[SwapList]) -> None:
        self._by_crop: dict[str, list[tuple[str, Offer]]] = {}
        for listed in lists:
            for offer in listed.offers:
                key = crop_key(offer.crop, offer.crop_id)
                self._by_crop.setdefault(key, []).append((listed.name, offer))

    def for_wish(self, wish: Wish) -> list[tuple[str, Offer]]:
        """Whose offers would serve a want."""
        found = self._by_crop.get(crop_key(wish.crop, wish.crop_id), ())
        return [(name, offer) for name, offer in found if serves(offer, wish)]


def serving(offers: Sequence[Offer], wishes: Sequence[Wish]) -> list[tuple[Offer, Wish]]:
    """Each want with the offers that serve it."""
    table = Offered([SwapList("", tuple(offers))])
    return [(offer, wish) for wish in wishes for _, offer in table.for_wish(wish)]


def offer_words(name: str, offer: Offer) -> str:
    """`Maud, 3 portions of tomato, Slate Roof`."""
    return f"{name}, {counted(offer.portions, 'portion')} of {named(offer.crop, offer.variety)}"
