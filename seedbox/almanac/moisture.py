"""Moisture in seed: what the law allows in sealed packets, and what the air brings about."""

from __future__ import annotations

from dataclasses import dataclass

from seedbox.almanac.marks import Mark
from seedbox.almanac.sources import spell
from seedbox.almanac.tables import of_crop


@dataclass(frozen=True, slots=True)
class SealedMoisture:
    """Highest moisture [% of fresh weight] of seed in a sealed packet."""

    percent: float
    kind: str
    source: str
    mark: Mark


@dataclass(frozen=True, slots=True)
class EquilibriumMoisture:
    """Moisture [% of fresh weight] that seed takes on in air of this humidity (a fraction)."""

    relative_humidity: float
    temperature_c: float
    percent: float
    source: str
    mark: Mark


def sealed_packet_moisture(crop_id: str) -> SealedMoisture | None:
    """Highest moisture at which US law lets seed of this kind be sealed, if it names the kind."""
    for row in of_crop("sealed_moisture", crop_id):
        source, mark = spell(row["source"]), Mark(row["mark"])
        return SealedMoisture(float(row["percent"]), row["kind"], source, mark)
    return None


def equilibrium_moisture(crop_id: str) -> tuple[EquilibriumMoisture, ...]:
    """Published moisture at several humidities, dry to damp; empty where none is known."""
    return tuple(
        EquilibriumMoisture(
            float(row["humidity_percent"]) / 100,
            float(row["temperature_c"]),
            float(row["moisture_percent"]),
            spell(row["source"]),
            Mark(row["mark"]),
        )
        for row in of_crop("equilibrium_moisture", crop_id)
    )
