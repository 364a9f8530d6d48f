"""Which packets are meant: the same options for a list and for labels."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import wraps
from typing import TYPE_CHECKING, Any, NamedTuple

import click

from seedbox.cli import completing
from seedbox.cli.params import WORDS, Choice
from seedbox.tin.records import Origin

if TYPE_CHECKING:
    from seedbox.season.listing import Filter, Listing

ADVICE = Choice("advice", ("sow", "sow thick", "use up", "test", "spent"))
ORIGIN = Choice("origin", tuple(origin.value for origin in Origin))


class Chosen(NamedTuple):
    """The filter options as typed."""

    crop: str | None
    store: str | None
    advice: str | None
    tag: str | None
    origin: str | None
    empty: bool

    @property
    def any(self) -> bool:
        """Whether anything was chosen at all."""
        return any((self.crop, self.store, self.advice, self.tag, self.origin, self.empty))

    def filter(self, listing: Listing, *, text: str = "", codes: Iterable[str] = ()) -> Filter:
        """The filter, with names looked up. A crop or store that does not exist is an error."""
        from seedbox.season.listing import Filter

        return Filter(
            text=text,
            crop_id=listing.book.crop_id(self.crop) if self.crop else "",
            store=_store_name(listing, self.store) if self.store else "",
            advice=self.advice or "",
            tag=self.tag or "",
            origin=self.origin or "",
            codes=frozenset(codes),
            with_empty=self.empty,
        )


def _store_name(listing: Listing, wanted: str) -> str:
    from seedbox.cli.lookup import store_among

    return store_among(listing.stores.values(), wanted).name


_OPTIONS = (
    click.option(
        "--crop",
        type=WORDS,
        shell_complete=completing.crops,
        help="Only packets of this crop, by any of its names.",
    ),
    click.option(
        "--store", type=WORDS, shell_complete=completing.stores, help="Only packets in this store."
    ),
    click.option("--advice", type=ADVICE, help="Only packets with this advice."),
    click.option("--tag", type=WORDS, help="Only packets with this tag."),
    click.option("--origin", type=ORIGIN, help="Only packets of this origin."),
    click.option("--empty", is_flag=True, help="Also packets with nothing left."),
)


def filter_options(function: Callable[..., Any]) -> Callable[..., Any]:
    """The filter options; the command receives them together as `chosen`."""

    @wraps(function)
    def gathered(*args: Any, **given: Any) -> Any:
        chosen = Chosen(*(given.pop(name) for name in Chosen._fields))
        return function(*args, chosen=chosen, **given)

    for option in reversed(_OPTIONS):
        gathered = option(gathered)
    return gathered
