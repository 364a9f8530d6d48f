"""What is known of a crop's emergence: trials, a heat sum, its species, or its growing page."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

from seedbox import almanac
from seedbox.almanac import Mark
from seedbox.science import emergence_constants as c
from seedbox.science.emergence import (
    Cell,
    Reach,
    Reading,
    Trial,
    best_temperature,
    read_table,
    share_kept,
)
from seedbox.science.heat_sum import HeatSum, heat_sum_rate
from seedbox.season.sowing.figures import Span, sowing_figures

# Its days in the table of 1954 are two to four times shorter than every other source has them:
# good for turnip in that trial, but not lent to the leaves of its species.
_NOT_LENT = frozenset({"turnip"})


class Ground(StrEnum):
    """What an expected emergence rests on."""

    TRIALS = "trials at soil temperatures (Harrington & Minges 1954)"
    HEAT_SUM = "a heat sum above a base temperature"
    PAGE = "the usual days, at an unstated room temperature"


@dataclass(frozen=True, slots=True)
class EmergenceModel:
    """How a crop comes up. `lender` is the crop of its species whose figures these are, or empty.

    `least_c`, `most_c` [C]: where the heat sum holds. `page_days` [d] are used alone.
    """

    crop_id: str
    ground: Ground
    cells: tuple[Cell, ...] = ()
    heat: HeatSum | None = None
    least_c: float = 0.0
    most_c: float = 0.0
    page_days: Span | None = None
    lender: str = ""
    yours: bool = False

    @property
    def ln_sd(self) -> float:
        """Spread of ln days around the middle [-]."""
        if self.lender:
            return c.BORROWED_LN_SD
        return c.TABLE_LN_SD if self.ground is Ground.TRIALS else c.HEAT_SUM_LN_SD

    def reading(self, temperature_c: float) -> tuple[Reading, Ground]:
        """What is known at a temperature: by trials first, then by the heat sum beside them."""
        found = read_table(self.cells, temperature_c) if self.cells else Reading(Reach.UNTESTED)
        if found.reach is not Reach.UNTESTED or self.heat is None:
            return found, Ground.TRIALS
        if self.least_c < temperature_c <= self.most_c:
            rate = heat_sum_rate(temperature_c, self.heat)
            return Reading(Reach.KNOWN, rate), Ground.HEAT_SUM
        if self.cells:
            return found, Ground.TRIALS
        reach = Reach.TOO_COLD if temperature_c <= self.least_c else Reach.UNTESTED
        return Reading(reach), Ground.HEAT_SUM

    def rate(self, temperature_c: float) -> float | None:
        """Progress a day at a temperature; None where nothing is known to come up."""
        return self.reading(temperature_c)[0].rate

    def best(self) -> tuple[float, float] | None:
        """(temperature [C], days) at which it comes up best; None by the growing page."""
        if self.cells:
            cell = best_temperature(self.cells)
            return cell.temperature_c, cell.days or 0.0
        if self.heat is None:
            return None
        return self.most_c, 1.0 / heat_sum_rate(self.most_c, self.heat)

    def share(self, temperature_c: float) -> float | None:
        """Share of seedlings kept at a temperature, of the most that the trials gave."""
        reading = read_table(self.cells, temperature_c) if self.cells else None
        return share_kept(self.cells, reading.normal) if reading else None


def emergence_model(crop_id: str, own: Mapping[str, str] | None = None) -> EmergenceModel:
    """The best that is known: a person's own days, trials, heat sum, species, growing page.

    Raises NotFoundError for a crop that the almanac does not know.
    """
    if (
        own
        and "emerge_days" in own
        and almanac.growing(crop_id, own)["emerge_days"].mark is (Mark.YOURS)
    ):
        days = sowing_figures(crop_id, own).emerge_days
        return EmergenceModel(crop_id, Ground.PAGE, page_days=days, yours=True)
    return _known(crop_id)


@lru_cache(maxsize=512)
def _known(crop_id: str) -> EmergenceModel:
    found = _by_figures(crop_id, crop_id) or next(
        (model for lender in _species(crop_id) if (model := _by_figures(crop_id, lender))), None
    )
    if found is not None:
        return found
    return EmergenceModel(crop_id, Ground.PAGE, page_days=sowing_figures(crop_id).emerge_days)


def _by_figures(crop_id: str, lender: str) -> EmergenceModel | None:
    lent = "" if lender == crop_id else lender
    cells = () if lent in _NOT_LENT and lent else _cells(lender)
    heat = _heat_sum(lender, of_1974=bool(lent) and lent in _NOT_LENT)
    if cells:
        least, most = _beside_the_table(cells, heat) if heat else (0.0, 0.0)
        return EmergenceModel(crop_id, Ground.TRIALS, cells, heat, least, most, lender=lent)
    if heat is None:
        return None
    least, most = _rising_limb(lender, heat)
    return EmergenceModel(crop_id, Ground.HEAT_SUM, (), heat, least, most, lender=lent)


def _cells(crop_id: str) -> tuple[Cell, ...]:
    return tuple(
        Cell(each.temperature_c, Trial(each.outcome.value), each.days, each.normal)
        for each in almanac.emergence(crop_id)
    )


def _heat_sum(crop_id: str, *, of_1974: bool) -> HeatSum | None:
    """The first sum that counts emergence from soil; sums of germination on paper are shorter."""
    return next(
        (
            HeatSum(each.base_c, each.degree_days)
            for each in almanac.thermal_time(crop_id)
            if each.degree_days
            and "emergence" in each.event
            and (not of_1974 or each.source.startswith("Bierhuizen"))
        ),
        None,
    )


def _beside_the_table(cells: tuple[Cell, ...], heat: HeatSum) -> tuple[float, float]:
    """Where a heat sum may stand in: between the coldest trial and an untested cell below it.

    Not across that cell, and not where it would ask more than twice the slowest trial's days.
    """
    first = next(i for i, cell in enumerate(cells) if cell.trial is Trial.MEASURED)
    coldest = cells[first]
    if first == 0 or cells[first - 1].trial is not Trial.NOT_TESTED:
        return coldest.temperature_c, coldest.temperature_c
    slowest = heat.base_c + heat.degree_days / (c.HEAT_SUM_TIMES * (coldest.days or 1.0))
    return max(cells[first - 1].temperature_c, slowest), coldest.temperature_c


def _rising_limb(crop_id: str, heat: HeatSum) -> tuple[float, float]:
    """Where a heat sum alone may be used: from sixty days down to the optimum."""
    least = heat.base_c + heat.degree_days / c.HEAT_SUM_MOST_DAYS
    soil = almanac.soil_temperature(crop_id)
    if soil is None:
        return least, c.HEAT_SUM_HOTTEST_C
    best = soil.optimum_c or soil.optimum_high_c or c.HEAT_SUM_HOTTEST_C
    return max(least, (soil.minimum_c or least) - 1e-9), min(best, c.HEAT_SUM_HOTTEST_C)


def _species(crop_id: str) -> list[str]:
    """Other crops of the same botanical species, those with trials first."""
    words = almanac.crop(crop_id).botanical_name.split()[:2]
    same = [
        other.id
        for other in almanac.crops()
        if other.id != crop_id and other.botanical_name.split()[:2] == words
    ]
    return sorted(same, key=lambda each: (each in _NOT_LENT, not almanac.emergence(each), each))
