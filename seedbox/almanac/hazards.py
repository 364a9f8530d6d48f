"""What is poisonous or irritant about a crop. Absence from the list proves nothing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from seedbox.almanac.crop_list import crops
from seedbox.almanac.folding import words
from seedbox.almanac.marks import Mark
from seedbox.almanac.sources import spell
from seedbox.almanac.tables import Row, by_crop, of_crop


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution: which part, what it does, how bad."""

    part: str
    hazard: str
    severity: str
    source: str
    mark: Mark


def cautions(crop_id: str) -> tuple[Caution, ...]:
    """Cautions for a crop of the almanac."""
    return tuple(_caution(row) for row in of_crop("hazards", crop_id))


def cautions_by_name(name: str) -> tuple[Caution, ...]:
    """Cautions for a crop that the almanac does not know, by the words in its name.

    Rather one caution too many: `white foxglove` gets that of the foxglove, and `datura` its own.
    """
    given = frozenset(words(name))
    matched = (_caution(row) for plant, row in _poisonous() if plant <= given) if given else ()
    return tuple(dict.fromkeys(matched))


@cache
def _poisonous() -> tuple[tuple[frozenset[str], Row], ...]:
    """Each hazard row under each name of its plant, the name as a set of folded words."""
    return tuple((frozenset(words(name)), row) for name, row in _named() if words(name))


def _named() -> Iterator[tuple[str, Row]]:
    for each in crops():
        for row in of_crop("hazards", each.id):
            yield from ((name, row) for name in each.all_names)
    for row in by_crop("hazards")[""]:
        yield from ((name, row) for name in row["plants"].split(";"))


def _caution(row: Row) -> Caution:
    source, mark = spell(row["source"]), Mark(row["mark"])
    return Caution(row["part"], row["hazard"], row["severity"], source, mark)
