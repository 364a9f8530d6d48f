"""Finding a crop under any common name. A name that fits several crops is offered, not guessed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from seedbox.almanac.crop_list import Crop, crop, crops
from seedbox.almanac.folding import keys, words
from seedbox.almanac.tables import rows

NEAR_MISSES = 5


@dataclass(frozen=True, slots=True)
class Found:
    """What a name led to: one crop, or several to choose from, or names that look alike.

    A name that growers use for more than one plant leads to `clashes`, even where the almanac
    holds only one of them; `remark` says why. `near` is filled only when nothing bears the name.
    """

    crop: Crop | None = None
    clashes: tuple[Crop, ...] = ()
    near: tuple[Crop, ...] = ()
    remark: str = ""


@dataclass(frozen=True, slots=True)
class SharedName:
    """A name that is used for several plants."""

    name: str
    crop_ids: tuple[str, ...]
    remark: str


@cache
def shared_names() -> tuple[SharedName, ...]:
    """Every name that does not settle a crop by itself."""
    return tuple(
        SharedName(row["name"], tuple(row["crops"].split(";")), row["remark"])
        for row in rows("shared_names")
    )


@cache
def _shared() -> dict[str, SharedName]:
    return {key: shared for shared in shared_names() for key in keys(shared.name)}


@cache
def _own() -> dict[str, str]:
    """Folded names that belong to one crop alone."""
    taken = _shared()
    return {
        key: each.id
        for each in crops()
        for name in each.all_names
        for key in keys(name)
        if key not in taken
    }


def find(text: str) -> Found:
    """The crop that bears this name, in any usual spelling; a crop id is understood too.

    Never raises: a name that nobody bears gives an empty `crop` and perhaps some near misses.
    """
    for key in dict.fromkeys(keys(text)):
        if shared := _shared().get(key):
            return Found(clashes=tuple(map(crop, shared.crop_ids)), remark=shared.remark)
        if crop_id := _own().get(key):
            return Found(crop(crop_id))
    if by_id := _by_id(text):
        return Found(by_id)
    return Found(near=_near(text))


def _by_id(text: str) -> Crop | None:
    wanted = text.strip()
    return next((each for each in crops() if each.id == wanted), None)


def _near(text: str) -> tuple[Crop, ...]:
    wanted = keys(text)[0]
    if not wanted:
        return ()
    from difflib import get_close_matches

    close = get_close_matches(wanted, {**_own(), **_shared()}, n=2 * NEAR_MISSES, cutoff=0.75)
    near = dict.fromkeys(crop_id for key in close for crop_id in _bearers(key))
    return tuple(map(crop, near))[:NEAR_MISSES]


def _bearers(key: str) -> tuple[str, ...]:
    shared = _shared().get(key)
    return shared.crop_ids if shared else (_own()[key],)


def sure_name(wanted: Crop, region: str = "eu") -> str:
    """A name that leads to this crop alone, its usual one where possible: for offers."""
    names = (wanted.name(region), *wanted.all_names)
    return next((name for name in names if find(name).crop == wanted), wanted.id)


def complete(prefix: str, limit: int = 10, region: str = "eu") -> list[tuple[str, Crop]]:
    """Names that begin with `prefix`, or hold a word that does, each with its crop.

    A name shared by several crops stands once for each of them, with their usual name beside it.
    """
    wanted = " ".join(words(prefix))
    if not wanted:
        return []
    hits = sorted(
        (rank, name.casefold(), name, each.id, each)
        for name, each, folded in _completions(region)
        if (rank := _rank(wanted, folded)) is not None
    )
    return [(name, each) for _, _, name, _, each in _one_per_crop(hits)][:limit]


def _one_per_crop(
    hits: list[tuple[int, str, str, str, Crop]],
) -> Iterator[tuple[int, str, str, str, Crop]]:
    seen: set[str] = set()
    for hit in hits:
        if hit[3] not in seen:
            seen.add(hit[3])
            yield hit


def _rank(wanted: str, folded: str) -> int | None:
    """0: the whole name; 1: its beginning; 2: the beginning of a later word; None: no match."""
    if folded == wanted:
        return 0
    if folded.startswith(wanted):
        return 1
    return 2 if f" {wanted}" in folded else None


@cache
def _completions(region: str) -> tuple[tuple[str, Crop, str], ...]:
    own = [(name, each) for each in crops() for name in each.all_names]
    shared = [
        (_told_apart(name.name, crop(crop_id), region), crop(crop_id))
        for name in shared_names()
        for crop_id in name.crop_ids
    ]
    named = dict.fromkeys((*own, *shared))
    return tuple((name, each, " ".join(words(name))) for name, each in named)


def _told_apart(shared: str, each: Crop, region: str) -> str:
    return shared if shared == each.name(region) else f"{shared} ({sure_name(each, region)})"
