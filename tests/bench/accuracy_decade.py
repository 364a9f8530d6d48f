"""A simulated decade of sowing: three rules decide over the same tins.

The truth is not the model's own belief alone: lots of other spreads, tables that promise too
much or too little, and stores that are warmer and damper than the grower believes.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from math import ceil, exp

from seedbox.science.advice import Advice
from seedbox.science.ageing import Climate
from seedbox.science.likelihood import LotTest
from seedbox.science.posterior import lot_belief
from seedbox.science.probit import probit
from seedbox.season.crop_basis import CropBasis, crop_basis
from seedbox.season.outlook import Outlook, Thresholds, outlook
from tests.bench.accuracy_calibration import draw_share

GROWERS = 80
YEARS = 10
PLANTS = 10
PACKET = 100
SEED = 20261125
FALLBACK, FLOOR, SURE = 0.65, 0.35, 0.75
CROPS = (
    "parsnip",
    "onion_bulb",
    "leek",
    "carrot",
    "lettuce",
    "tomato",
    "bean_french_dwarf",
    "sweet_corn",
    "beetroot",
    "cabbage",
    "spinach",
    "cucumber",
)
STATED = Climate(14.0, 22.0, 0.50)


@dataclass(frozen=True)
class Truth:
    """How the world differs from what the model believes."""

    name: str
    viability_above: float
    viability_sd: float
    rate_median: float
    rate_sd: float
    warmer_c: float
    damper: float


TRUTHS = (
    Truth("as the model believes", 0.65, 0.4, 1.0, 0.6, 0.0, 0.0),
    Truth(
        "worse lots, tables too hopeful, store 4 C warmer and damper", 0.4, 0.6, 1.4, 0.8, 4, 0.08
    ),
    Truth("tables too gloomy, lots more alike", 0.8, 0.3, 0.5, 0.4, -2, -0.05),
    Truth("lots far more unlike than believed", 0.5, 0.8, 1.0, 1.1, 0.0, 0.0),
)


@dataclass
class Lot:
    """One packet: what it is in truth, and what is known of it."""

    viability: float
    rate: float
    age: int = 0
    left: int = PACKET
    tests: list[tuple[int, int, int]] = field(default_factory=list)


@dataclass
class Tally:
    wanted: int = 0
    short: int = 0
    sown: int = 0
    tested: int = 0
    discarded_alive: float = 0.0
    bought: int = 0


class Garden:
    """One crop of one grower under one rule; the lots are the same for each rule."""

    def __init__(self, basis: CropBasis, truth: Truth, seed: int) -> None:
        self.basis = basis
        self._rng = random.Random(seed)
        self._lots = random.Random(seed + 1)
        self._truth = truth
        self.tally = Tally()
        self.stated_rate = 365.25 * basis.rate(STATED)[0]
        actual = Climate(
            STATED.coolest_c + truth.warmer_c,
            STATED.warmest_c + truth.warmer_c,
            (STATED.relative_humidity or 0.0) + truth.damper,
        )
        self._true_rate = 365.25 * basis.rate(actual)[0]
        self.last_sowing = (0, 0, 0)
        self.lot = self._new_lot()

    def _new_lot(self) -> Lot:
        mean = probit(self.basis.standard) + self._truth.viability_above
        viability = self._lots.gauss(mean, self._truth.viability_sd)
        return Lot(
            viability, self._truth.rate_median * exp(self._lots.gauss(0, self._truth.rate_sd))
        )

    def _now(self) -> float:
        return self.lot.viability - self.lot.rate * self._true_rate * self.lot.age

    def replace(self) -> None:
        alive = draw_share(self._rng, self._now())
        self.tally.discarded_alive += alive * self.lot.left
        self.tally.bought += 1
        self.lot = self._new_lot()

    def test(self, seeds: int) -> float:
        seeds = min(seeds, self.lot.left)
        share = draw_share(self._rng, self._now())
        alive = sum(self._rng.random() < share for _ in range(seeds))
        self.lot.left -= seeds
        self.lot.tests.append((self.lot.age, seeds, alive))
        self.tally.tested += seeds
        return alive / seeds if seeds else 0.0

    def sow(self, factor: float) -> None:
        """Sow for the plants wanted; what the packet lacks comes from a new one."""
        seeds = ceil(PLANTS / self.basis.standard * factor)
        if seeds > self.lot.left:
            self.replace()
            seeds = ceil(PLANTS / self.basis.standard)
        share = draw_share(self._rng, self._now())
        plants = sum(self._rng.random() < share for _ in range(seeds))
        self.last_sowing = (self.lot.age, seeds, plants)
        self.lot.left -= seeds
        self.tally.sown += seeds
        self.tally.wanted += PLANTS
        self.tally.short += max(PLANTS - plants, 0)

    def outlook(self) -> Outlook:
        lot = self.lot
        tests = [LotTest(self.stated_rate * age, n, k) for age, n, k in lot.tests]
        belief = lot_belief(self.basis.prior("bought", False), tests)
        thresholds = Thresholds(self.basis.standard, FLOOR, SURE)
        dose, rate = self.stated_rate * lot.age, self.stated_rate / 365.25
        return outlook(belief, dose, rate, thresholds, lambda: lot.left)


def by_advice(garden: Garden) -> None:
    """Do what Seedbox says; a packet that stays doubtful after a test is sown by its mean."""
    found = garden.outlook()
    if found.advice is Advice.TEST and found.test_seeds:
        garden.test(found.test_seeds)
        found = garden.outlook()
    if found.advice is Advice.SPENT:
        garden.replace()
        found = garden.outlook()
    if found.advice is Advice.TEST:
        garden.sow(min(garden.basis.standard / max(found.mean, FLOOR), 3.0))
    else:
        garden.sow(found.thick_factor or 1.0)


def by_advice_and_counts(garden: Garden) -> None:
    """The same, by a grower who enters each sowing as a test once it has come up."""
    by_advice(garden)
    garden.lot.tests.append(garden.last_sowing)


def by_chart(garden: Garden) -> None:
    """Sow until the chart's years are over, then discard and buy."""
    if garden.lot.age > garden.basis.life.years:
        garden.replace()
    garden.sow(1.0)


def by_last_test(garden: Garden) -> None:
    """Each winter after the first ten seeds on damp paper: 7 sow, 5 or 6 sow more, else buy."""
    share = 1.0
    if garden.lot.age:
        share = garden.test(10)
        if share < 0.5:
            garden.replace()
            share = 1.0
    garden.sow(1.0 if share >= 0.7 else garden.basis.standard / share)


RULES: tuple[tuple[str, Callable[[Garden], None]], ...] = (
    ("Seedbox's advice", by_advice),
    ("  and sowings counted", by_advice_and_counts),
    ("age chart", by_chart),
    ("last test alone", by_last_test),
)


def simulate(truth: Truth, rule: Callable[[Garden], None], growers: int) -> Tally:
    total = Tally()
    for grower in range(growers):
        for number, crop in enumerate(CROPS):
            garden = Garden(
                crop_basis(crop, "", "eu", FALLBACK, {}), truth, SEED + 1000 * grower + number
            )
            for _ in range(YEARS):
                rule(garden)
                garden.lot.age += 1
            for name in vars(total):
                setattr(total, name, getattr(total, name) + getattr(garden.tally, name))
    return total


def report() -> Iterator[str]:
    yield (
        f"A simulated decade: {GROWERS} growers, {len(CROPS)} crops, {PLANTS} plants of each a"
        f" year, packets of {PACKET} seeds, {STATED.coolest_c:g} to {STATED.warmest_c:g} C,"
        f" {STATED.relative_humidity:.0%} RH (invented)"
    )
    yield (
        f"  {'':<24}{'plants short':>14}{'seeds sown':>12}{'tested':>10}"
        f"{'thrown away alive':>20}{'packets bought':>16}   (a crop and decade)"
    )
    for truth in TRUTHS:
        yield f"  Truth: {truth.name}"
        for name, rule in RULES:
            tally = simulate(truth, rule, GROWERS)
            gardens = GROWERS * len(CROPS)
            yield (
                f"    {name:<22}{tally.short / tally.wanted:>14.1%}{tally.sown / gardens:>12.0f}"
                f"{tally.tested / gardens:>10.0f}{tally.discarded_alive / gardens:>20.0f}"
                f"{tally.bought / gardens:>16.2f}"
            )
