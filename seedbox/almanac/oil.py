"""Oil in seed: it decides how much water seed holds at a given humidity."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from seedbox.almanac.crop_list import family_of, median_of, members
from seedbox.almanac.marks import OWN_SOURCE, Basis, Mark, borrowed
from seedbox.almanac.own import NO_OWN, own_number
from seedbox.almanac.sources import spell
from seedbox.almanac.tables import Row, by_crop, median


class OilContent(NamedTuple):
    """Oil as a fraction of the dry seed; the middle of the published range."""

    fraction: float
    basis: Basis
    source: str
    mark: Mark


def oil_fraction(crop_id: str, family: str = "", own: Mapping[str, str] = NO_OWN) -> OilContent:
    """Oil content of a crop, else the median of its family, else of all crops."""
    if (fraction := own_number(own, "oil_fraction")) is not None:
        return OilContent(fraction, Basis.YOURS, OWN_SOURCE, Mark.YOURS)
    known = _known()
    if row := known.get(crop_id):
        return OilContent(_middle(row), Basis.CROP, spell(row["source"]), Mark(row["mark"]))
    return _borrowed(family_of(crop_id, family))


@cache
def _borrowed(family: str) -> OilContent:
    """The median of a family, or of all crops where no relative has a figure."""
    known = _known()
    relatives = members(family) & known.keys()
    if family and not relatives:
        return _borrowed("")
    group = relatives or known.keys()
    return OilContent(
        median([_middle(known[crop_id]) for crop_id in group]),
        Basis.FAMILY if relatives else Basis.ALL,
        median_of(group, family),
        borrowed({Mark(mark) for mark in {known[crop_id]["mark"] for crop_id in group}}),
    )


@cache
def _known() -> dict[str, Row]:
    """The oil row of each crop. The row's `kind` is the name in the published list."""
    return {crop_id: group[0] for crop_id, group in by_crop("oil_content").items() if crop_id}


def _middle(row: Row) -> float:
    return (float(row["low_percent"]) + float(row["high_percent"])) / 200
