"""Strategies of a simulated grower: when to test, how thickly to sow, when to buy."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from seedbox.science.advice import Advice
from seedbox.science.testing_worth import sowings_served, worth_of_test
from tests.bench.accuracy_garden import FLOOR, PLANTS, Garden

USUAL_TEST = 20
SHORT_TEST = 10
THICKEST = 3.0


class Strategy(NamedTuple):
    """What is done with a crop's packet each year."""

    name: str
    year: Callable[[Garden], None]
    counts_sowings: bool = False

    def act(self, garden: Garden) -> None:
        """One year, from winter to the next."""
        self.year(garden)
        if self.counts_sowings:
            garden.count_sowing()
        garden.next_year()


def sow_by_advice(garden: Garden) -> None:
    """Do what Seedbox says; a packet that stays doubtful is sown by its mean."""
    found = garden.outlook()
    if found.advice is Advice.SPENT:
        garden.replace()
        found = garden.outlook()
    factor = found.thick_factor or 1.0
    if found.advice is Advice.TEST:
        factor = min(garden.basis.standard / max(found.mean, FLOOR), THICKEST)
    garden.sow(garden.usual_seeds(factor))


def nothing_tested(garden: Garden) -> None:
    """Seedbox's advice, and no test ever."""
    sow_by_advice(garden)


def everything_tested(garden: Garden) -> None:
    """20 seeds of every packet every year, but for one bought that year; then the advice."""
    if garden.lot.age:
        garden.test(USUAL_TEST)
    sow_by_advice(garden)


def tested_by_plan(garden: Garden) -> None:
    """The test that is worth its seed and work, and else none; then the advice."""
    left = garden.lot.left
    sowings = sowings_served(left, PLANTS)
    worth = worth_of_test(garden.masses(), PLANTS, left, emergence=1.0, sowings=sowings)
    if worth.seeds:
        garden.test(worth.seeds)
    sow_by_advice(garden)


def tested_when_advised(garden: Garden) -> None:
    """A test whenever the advice is to test; then the advice."""
    found = garden.outlook()
    if found.advice is Advice.TEST and found.test_seeds:
        garden.test(found.test_seeds)
    sow_by_advice(garden)


def age_chart(garden: Garden) -> None:
    """Sow until the chart's years are over, then throw away and buy."""
    if garden.lot.age > garden.basis.life.years:
        garden.replace()
    garden.sow(garden.usual_seeds())


def last_test_alone(garden: Garden) -> None:
    """Each winter after the first ten seeds on damp paper: 7 sow, 5 or 6 sow more, else buy."""
    share = 1.0
    if garden.lot.age:
        share = garden.test(SHORT_TEST)
        if share < 0.5:
            garden.replace()
            share = 1.0
    garden.sow(garden.usual_seeds(1.0 if share >= 0.7 else garden.basis.standard / share))


NOTHING = Strategy("test nothing", nothing_tested)
EVERYTHING = Strategy("test everything", everything_tested)
BY_PLAN = Strategy("test by plan", tested_by_plan)
WHEN_ADVISED = Strategy("test when advised", tested_when_advised)
PLAIN = (NOTHING, EVERYTHING, BY_PLAN, WHEN_ADVISED)
COUNTED = tuple(each._replace(counts_sowings=True) for each in PLAIN)
RULES_OF_THUMB = (
    Strategy("age chart", age_chart),
    Strategy("last test alone", last_test_alone),
)
