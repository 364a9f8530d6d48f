"""How heavy seed is: grams for a thousand seeds."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from seedbox.almanac.marks import OWN_SOURCE, Mark
from seedbox.almanac.own import NO_OWN, own_number
from seedbox.almanac.sources import spell
from seedbox.almanac.tables import Row, of_crop

# The source of the second choice: seeds per gram instead of a weight.
SEEDS_PER_GRAM = "CFR-201.46"


class Weight(NamedTuple):
    """Thousand-seed weight [g]. `note` says where the unit sown is a fruit or a cluster."""

    grams: float
    note: str
    source: str
    mark: Mark


def thousand_seed_weight_g(crop_id: str, own: Mapping[str, str] = NO_OWN) -> Weight | None:
    """Weighed by Kew, else 1000 divided by seeds per gram; None where neither is usable.

    Kew's figures for thyme and statice are kept in the data but not used: they are too heavy
    by several times, or were taken on uncleaned fruit.
    """
    if (grams := own_number(own, "thousand_seed_weight_g")) is not None:
        return Weight(grams, "", OWN_SOURCE, Mark.YOURS)
    usable = {row["figure"]: row for row in of_crop("seed_size", crop_id) if row["usable"] == "yes"}
    if row := usable.get("thousand_seed_weight_g"):
        return _weight(float(row["low"]), row)
    if row := usable.get("seeds_per_gram"):
        return _weight(2000 / (float(row["low"]) + float(row["high"])), row)
    return None


def _weight(grams: float, row: Row) -> Weight:
    return Weight(grams, row["note"], spell(row["source"]), Mark(row["mark"]))
