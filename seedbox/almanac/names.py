"""Finding a crop under any common name. A name that fits several crops is offered, not guessed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache

from seedbox.almanac.crop_list import Crop, crop, crops
from seedbox.almanac.folding import LONGEST_NAME, keys, words
from seedbox.almanac.spelling import alike, index
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
    """Folded names, and ids read as words (`pea mangetout`), that belong to one crop alone."""
    taken = _shared()
    return {
        key: each.id
        for each in crops()
        for name in (*each.all_names, each.id)
        for key in keys(name)
        if key not in taken
    }


def find(text: str) -> Found:
    """The crop that bears this name, in any usual spelling; a crop id is understood too.

    Two names of one crop may stand together: `swede/rutabaga`, `fennel (herb fennel)`.
    Never raises: a name that nobody bears gives an empty `crop` and perhaps some near misses.
    """
    if by_id := _by_id(text):
        return Found(by_id)
    if borne := _bearing(text):
        return borne
    together = _named_twice(text[:LONGEST_NAME])
    return Found(together) if together else Found(near=_near(text))


def _bearing(text: str) -> Found | None:
    for key in dict.fromkeys(keys(text)):
        if shared := _shared().get(key):
            return Found(clashes=tuple(map(crop, shared.crop_ids)), remark=shared.remark)
        if crop_id := _own().get(key):
            return Found(crop(crop_id))
    return None


def _named_twice(text: str) -> Crop | None:
    """The one crop that every part of a text with a slash or brackets fits, if there is one."""
    parts = _parts(text.strip())
    answers = [_bearing(part) for part in parts]
    if len(parts) < 2 or not all(answers):
        return None
    fitting = [{each.crop, *each.clashes} - {None} for each in answers if each]
    left = set.intersection(*fitting)
    return left.pop() if len(left) == 1 else None


def _parts(text: str) -> list[str]:
    """`a (b) (c)` as `a (b)` and `c`; `a/b` as `a` and `b`."""
    if text.endswith(")"):
        return text[:-1].rsplit("(", 1)
    return text.split("/")


def _by_id(text: str) -> Crop | None:
    """The crop of an id that nobody would type as a name, such as `ground_cherry`."""
    wanted = text.strip()
    return next((each for each in crops() if each.id == wanted), None) if "_" in wanted else None


def _near(text: str) -> tuple[Crop, ...]:
    wanted = keys(text)[0]
    if not wanted:
        return ()
    close = alike(wanted, _letter_pairs(), 2 * NEAR_MISSES)
    near = dict.fromkeys(crop_id for key in close for crop_id in _bearers(key))
    near |= dict.fromkeys(_sharing_words(frozenset(words(text))))
    return tuple(map(crop, near))[:NEAR_MISSES]


@cache
def _letter_pairs() -> dict[str, list[str]]:
    return index(dict.fromkeys((*_own(), *_shared())))


def _sharing_words(typed: frozenset[str]) -> Iterator[str]:
    """Crops with a name inside the one typed (`heirloom carrot`), or around it (`brussels`)."""
    for test in (typed.__ge__, typed.__le__):
        yield from (crop_id for name, crop_id in _names_as_words() if test(name))


@cache
def _names_as_words() -> tuple[tuple[frozenset[str], str], ...]:
    named = ((name, each.id) for each in crops() for name in each.all_names)
    return tuple((frozenset(words(name)), crop_id) for name, crop_id in named)


def _bearers(key: str) -> tuple[str, ...]:
    shared = _shared().get(key)
    return shared.crop_ids if shared else (_own()[key],)


def sure_name(wanted: Crop, region: str = "eu") -> str:
    """A name that leads to this crop alone, its usual one where possible: for offers."""
    names = (wanted.name(region), *wanted.all_names)
    return next((name for name in names if find(name).crop == wanted), wanted.id)


def complete(prefix: str, limit: int = 10, region: str = "eu") -> list[tuple[str, Crop]]:
    """Names that begin with `prefix`, or hold a word that does, each with its crop.

    Each crop stands once, under its usual name where that fits. A name shared by several crops
    is shown with a surer one beside it.
    """
    wanted = " ".join(words(prefix))
    hits = sorted(
        (rank, each.preference, each.shown.casefold(), each.crop.id, each)
        for each in _completions(region)
        if wanted and (rank := _rank(wanted, each.folded)) is not None
    )
    first: dict[str, tuple[str, Crop]] = {}
    for *_, crop_id, each in hits:
        first.setdefault(crop_id, (each.shown, each.crop))
    return list(first.values())[:limit]


def _rank(wanted: str, folded: str) -> int | None:
    """0: the whole name; 1: its beginning; 2: the beginning of a later word; None: no match."""
    if folded == wanted:
        return 0
    if folded.startswith(wanted):
        return 1
    return 2 if f" {wanted}" in folded else None


@dataclass(frozen=True, slots=True, order=True)
class _Completion:
    """One name to complete: its words folded, and 0 to 3, usual names before rare ones."""

    shown: str
    folded: str
    preference: int
    crop: Crop = field(compare=False)


@cache
def _completions(region: str) -> tuple[_Completion, ...]:
    return (*_own_completions(region), *_shared_completions(region))


def _own_completions(region: str) -> Iterator[_Completion]:
    for each in crops():
        order = (each.name(region), *each.all_names)
        for name in each.all_names:
            if keys(name)[0] not in _shared():
                preference = min(order.index(name), 2) if name != each.botanical_name else 3
                yield _Completion(name, " ".join(words(name)), preference, each)


def _shared_completions(region: str) -> Iterator[_Completion]:
    for shared in shared_names():
        for each in map(crop, shared.crop_ids):
            shown = f"{shared.name} ({sure_name(each, region)})"
            yield _Completion(shown, " ".join(words(shared.name)), 2, each)
