"""Days to emergence: each measured temperature left out in turn, and two sets of trials compared.

Table: Harrington & Minges 1954, Vegetable Seed Germination, California Agricultural Extension.
Heat sums: Bierhuizen & Wagenvoort 1974, Scientia Horticulturae 2:213-219 (from memory).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import log, sqrt
from statistics import median

from seedbox import almanac
from seedbox.science.emergence import Cell, Trial, best_temperature, read_table
from seedbox.science.emergence_constants import HEAT_SUM_HOTTEST_C, INTERVAL_Z, TABLE_LN_SD
from seedbox.science.errors import OutOfRangeError
from seedbox.science.heat_sum import HeatSum, fit_heat_sum, heat_sum_rate

NEAR_BASE_C = 2.0  # so near its base a heat sum says nothing


@dataclass(frozen=True)
class LeftOut:
    crop: str
    temperature_c: float
    days: float
    predicted: float | None
    at_end: bool
    heat_sum: float | None

    @property
    def ln_error(self) -> float:
        return log((self.predicted or self.days) / self.days)


def measured_table() -> Mapping[str, tuple[Cell, ...]]:
    """The table of each crop that has one."""
    found = {crop.id: almanac.emergence(crop.id) for crop in almanac.crops()}
    return {
        crop: tuple(Cell(c.temperature_c, Trial(c.outcome.value), c.days, c.normal) for c in cells)
        for crop, cells in found.items()
        if cells
    }


def left_out(table: Mapping[str, tuple[Cell, ...]]) -> list[LeftOut]:
    """Every measured cell, foretold from the crop's other cells."""
    return [
        _leave_out(crop, cells, cell)
        for crop, cells in table.items()
        for cell in cells
        if cell.trial is Trial.MEASURED
    ]


def _leave_out(crop: str, cells: tuple[Cell, ...], cell: Cell) -> LeftOut:
    others = tuple(each for each in cells if each is not cell)
    measured = [each.temperature_c for each in others if each.trial is Trial.MEASURED]
    rate = read_table(others, cell.temperature_c).rate
    at_end = not measured[0] < cell.temperature_c < measured[-1]
    return LeftOut(
        crop,
        cell.temperature_c,
        cell.days or 0.0,
        1.0 / rate if rate else None,
        at_end,
        _by_heat_sum(others, cell.temperature_c),
    )


def _by_heat_sum(others: tuple[Cell, ...], temperature_c: float) -> float | None:
    """By a heat sum fitted to the rising part of the other cells."""
    measured = [c for c in others if c.days]
    quickest = min(measured, key=lambda c: (c.days or 0.0, c.temperature_c))
    limb = [(c.temperature_c, c.days) for c in measured if c.days]
    limb = [point for point in limb if point[0] <= quickest.temperature_c]
    if temperature_c > quickest.temperature_c:
        return None
    try:
        rate = heat_sum_rate(temperature_c, fit_heat_sum(limb))
    except OutOfRangeError:
        return None
    return 1.0 / rate if rate > 0.0 else None


def between_trials(table: Mapping[str, tuple[Cell, ...]]) -> list[tuple[str, float]]:
    """ln (days by the table / days by the heat sum of 1974), where both hold."""
    found = []
    for crop, cells in table.items():
        top = min(best_temperature(cells).temperature_c, HEAT_SUM_HOTTEST_C)
        for heat in _sums_of_1974(crop):
            found += [
                (crop, log(cell.days * heat_sum_rate(cell.temperature_c, heat)))
                for cell in cells
                if cell.days and heat.base_c + NEAR_BASE_C < cell.temperature_c <= top
            ]
    return found


def _sums_of_1974(crop: str) -> list[HeatSum]:
    return [
        HeatSum(each.base_c, each.degree_days)
        for each in almanac.thermal_time(crop)
        if each.degree_days and each.source.startswith("Bierhuizen")
    ]


def print_report() -> None:
    """All figures, computed now."""
    for line in report():
        print(line, flush=True)


def report() -> Iterator[str]:
    """Lines of the report."""
    table = measured_table()
    found = left_out(table)
    inside = [each for each in found if each.predicted is not None]
    yield f"Days to emergence, one temperature left out: {len(found)} cells of {len(table)} crops"
    yield f"  between its neighbours, 10 C apart     {_line([e.ln_error for e in inside])}"
    days = [abs((each.predicted or 0.0) - each.days) for each in inside]
    yield f"  in days: mean {sum(days) / len(days):.1f}, median {median(days):.1f}"
    yield f"  ends of the range: {sum(e.at_end for e in found)} cells, no answer given to any"
    fitted = [log(each.heat_sum / each.days) for each in found if each.heat_sum]
    yield f"  by a heat sum fitted to the others     {_line(fitted)}"
    worst = sorted(inside, key=lambda each: -abs(each.ln_error))[:5]
    for each in worst:
        yield (
            f"  worst: {each.crop} at {each.temperature_c:g} C, {each.days:g} days, "
            f"foretold {each.predicted:.1f}"
        )
    trials = between_trials(table)
    yield "Table of 1954 against heat sums of 1974 (from memory)"
    yield f"  {len({crop for crop, _ in trials})} crops{'':31}{_line([e for _, e in trials])}"
    inside_90 = sum(abs(error) <= INTERVAL_Z * TABLE_LN_SD for _, error in trials)
    yield f"  inside the 90 % interval of the table  {inside_90} of {len(trials)}"


def _line(errors: list[float]) -> str:
    rms = sqrt(sum(e * e for e in errors) / len(errors))
    middle = median(abs(e) for e in errors)
    largest = max(map(abs, errors))
    return f"n {len(errors):3}  rms {rms:.3f}  median {middle:.3f}  worst {largest:.3f} (ln days)"


if __name__ == "__main__":
    print_report()
