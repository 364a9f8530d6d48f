"""How far official tests may differ by chance: between replicates, and between two tests."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from seedbox.almanac.marks import Mark
from seedbox.almanac.sources import spell
from seedbox.almanac.tables import Row, rows


@dataclass(frozen=True, slots=True)
class Tolerance:
    """The largest difference that is put down to chance [percentage points]."""

    points: int
    source: str
    mark: Mark


def replicate_tolerance(average_percent: float, replicates: int) -> Tolerance | None:
    """Largest range between replicates of 100 seeds, by their average germination.

    `average_percent` is rounded to a whole number, as the table is. None where the table says
    nothing: other than 4 or 2 replicates, averages of 100 or below 2 %, and two replicates
    outside 71 to 97 % and its mirror. The figures are stored, never computed: their rounding is
    irregular.

    >>> replicate_tolerance(86, 4).points, replicate_tolerance(14, 4).points
    (14, 13)
    """
    return _between_replicates().get((replicates, _whole(average_percent)))


def two_test_tolerance(average_percent: float) -> Tolerance | None:
    """Largest difference between two tests of 400 seeds, by their average germination.

    That the table means tests of 400 seeds is from memory. None above 99 or below 2 %.

    >>> two_test_tolerance(88).points
    6
    """
    return _between_tests().get(_whole(average_percent))


def _whole(percent: float) -> int:
    """Rounded as seed analysts do, halves up."""
    return int(percent + 0.5)


@cache
def _between_replicates() -> Mapping[tuple[int, int], Tolerance]:
    found: dict[tuple[int, int], Tolerance] = {}
    for row in rows("replicate_tolerance"):
        for average in (row["average_percent"], row["mirror_percent"]):
            found[int(row["replicates"]), int(average)] = _tolerance(row, row["max_range"])
    return found


@cache
def _between_tests() -> Mapping[int, Tolerance]:
    found: dict[int, Tolerance] = {}
    for row in rows("two_test_tolerance"):
        for side in ("average", "mirror"):
            for average in range(int(row[f"{side}_from"]), int(row[f"{side}_to"]) + 1):
                found[average] = _tolerance(row, row["max_difference"])
    return found


def _tolerance(row: Row, points: str) -> Tolerance:
    return Tolerance(int(points), spell(row["source"]), Mark(row["mark"]))
