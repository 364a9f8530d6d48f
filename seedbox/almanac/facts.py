"""Facts of a crop as its growing and seed-saving tables give them: a range, a word, or both."""

from __future__ import annotations

from dataclasses import dataclass

from seedbox.almanac.marks import Mark
from seedbox.almanac.sources import spell
from seedbox.almanac.tables import Row, number, of_crop, span


@dataclass(frozen=True, slots=True)
class Fact:
    """One fact. `low` and `high` are None where it is said in words (`text`) alone."""

    name: str
    low: float | None
    high: float | None
    text: str
    source: str
    mark: Mark

    @property
    def value(self) -> str:
        """The fact as it is shown: `13 to 25`, `tender`."""
        if self.low is None or self.high is None:
            return self.text
        return span(self.low, self.high)

    @property
    def note(self) -> str:
        """What a range is of, such as `from sowing`; a fact in words needs no note."""
        return "" if self.low is None else self.text


def facts(table: str, crop_id: str) -> tuple[Fact, ...]:
    """All facts of a crop in a table. Where a name comes twice, the first is the one to use."""
    return tuple(_fact(row) for row in of_crop(table, crop_id))


def used(group: tuple[Fact, ...]) -> dict[str, Fact]:
    """The fact to use under each name: later ones are other sources, for comparison."""
    return {fact.name: fact for fact in reversed(group)}


def _fact(row: Row) -> Fact:
    low, high = number(row["low"]), number(row["high"])
    return Fact(row["figure"], low, high, row["text"], spell(row["source"]), Mark(row["mark"]))
