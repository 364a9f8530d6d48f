"""Names that people type, found in the tin: crops and stores."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

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


def store_among(stores: Iterable[Store], wanted: str) -> Store:
    """A store by its name, or by the beginning of its name when only one begins so.

    Raises:
        NotFoundError: with the stores that there are.
    """
    known = list(stores)
    folded = wanted.casefold().strip()
    found = [store for store in known if store.name.casefold() == folded] or [
        store for store in known if folded and store.name.casefold().startswith(folded)
    ]
    if len(found) == 1:
        return found[0]
    if found:
        raise NotFoundError(
            f"“{wanted}” could be {' or '.join(store.name for store in found)}.",
            hint="Write the whole name.",
        )
    names = ", ".join(store.name for store in known)
    raise NotFoundError(
        f"There is no store called “{wanted}”.",
        hint=f"The stores are: {names}." if names else "Add one with: seedbox store add NAME …",
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
