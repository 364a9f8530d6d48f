"""Names that people type, found in the tin: crops and stores."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Protocol, TypeVar

from seedbox.errors import NotFoundError, UsageError
from seedbox.tin.records import Store

if TYPE_CHECKING:
    from seedbox.season.crops import CropBook
    from seedbox.tin.file import Tin


def crop_book(tin: Tin) -> CropBook:
    """The crop names that hold for this tin."""
    from seedbox.season.crops import CropBook

    return CropBook(tin.settings(), tin.own_crops())


def plain_crop_book() -> CropBook:
    """Crop names when there is no tin: British names, no own crops."""
    from seedbox.season.crops import CropBook
    from seedbox.tin.preferences import Settings

    return CropBook(Settings())


class _Named(Protocol):
    """A store or a place, as far as looking it up goes."""

    @property
    def name(self) -> str: ...


_T = TypeVar("_T", bound=_Named)


def store_among(stores: Iterable[Store], wanted: str) -> Store:
    """A store by its name, or by a part of it that no other store has.

    Raises:
        NotFoundError: with the stores that there are.
    """
    return one_named(list(stores), wanted, "store")


def one_named(known: Sequence[_T], wanted: str, kind: str) -> _T:
    """The one thing whose name is, begins with or holds what was typed, in that order.

    Raises:
        NotFoundError: with the names that there are, or how to add the first.
    """
    folded = " ".join(wanted.casefold().split())
    for found in (
        [each for each in known if each.name.casefold() == folded],
        [each for each in known if folded and each.name.casefold().startswith(folded)],
        [each for each in known if folded and folded in each.name.casefold()],
    ):
        if len(found) == 1:
            return found[0]
        if found:
            names = " or ".join(each.name for each in found)
            raise NotFoundError(f"“{wanted}” could be {names}.", hint="Write the whole name.")
    names = ", ".join(each.name for each in known)
    raise NotFoundError(
        f"There is no {kind} called “{wanted}”.",
        hint=f"The {kind}s are: {names}." if names else f"Add one with: seedbox {kind} add NAME …",
    )


def refuse_no_name(text: str) -> None:
    """An empty crop name is a slip, not a crop that nobody knows."""
    if not text.strip():
        raise UsageError("Say which crop.")


def crop_and_variety(book: CropBook, words: Sequence[str]) -> tuple[str, str]:
    """A crop id and a variety from words that may have lost their quotation marks.

    The longest beginning that names a crop is the crop: `broad bean Old Long Pod`.
    """
    refuse_no_name(" ".join(words))
    first, *rest = words
    for length in range(len(words), 1, -1):
        crop_id = book.answer(" ".join(words[:length])).crop_id
        if crop_id:
            return crop_id, " ".join(words[length:])
    return book.crop_id(first), " ".join(rest)
