"""How emergence depends on the temperature of the soil."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from seedbox.almanac.marks import Mark
from seedbox.almanac.sources import spell
from seedbox.almanac.tables import Row, number, of_crop


class Outcome(StrEnum):
    """What the trial says of one temperature. Not tested is not the same as none came up."""

    MEASURED = "measured"
    NONE = "no germination"
    NOT_TESTED = "not tested"


@dataclass(frozen=True, slots=True)
class Emergence:
    """One cell of the 1954 table: days to emerge and fraction of normal seedlings, if known.

    Nothing may be read between two cells when one of them was not tested.
    """

    temperature_c: float
    outcome: Outcome
    days: float | None
    normal: float | None
    note: str
    source: str
    mark: Mark


@dataclass(frozen=True, slots=True)
class SoilTemperature:
    """Soil temperatures [C] for germination. Unknown ones are None."""

    minimum_c: float | None
    optimum_low_c: float | None
    optimum_high_c: float | None
    optimum_c: float | None
    maximum_c: float | None
    source: str
    mark: Mark


@dataclass(frozen=True, slots=True)
class ThermalTime:
    """Base temperature [C] and heat sum [C days] to the event. The sum may be unknown."""

    base_c: float
    degree_days: float | None
    event: str
    note: str
    source: str
    mark: Mark


def emergence(crop_id: str) -> tuple[Emergence, ...]:
    """The crop's cells of the 1954 table from cold to warm; empty when it is not in it."""
    return tuple(_emergence(row) for row in of_crop("emergence", crop_id))


def _emergence(row: Row) -> Emergence:
    percent = number(row["percent_normal"])
    return Emergence(
        float(row["temperature_c"]),
        Outcome(row["outcome"]),
        number(row["days"]),
        None if percent is None else percent / 100,
        row["note"],
        spell(row["source"]),
        Mark(row["mark"]),
    )


def soil_temperature(crop_id: str) -> SoilTemperature | None:
    """Least, best and highest soil temperature for germination, if a table names the crop."""
    return next((_soil_temperature(row) for row in of_crop("soil_temperature", crop_id)), None)


def _soil_temperature(row: Row) -> SoilTemperature:
    return SoilTemperature(
        number(row["minimum_c"]),
        number(row["optimum_low_c"]),
        number(row["optimum_high_c"]),
        number(row["optimum_c"]),
        number(row["maximum_c"]),
        spell(row["source"]),
        Mark(row["mark"]),
    )


def thermal_time(crop_id: str) -> tuple[ThermalTime, ...]:
    """Base temperature and heat sum, the best source first.

    Fits to the 1954 table come before Bierhuizen & Wagenvoort (1974), and those before sums that
    count germination on paper instead of emergence from soil.
    """
    return tuple(_thermal_time(row) for row in of_crop("thermal_time", crop_id))


def _thermal_time(row: Row) -> ThermalTime:
    return ThermalTime(
        float(row["base_c"]),
        number(row["degree_days"]),
        row["event"],
        row["note"],
        spell(row["source"]),
        Mark(row["mark"]),
    )
