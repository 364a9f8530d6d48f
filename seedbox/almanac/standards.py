"""What the law asks of seed that is sold: least germination."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from seedbox.almanac.marks import OWN_SOURCE, Mark
from seedbox.almanac.own import NO_OWN, own_number
from seedbox.almanac.sources import spell
from seedbox.almanac.tables import Row, by_crop, of_crop

# Federal law first; state lists only add the herbs and flowers that it leaves out.
_LISTS = {"eu": ("eu",), "us": ("us", "us-state")}


class Standard(NamedTuple):
    """Least germination for sale, as a fraction. `kind` is the name that the law uses."""

    fraction: float
    kind: str
    note: str
    source: str
    mark: Mark


def standard(crop_id: str, region: str, own: Mapping[str, str] = NO_OWN) -> Standard | None:
    """The minimum standard in a region (`eu` or `us`), or None where no law names the crop."""
    if (fraction := own_number(own, "standard")) is not None:
        return Standard(fraction, "", "", OWN_SOURCE, Mark.YOURS)
    for listed in _LISTS.get(region.lower(), ("eu",)):
        for row in of_crop("standards", crop_id):
            if row["region"] == listed:
                return _standard(row)
    return None


def residual_standards() -> tuple[Standard, ...]:
    """What some states ask of kinds that no list names. Set for no kind in particular."""
    unnamed = by_crop("standards")[""]
    return tuple(_standard(row) for row in unnamed if row["kind"].startswith("any "))


def _standard(row: Row) -> Standard:
    source, mark = spell(row["source"]), Mark(row["mark"])
    return Standard(float(row["percent"]) / 100, row["kind"], row["note"], source, mark)
