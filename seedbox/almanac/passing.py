"""Kinds whose seed is not simply passed on: plant-health lists, invasive kinds, restricted ones.

Absence from the list proves nothing, and a list from memory is never law: a person is told to
check their own.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from seedbox.almanac.marks import Mark
from seedbox.almanac.sources import spell
from seedbox.almanac.tables import Row, of_crop


class PassingRule(StrEnum):
    """Why a kind is on a list."""

    PASSPORT = "plant passport"
    INVASIVE = "invasive"
    RESTRICTED = "restricted"


@dataclass(frozen=True, slots=True)
class PassingOn:
    """One entry: under which `law` (eu, gb, us, other) it is said, and `where` it holds."""

    law: str
    rule: PassingRule
    where: str
    source: str
    mark: Mark


def passing_on(crop_id: str) -> tuple[PassingOn, ...]:
    """What is said of passing on seed of a crop, under every law."""
    return tuple(_entry(row) for row in of_crop("passing_on", crop_id))


def _entry(row: Row) -> PassingOn:
    rule = PassingRule(row["rule"])
    return PassingOn(row["law"], rule, row["text"], spell(row["source"]), Mark(row["mark"]))
