"""The crops that the almanac knows."""

from __future__ import annotations

from collections.abc import Sized
from functools import cache
from typing import NamedTuple

from seedbox.almanac.tables import rows
from seedbox.errors import NotFoundError


class Crop(NamedTuple):
    """One crop: `id` is the same in every data file and in a person's tin."""

    id: str
    category: str
    botanical_name: str
    family: str
    name_gb: str
    name_us: str
    synonyms: tuple[str, ...]

    def name(self, region: str) -> str:
        """The usual name in a region: American for `us`, otherwise British."""
        return self.name_us if region.lower() == "us" else self.name_gb

    @property
    def all_names(self) -> tuple[str, ...]:
        """Every name of its own, the two main ones first; names shared with others are apart."""
        names = (self.name_gb, self.name_us, *self.synonyms, self.botanical_name)
        return tuple(dict.fromkeys(names))


@cache
def _by_id() -> dict[str, Crop]:
    return {
        row["crop"]: Crop(
            row["crop"],
            row["category"],
            row["botanical_name"],
            row["family"],
            row["name_gb"],
            row["name_us"],
            tuple(name for name in row["synonyms"].split(";") if name),
        )
        for row in rows("crops")
    }


def crops() -> tuple[Crop, ...]:
    """All crops, in the order of the published list."""
    return tuple(_by_id().values())


def crop(crop_id: str) -> Crop:
    """The crop with this id. Raises NotFoundError."""
    try:
        return _by_id()[crop_id]
    except KeyError:
        raise NotFoundError(f"The almanac has no crop with the id “{crop_id}”.") from None


def is_crop_id(text: str) -> bool:
    """Whether the almanac has a crop with this very id."""
    return text in _by_id()


def family_of(crop_id: str, family: str = "") -> str:
    """Botanical family of a crop, or `family` for a crop that the almanac does not know."""
    known = _by_id().get(crop_id)
    return known.family if known else family


def members(family: str) -> frozenset[str]:
    """Ids of the crops of a botanical family; letter case does not matter."""
    return _families().get(family.strip().casefold(), frozenset())


@cache
def _families() -> dict[str, frozenset[str]]:
    found: dict[str, set[str]] = {}
    for each in crops():
        found.setdefault(each.family.casefold(), set()).add(each.id)
    return {family: frozenset(ids) for family, ids in found.items()}


def median_of(group: Sized, family: str) -> str:
    """Source of a borrowed figure, in words. An empty family means all crops."""
    count = f"{len(group)} crop" + ("" if len(group) == 1 else "s")
    if not family:
        return f"median of all {count} with a figure"
    return f"{'figure' if len(group) == 1 else 'median'} of {count} of the family {family}"
