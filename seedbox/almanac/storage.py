"""How long seed of a crop keeps, from published lists.

Lists copy each other. Lists that go back to one table are one lineage: the median is taken
within a lineage first and then over the lineages, so a table often copied counts once.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from math import log, sqrt
from typing import NamedTuple

from seedbox.almanac.crop_list import family_of, median_of, members
from seedbox.almanac.marks import OWN_SOURCE, Basis, Mark, borrowed, weakest
from seedbox.almanac.own import NO_OWN, own_number
from seedbox.almanac.sources import spell_all
from seedbox.almanac.tables import Row, by_crop, median, of_crop, rows

YEARS_MEASURE = "satisfactory germination"
HALF_VIABILITY = "half-viability (50 %)"

# Half-viability is the fall from the initial value to 50 %; a list's years are the fall from
# 90 to 60 %. On the probit scale time is even, so one is a share of the other. The paper gives no
# initial value; 97 % is taken, usual for fresh seed (common practice, no source).
PROBIT_97, PROBIT_90, PROBIT_60 = 1.8808, 1.2816, 0.2533
YEARS_PER_HALF_VIABILITY = (PROBIT_90 - PROBIT_60) / PROBIT_97

# A list gives whole years, so its figure is off by up to half a year: sd of an even spread.
ROUNDING_SD_YEARS = 1 / sqrt(12)


class StorageLife(NamedTuple):
    """Years in which germination falls from 90 to 60 % at 20 C and 50 % RH.

    `sd_ln` is the spread of ln(years): over lineages for a crop's own figure, over crops and
    lineages for a borrowed one. `lineages` is how many independent lists agree to it.
    """

    years: float
    sd_ln: float
    lineages: int
    basis: Basis
    source: str
    mark: Mark


class _Known(NamedTuple):
    """The lineages of one crop: years of each, their median and mark, and the rows behind them."""

    years: tuple[float, ...]
    median: float
    mark: Mark
    weak: bool
    rows: tuple[Row, ...]


def storage_life(crop_id: str, family: str = "", own: Mapping[str, str] = NO_OWN) -> StorageLife:
    """Storage life of a crop; from its family or from all crops where no list names it.

    `family` serves crops that the almanac does not know. `own` holds a person's own figures.
    """
    known = _known().get(crop_id)
    if (years := own_number(own, "storage_years")) is not None:
        spread = typical_spread() if known is None else _crop_spread(known)
        return StorageLife(years, spread, 1, Basis.YOURS, OWN_SOURCE, Mark.YOURS)
    if known is not None:
        return _of_crop(known)
    return _borrowed(family_of(crop_id, family))


def _of_crop(known: _Known) -> StorageLife:
    source = spell_all(row["source"] for row in known.rows)
    spread, lineages = _crop_spread(known), len(known.years)
    return StorageLife(known.median, spread, lineages, Basis.CROP, source, known.mark)


def _mark(group: tuple[Row, ...]) -> Mark:
    """One list's figure keeps its mark; a median is computed, unless a part is from memory."""
    mark = weakest({Mark(mark) for mark in {row["mark"] for row in group}})
    as_listed = len(group) == 1 and group[0]["measure"] == YEARS_MEASURE
    return mark if as_listed or mark is Mark.MEMORY else Mark.COMPUTED


@cache
def _borrowed(family: str) -> StorageLife:
    """The median of a family, or of all crops where no list names a relative."""
    known = _known()
    relatives = members(family) & known.keys()
    if family and not relatives:
        return _borrowed("")
    group = relatives or known.keys()
    among = _spread_within_families() if relatives else _spread_of_all()
    return StorageLife(
        median([known[crop_id].median for crop_id in group]),
        sqrt(among**2 + typical_spread() ** 2),
        len(group),
        Basis.FAMILY if relatives else Basis.ALL,
        median_of(group, family),
        borrowed({known[crop_id].mark for crop_id in group}),
    )


@cache
def _known() -> dict[str, _Known]:
    candidates = ((c, _lineages(group)) for c, group in by_crop("storage_life").items())
    return {crop_id: known for crop_id, known in candidates if known is not None}


def _lineages(group: tuple[Row, ...]) -> _Known | None:
    """The best lineages of a crop: weak ones only where there is nothing better."""
    by_lineage: dict[str, list[Row]] = {}
    for row in group:
        if row["years"]:
            by_lineage.setdefault(row["lineage"], []).append(row)
    for rank in ("1", "2"):
        chosen = [name for name in by_lineage if _ranks()[name]["rank"] == rank]
        kept = [name for name in chosen if not _counted_elsewhere(name, chosen)]
        if kept:
            years = [median([_years(row) for row in by_lineage[name]]) for name in kept]
            behind = tuple(row for name in kept for row in by_lineage[name])
            return _Known(tuple(years), median(years), _mark(behind), rank == "2", behind)
    return None


def _counted_elsewhere(lineage: str, chosen: list[str]) -> bool:
    """Whether a lineage is an average of others that are counted already."""
    contains = _ranks()[lineage]["contains"].split(";")
    return any(name in chosen for name in contains)


@cache
def _ranks() -> dict[str, Row]:
    return {row["lineage"]: row for row in rows("lineages")}


def _years(row: Row) -> float:
    factor = YEARS_PER_HALF_VIABILITY if row["measure"] == HALF_VIABILITY else 1.0
    return float(row["years"]) * factor


def _crop_spread(known: _Known) -> float:
    """Spread over lineages, never below rounding; a typical one where it cannot be measured."""
    rounding = ROUNDING_SD_YEARS / known.median
    if known.weak:
        return sqrt(2.0) * typical_spread()
    if len(known.years) < 3:
        return max(typical_spread(), rounding)
    return max(sqrt(_pooled_variance([known.years])), rounding)


@cache
def typical_spread() -> float:
    """sd of ln(years) between lineages that name the same crop, pooled over all crops."""
    return sqrt(_pooled_variance([known.years for known in _known().values() if not known.weak]))


@cache
def _spread_within_families() -> float:
    families: dict[str, list[float]] = {}
    for crop_id, known in _known().items():
        families.setdefault(family_of(crop_id), []).append(known.median)
    return sqrt(_pooled_variance([tuple(years) for years in families.values()]))


@cache
def _spread_of_all() -> float:
    return sqrt(_pooled_variance([tuple(known.median for known in _known().values())]))


def _pooled_variance(groups: list[tuple[float, ...]]) -> float:
    """Variance of ln around each group's own mean, over all groups with two or more values."""
    squares = freedom = 0.0
    for group in groups:
        logs = [log(value) for value in group]
        mean = sum(logs) / len(logs)
        squares += sum((value - mean) ** 2 for value in logs)
        freedom += len(logs) - 1
    return squares / freedom if freedom else 0.0


def storage_class(crop_id: str) -> Row | None:
    """The row of Walters et al. (2005) that calls a crop short, medium or long lived, if any.

    It ranks crops and gives no years, so it takes no part in `storage_life`.
    """
    classed = (row for row in of_crop("storage_life", crop_id) if row["storage_class"])
    return next(classed, None)
