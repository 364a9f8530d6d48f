"""Forecasts against germination observed after open storage.

Data: Justice & Bass 1978, Principles and Practices of Seed Storage, USDA Agriculture Handbook 506,
Table 13 (public domain), in data/ageing_observed.csv. The number of seeds behind each figure is
not given; the first figure is entered as a test of 200 seeds.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from seedbox.science.ageing import Climate
from seedbox.science.likelihood import LotTest
from seedbox.science.posterior import Belief, lot_belief
from seedbox.science.predictive import predictive_interval
from seedbox.science.probit import normal_cdf
from seedbox.season.crop_basis import crop_basis

DATA = Path(__file__).parent / "data" / "ageing_observed.csv"
FIRST_TEST_SEEDS = 200
# Groundnut is no crop of the almanac: a crop of its family that nobody knows, with the oil content
# of 44 to 50 % (from memory) entered as a person would enter it.
PEANUT_OWN = {"oil_fraction": "47"}
BANDS = (("up to 50 % RH", 0, 50), ("51 to 70 % RH", 50, 70), ("above 70 % RH", 70, 100))
SUPPORTED = ("all up to 70 % RH", 0, 70)


@dataclass(frozen=True)
class Checked:
    crop: str
    humidity: float
    first: float
    observed: float
    mean: float
    predictive: tuple[float, float]
    latent: tuple[float, float]
    chart: float

    def covered(self, interval: tuple[float, float]) -> bool:
        return interval[0] <= self.observed <= interval[1]


def checked() -> list[Checked]:
    """Every row of the table with its forecast; one set of constants for all."""
    with DATA.open(newline="", encoding="utf-8") as file:
        return [_check(row) for row in csv.DictReader(file)]


def _check(row: dict[str, str]) -> Checked:
    unknown = row["crop"] == "peanut"
    basis = crop_basis(
        f"own:{row['crop']}" if unknown else row["crop"],
        "Fabaceae" if unknown else "",
        "us",
        0.65,
        PEANUT_OWN if unknown else {},
    )
    temperature, humidity = float(row["temp_C"]), float(row["rh_pct"])
    first, days = float(row["initial_germ_pct"]) / 100, float(row["days"])
    rate, _ = basis.rate(Climate(temperature, temperature, humidity / 100))
    test = LotTest(0.0, FIRST_TEST_SEEDS, round(first * FIRST_TEST_SEEDS))
    belief = lot_belief(basis.prior("bought", False), [test])
    dose = rate * days
    years = days / 365.25
    return Checked(
        crop=row["crop"],
        humidity=humidity,
        first=first,
        observed=float(row["final_germ_pct"]) / 100,
        mean=belief.mean(dose),
        predictive=predictive_interval(belief.masses(dose)),
        latent=(latent_quantile(belief, dose, 0.05), latent_quantile(belief, dose, 0.95)),
        chart=max(0.9 - 0.3 * years / basis.life.years, 0.0),
    )


def latent_quantile(belief: Belief, dose: float, probability: float) -> float:
    """Quantile of the lot's own germination, without the scatter of the next sample."""
    low, high = -8.0, 8.0
    for _ in range(40):
        middle = 0.5 * (low + high)
        if belief.probability_at_least(middle, dose) > 1.0 - probability:
            low = middle
        else:
            high = middle
    return normal_cdf(low)


def report() -> Iterator[str]:
    rows = checked()
    yield "Observed ageing in open storage, 110 and 250 days (USDA Handbook 506, Table 13)"
    yield (f"{'':30}{'rows':>5}{'mean abs. error, points':>36}{'90 % interval covers':>30}")
    yield (
        f"{'':35}{'Seedbox':>12}{'unchanged':>12}{'age chart':>12}"
        f"{'what is seen':>18}{'the lot':>12}"
    )
    for name, low, high in (*BANDS, SUPPORTED):
        band = [row for row in rows if low < row.humidity <= high]
        yield _line(name, band)
        yield _line("  without peanut", [row for row in band if row.crop != "peanut"])
    yield "By crop, up to 70 % RH:"
    for crop in sorted({row.crop for row in rows}):
        yield _line(f"  {crop}", [r for r in rows if r.crop == crop and r.humidity <= 70])
    yield "‘Unchanged’ stays at the first test; the chart falls from 90 to 60 % in its years."
    yield "250 days at most are little time to fall: staying at the first test is hard to beat."


def _line(name: str, rows: Sequence[Checked]) -> str:
    n = len(rows)
    errors = (
        sum(abs(value(row) - row.observed) for row in rows) / n
        for value in (lambda r: r.mean, lambda r: r.first, lambda r: r.chart)
    )
    seen = sum(row.covered(row.predictive) for row in rows) / n
    lot = sum(row.covered(row.latent) for row in rows) / n
    numbers = "".join(f"{100 * error:>12.1f}" for error in errors)
    return f"{name:<30}{n:>5}{numbers}{seen:>17.0%}{lot:>13.0%}"
