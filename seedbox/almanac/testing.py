"""How seed of a crop is tested, what counts as a normal seedling, when a lot is regrown."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from seedbox.almanac.marks import Mark
from seedbox.almanac.sources import spell
from seedbox.almanac.tables import Row, by_crop, of_crop, rows

# Below the range of the genebank table its own rule is used (Rao et al. 2006): 85 % of the start.
REGENERATION_SHARE = 0.85


@dataclass(frozen=True, slots=True)
class TestConditions:
    """One set of test rules. `temperature_c` is as the rules print it: `20-30` alternates.

    `rules` is `us` or `eu` (ISTA). Counts are days from the start; a first count may be unknown.
    """

    __test__ = False  # not a test case, whatever its name looks like to a test runner

    rules: str
    kind: str
    substrate: str
    temperature_c: str
    first_count_day: int | None
    final_count_day: int
    directions: str
    source: str
    mark: Mark


@dataclass(frozen=True, slots=True)
class SeedlingRule:
    """What is asked of a seedling for it to count as normal."""

    group: str
    rule: str
    source: str
    mark: Mark


def test_conditions(crop_id: str, region: str = "") -> tuple[TestConditions, ...]:
    """Test rules for a crop, those of the region (`eu` or `us`) first."""
    found = [_conditions(row) for row in of_crop("test_conditions", crop_id)]
    return tuple(sorted(found, key=lambda each: each.rules != region.lower()))


def _conditions(row: Row) -> TestConditions:
    first = row["first_count_day"]
    return TestConditions(
        row["rules"],
        row["kind"],
        ", ".join(_substrates()[code.strip()] for code in row["substrate"].split(",")),
        row["temperature_c"],
        int(first) if first else None,
        int(row["final_count_day"]),
        row["directions"],
        spell(row["source"]),
        Mark(row["mark"]),
    )


@cache
def _substrates() -> dict[str, str]:
    return {row["code"]: row["meaning"] for row in rows("substrates")}


def seedling_rules(crop_id: str) -> tuple[SeedlingRule, ...]:
    """The rule of the crop's own group, if any, then the general one."""
    found = (*of_crop("seedling_rules", crop_id), *by_crop("seedling_rules")[""])
    return tuple(
        SeedlingRule(row["group"], row["rule"], spell(row["source"]), Mark(row["mark"]))
        for row in found
    )


def regeneration_threshold(initial: float) -> float:
    """Germination below which a lot is regrown, for one that began at `initial` (fractions).

    Rao et al. (2006), Table 8.2, in whole percent from 85 to 100 %; lower down, 85 % of the start.

    >>> regeneration_threshold(0.95)
    0.81
    """
    whole = _thresholds().get(round(initial * 100))
    return initial * REGENERATION_SHARE if whole is None else whole


@cache
def _thresholds() -> dict[int, float]:
    return {
        int(row["initial_percent"]): int(row["below_percent"]) / 100 for row in rows("regeneration")
    }
