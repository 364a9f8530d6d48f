"""How a crop is sown and grown, and how its seed is saved."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from seedbox.almanac.facts import Fact, facts, used
from seedbox.almanac.marks import OWN_SOURCE, Mark
from seedbox.almanac.own import NO_OWN, own_span
from seedbox.almanac.sources import spell
from seedbox.almanac.tables import Row, of_crop, rows

# Figures of this table that a person may set; the rest are said in words or computed.
SETTABLE = (
    "depth_mm",
    "plant_spacing_cm",
    "row_spacing_cm",
    "emerge_days",
    "weeks_to_transplant",
    "days_to_maturity",
    "indoor_weeks_before_last_frost",
    "succession_days",
    "min_container_depth_cm",
)


def growing(crop_id: str, own: Mapping[str, str] = NO_OWN) -> dict[str, Fact]:
    """Depth [mm], spacing [cm], days, weeks and words on growing, by name of the figure.

    Weeks are counted from the last spring frost, negative before it. Unknown figures are
    absent, never zero. A person's own figures stand in place of the almanac's.
    """
    known = used(all_growing(crop_id))
    return known | {fact.name: fact for fact in _own(own, known)}


def _own(own: Mapping[str, str], known: Mapping[str, Fact]) -> list[Fact]:
    spans = ((name, own_span(own, name)) for name in SETTABLE)
    return [
        Fact(name, *ends, known[name].text if name in known else "", OWN_SOURCE, Mark.YOURS)
        for name, ends in spans
        if ends is not None
    ]


def all_growing(crop_id: str) -> tuple[Fact, ...]:
    """Every growing figure, several sources included, with pretreatments in words."""
    return tuple(_in_words(fact) for fact in facts("growing", crop_id))


def _in_words(fact: Fact) -> Fact:
    if fact.name != "pretreatment":
        return fact
    meaning = _pretreatments()[fact.text]
    return Fact(fact.name, None, None, meaning, fact.source, fact.mark)


def pretreatments(crop_id: str) -> tuple[str, ...]:
    """Codes of what seed of this crop wants before sowing, such as `soak_24h`, `stratify`."""
    found = of_crop("growing", crop_id)
    return tuple(row["text"] for row in found if row["figure"] == "pretreatment")


@cache
def _pretreatments() -> dict[str, str]:
    return {row["code"]: row["meaning"] for row in rows("pretreatments")}


def seed_saving(crop_id: str) -> dict[str, Fact]:
    """Mating, isolation [m], number of plants, ripeness and processing, by name."""
    return used(facts("seed_saving", crop_id))


@dataclass(frozen=True, slots=True)
class FieldEmergence:
    """Emergence in the field as a fraction of laboratory germination. `mean` may be unknown."""

    mean: float | None
    low: float
    high: float
    source: str
    mark: Mark


def field_emergence(crop_id: str) -> FieldEmergence | None:
    """How much of what germinates in the laboratory came up in the field, if measured."""
    return next((_field_emergence(row) for row in of_crop("field_emergence", crop_id)), None)


def _field_emergence(row: Row) -> FieldEmergence:
    mean = float(row["mean_percent"]) / 100 if row["mean_percent"] else None
    low, high = float(row["low_percent"]) / 100, float(row["high_percent"]) / 100
    return FieldEmergence(mean, low, high, spell(row["source"]), Mark(row["mark"]))
