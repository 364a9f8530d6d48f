"""By which words of different lists the same crop and the same variety are known."""

from __future__ import annotations

from seedbox import almanac
from seedbox.season.crops import CropBook
from seedbox.season.searching import search_key

OWN = "own:"


def crop_key(crop: str, crop_id: str) -> str:
    """Equal for equal crops: by id where the almanac knows it, else by equal words.

    >>> crop_key("courgette", "courgette"), crop_key("Sea  Kale", "")
    ('courgette', 'word:sea kale')
    """
    return crop_id or f"word:{' '.join(search_key(crop).split())}"


def variety_key(variety: str) -> str:
    """Equal for one variety, whatever its capitals, accents and quotation marks.

    >>> variety_key("‘Früher Zwerg’") == variety_key("fruher zwerg")
    True
    """
    return " ".join(search_key(variety).strip(" '‘’\"“”").split())


def known_id(crop_id: str) -> str:
    """The id where the almanac knows it; a person's own crop has none that others know."""
    return crop_id if almanac.is_crop_id(crop_id) else ""


def understood(name: str, said_id: str, book: CropBook) -> tuple[str, str]:
    """The crop's name as this reader shows it, and its id; ('', a word of one's own) stays so.

    A name with two meanings is not guessed: it matches equal words only.
    """
    crop_id = known_id(said_id) or known_id(book.answer(name).crop_id or "")
    return (book.name(crop_id), crop_id) if crop_id else (name, "")


def named(crop: str, variety: str) -> str:
    """Crop and variety as they are read."""
    return f"{crop}, {variety}" if variety else crop
