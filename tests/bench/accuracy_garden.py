"""One crop of one grower for ten years: packets that age, tests, sowings, and the seeds they take.

Luck is common to all strategies: the packet that is bought in a year, how a year's sowing and a
year's test scatter, and the order in which seeds live or die hang on the garden and the year alone.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass, field, fields
from math import ceil, exp

from scipy.special import betaincinv

from seedbox.science.ageing import Climate
from seedbox.science.likelihood import LotTest
from seedbox.science.posterior import Belief, lot_belief
from seedbox.science.probit import normal_cdf, probit
from seedbox.season.crop_basis import CropBasis
from seedbox.season.outlook import Outlook, Thresholds, outlook

PLANTS = 10
PACKET = 100
FALLBACK, FLOOR, SURE = 0.65, 0.35, 0.75
STATED = Climate(14.0, 22.0, 0.50)
SCATTER = 24.0  # 1 / 0.04 - 1: samples of a lot differ by more than luck
DAYS = 365.25


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


@dataclass(eq=False)
class Lot:
    """One packet: what it is in truth, and what is known of it: tests as (age, seeds, alive)."""

    viability: float
    rate: float
    age: int = 0
    left: int = PACKET
    tests: list[tuple[int, int, int]] = field(default_factory=list)


@dataclass
class Tally:
    """Plants, seeds, tests and packets of a garden so far; every seed is in one place.

    ``sown + tested + thrown + left in the tin = bought x PACKET``
    """

    wanted: int = 0
    short: int = 0
    sown: int = 0
    tested: int = 0
    tests: int = 0
    thrown: int = 0
    thrown_alive: float = 0.0
    bought: int = 0

    def add(self, other: Tally) -> None:
        """Take in the figures of another garden."""
        for each in fields(self):
            setattr(self, each.name, getattr(self, each.name) + getattr(other, each.name))


class Garden:
    """One crop of one grower; the seed of its luck is the same for each strategy."""

    def __init__(self, basis: CropBasis, truth: Truth, seed: int) -> None:
        self.basis = basis
        self.year = 0
        self.tally = Tally()
        self.stated_rate = DAYS * basis.rate(STATED)[0]
        self.last_sowing = (0, 0, 0)
        self._truth, self._seed = truth, seed
        self._believed: tuple[Lot, int, Belief] | None = None
        actual = Climate(
            STATED.coolest_c + truth.warmer_c,
            STATED.warmest_c + truth.warmer_c,
            (STATED.relative_humidity or 0.0) + truth.damper,
        )
        self._true_rate = DAYS * basis.rate(actual)[0]
        self.lot = self._buy()

    @property
    def seeds_bought(self) -> int:
        """Seeds of all packets so far, the first included."""
        return self.tally.bought * PACKET

    def _luck(self, kind: str) -> random.Random:
        return random.Random(f"{self._seed} {kind} {self.year}")

    def _buy(self) -> Lot:
        self.tally.bought += 1
        luck, truth = self._luck("packet"), self._truth
        viability = luck.gauss(
            probit(self.basis.standard) + truth.viability_above, truth.viability_sd
        )
        return Lot(viability, truth.rate_median * exp(luck.gauss(0.0, truth.rate_sd)))

    def viability(self) -> float:
        """The packet's viability in truth [probits]."""
        return self.lot.viability - self.lot.rate * self._true_rate * self.lot.age

    def _alive(self, kind: str, seeds: int) -> int:
        """How many of the next seeds live, by the luck of this year."""
        luck = self._luck(kind)
        share = sample_share(luck.random(), self.viability())
        return sum(luck.random() < share for _ in range(seeds))

    def replace(self) -> None:
        """Throw away what is left and open a new packet."""
        self.tally.thrown += self.lot.left
        self.tally.thrown_alive += self.lot.left * normal_cdf(self.viability())
        self.lot = self._buy()

    def test(self, seeds: int) -> float:
        """Test seeds of the packet; returns the share that lived, 0 when there were none."""
        seeds = min(seeds, self.lot.left)
        alive = self._alive("test", seeds)
        self.lot.left -= seeds
        if seeds:
            self.lot.tests.append((self.lot.age, seeds, alive))
            self.tally.tested += seeds
            self.tally.tests += 1
        return alive / seeds if seeds else 0.0

    def usual_seeds(self, factor: float = 1.0) -> int:
        """Seeds for the plants wanted at the crop's standard, so many times as thick."""
        return ceil(PLANTS / self.basis.standard * factor)

    def sow(self, seeds: int) -> None:
        """Sow; what the packet lacks comes from a new one, sown as usual."""
        if seeds > self.lot.left:
            self.replace()
            seeds = self.usual_seeds()
        plants = self._alive("sowing", seeds)
        self.last_sowing = (self.lot.age, seeds, plants)
        self.lot.left -= seeds
        self.tally.sown += seeds
        self.tally.wanted += PLANTS
        self.tally.short += max(PLANTS - plants, 0)

    def next_year(self) -> None:
        """A year in the store."""
        self.year += 1
        self.lot.age += 1

    def count_sowing(self) -> None:
        """Enter what came up of the last sowing; every living seed comes up in this garden."""
        self.lot.tests.append(self.last_sowing)

    def belief(self) -> Belief:
        """What the grower may believe of the packet; worked out anew when something is learnt."""
        lot = self.lot
        if self._believed is None or self._believed[:2] != (lot, len(lot.tests)):
            tests = [LotTest(self.stated_rate * age, n, k) for age, n, k in lot.tests]
            belief = lot_belief(self.basis.prior("bought", False), tests)
            self._believed = (lot, len(lot.tests), belief)
        return self._believed[2]

    def dose(self) -> float:
        """The packet's ageing dose as the grower reckons it [probits]."""
        return self.stated_rate * self.lot.age

    def outlook(self) -> Outlook:
        """The forecast and advice for the packet now."""
        left = self.lot.left
        thresholds = Thresholds(self.basis.standard, FLOOR, SURE)
        rate = self.stated_rate / DAYS
        return outlook(self.belief(), self.dose(), rate, thresholds, lambda: left)

    def masses(self) -> Sequence[float]:
        """Belief in the packet's germination now, on the probit lattice."""
        return self.belief().masses(self.dose())


def sample_share(luck: float, viability: float) -> float:
    """Share of one sample of a lot that lives: quantile `luck` of a beta around the lot's own."""
    alive, dead = normal_cdf(viability) * SCATTER, normal_cdf(-viability) * SCATTER
    if min(alive, dead) < 1e-6:
        return float(alive > dead)
    return float(betaincinv(alive, dead, luck))
