"""When a germination test may stop: Wald's sequential test between poor and good seed.

All seeds of a batch are laid at once, so what stops early is the waiting: seed is good as soon as
enough have come, and poor as soon as even those that can still come would not be enough. A second
batch is laid only where the first one, fully counted, left the question open.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property, lru_cache
from math import ceil, comb, floor, log

from seedbox.science.errors import require, require_inside

_ROUNDING = 1e-9


class Verdict(StrEnum):
    """What the counts so far say of the seed."""

    GOOD = "good"
    POOR = "poor"
    OPEN = "open"


@dataclass(frozen=True)
class SequentialPlan:
    """What counts as poor and good seed, and how often either may be mistaken.

    `poor` < `good` [fraction]; `poor_called_good` alpha and `good_called_poor` beta [-], the
    error rates asked for, above 0, together below 1.
    Raises: OutOfRangeError.
    """

    poor: float
    good: float
    poor_called_good: float
    good_called_poor: float

    def __post_init__(self) -> None:
        require_inside("germination of poor seed", self.poor, 0.0, 1.0)
        require_inside("germination of good seed", self.good, self.poor, 1.0)
        require_inside("poor seed called good", self.poor_called_good, 0.0, 1.0)
        require_inside(
            "good seed called poor", self.good_called_poor, 0.0, 1.0 - self.poor_called_good
        )

    @cached_property
    def slope(self) -> float:
        """Seedlings a seed that speak for neither side [-], between poor and good."""
        return log((1.0 - self.poor) / (1.0 - self.good)) / self._information

    @cached_property
    def good_from(self) -> float:
        """Seedlings above the middle line that make seed good."""
        return log((1.0 - self.good_called_poor) / self.poor_called_good) / self._information

    @cached_property
    def poor_from(self) -> float:
        """Seedlings below the middle line that make seed poor."""
        return log((1.0 - self.poor_called_good) / self.good_called_poor) / self._information

    @cached_property
    def _information(self) -> float:
        return log(self.good / self.poor) + log((1.0 - self.poor) / (1.0 - self.good))


@dataclass(frozen=True, slots=True)
class Limits:
    """For a number of seeds: poor at or below `poor`, good at or above `good` [seedlings].

    `poor` is -1, `good` is seeds + 1 where so few seeds can't decide. `middle` lies between them.
    """

    poor: int
    good: int
    middle: float


@dataclass(frozen=True, slots=True)
class Decision:
    """A verdict, and whether it keeps the error rates asked for.

    `firm` is False for an open question, and for one settled only by the side of the middle on
    which the count ended. `needed` is how many more seedlings would make the seed good.
    """

    verdict: Verdict
    firm: bool
    needed: int
    limits: Limits


def limits(plan: SequentialPlan, seeds: int) -> Limits:
    """Acceptance and rejection numbers when so many seeds are laid.

    ``poor <= s n - h_poor``, ``good >= s n + h_good``, with
    ``s = ln((1 - p0) / (1 - p1)) / c``, ``h_good = ln((1 - beta) / alpha) / c``,
    ``h_poor = ln((1 - alpha) / beta) / c``, ``c = ln(p1 / p0) + ln((1 - p0) / (1 - p1))``

    Parameters: plan; seeds n [seeds], 0 or more.
    Returns: Limits.

    >>> plan = SequentialPlan(0.5, 0.8, 0.1, 0.1)
    >>> [(found.poor, found.good) for found in (limits(plan, n) for n in (5, 10, 20))]
    [(1, 5), (5, 9), (11, 15)]

    Source: Wald 1945, Annals of Mathematical Statistics 16:117-186, section 5.3 (binomial).
    """
    require("seeds", seeds, 0, float("inf"))
    middle = plan.slope * seeds
    poor = floor(middle - plan.poor_from + _ROUNDING)
    good = ceil(middle + plan.good_from - _ROUNDING)
    return Limits(max(poor, -1), min(good, seeds + 1), middle)


def decide(
    plan: SequentialPlan, seeds: int, germinated: int, may_come: int, *, last_batch: bool = True
) -> Decision:
    """Whether the seeds laid have already decided the test.

    Good when ``germinated >= good(seeds)``; poor when ``germinated + may_come <= poor(seeds)``.
    When nothing more can come and the count lies between, the side of the middle settles it, not
    firmly; unless another batch can be laid.

    Parameters: plan; seeds laid so far, all batches [seeds]; germinated [seedlings];
    may_come [seedlings], upper bound on what may still come: 0 after the final count, else from
    ``time_course``, at most the seeds not yet germinated; last_batch, no more will be laid.
    Returns: Decision.
    Raises: OutOfRangeError.

    >>> plan = SequentialPlan(0.5, 0.8, 0.1, 0.1)
    >>> decide(plan, 20, 15, 5).verdict.value
    'good'
    >>> decide(plan, 20, 6, 14).verdict.value, decide(plan, 20, 6, 3).verdict.value
    ('open', 'poor')
    >>> decide(plan, 20, 14, 0)
    Decision(verdict=<Verdict.GOOD: 'good'>, firm=False, needed=1, limits=Limits(poor=11, \
good=15, middle=13.219280948873624))

    Source: Wald 1945, as ``limits``; truncation at the middle line after his section 5.7.
    """
    require("germinated seeds", germinated, 0, seeds)
    require("seeds that may still come", may_come, 0, seeds - germinated)
    found = limits(plan, seeds)
    needed = max(found.good - germinated, 0)
    if needed == 0:
        return Decision(Verdict.GOOD, True, 0, found)
    if germinated + may_come <= found.poor:
        return Decision(Verdict.POOR, True, needed, found)
    if may_come > 0 or not last_batch:
        return Decision(Verdict.OPEN, False, needed, found)
    side = Verdict.GOOD if germinated > found.middle else Verdict.POOR
    return Decision(side, False, needed, found)


@dataclass(frozen=True, slots=True)
class OperatingCharacteristics:
    """What a plan does with seed of one germination: probabilities [-] and mean seeds.

    `called_good` + `called_poor` = 1; `undecided` is the part of both that the last batch left
    between the limits and the middle line settled. `seeds` laid on average [seeds].
    """

    called_good: float
    called_poor: float
    undecided: float
    seeds: float


def operating_characteristics(
    plan: SequentialPlan, batches: Sequence[int], germination: float
) -> OperatingCharacteristics:
    """Exact error rates and mean number of seeds of a plan in batches, all fully counted.

    Batches ``(1, 1, 1, ...)`` are Wald's own test, seed by seed; ``(10, 10)`` lays ten more when
    the first ten leave the question open; ``(20,)`` is one test truncated at its seeds.
    Computed by carrying the distribution of seedlings from batch to batch.

    Parameters: plan; batches, seeds in each [seeds]; germination [fraction], of independent seeds.
    Returns: OperatingCharacteristics.
    Range: independent seeds. Batches of one lot scatter more (see ``constants.TEST_ICC``), and
    then errors are commoner.

    >>> plan = SequentialPlan(0.5, 0.8, 0.1, 0.1)
    >>> found = operating_characteristics(plan, (10, 10), 0.5)
    >>> round(found.called_good, 3), round(found.seeds, 1)
    (0.059, 13.7)

    Source: Aroian 1968, Technometrics 10:125-132 (the direct method).
    """
    require("germination", germination, 0.0, 1.0)
    open_at = {0: 1.0}
    laid, good, poor, mean_seeds = 0, 0.0, 0.0, 0.0
    for batch in batches:
        laid += batch
        mean_seeds += batch * sum(open_at.values())
        found = limits(plan, laid)
        reached = _after_batch(open_at, binomial_masses(batch, germination))
        good += sum(p for k, p in reached.items() if k >= found.good)
        poor += sum(p for k, p in reached.items() if k <= found.poor)
        open_at = {k: p for k, p in reached.items() if found.poor < k < found.good}
    middle = plan.slope * laid
    above = sum(p for k, p in open_at.items() if k > middle)
    undecided = sum(open_at.values())
    return OperatingCharacteristics(good + above, poor + undecided - above, undecided, mean_seeds)


def _after_batch(open_at: dict[int, float], masses: tuple[float, ...]) -> dict[int, float]:
    reached: dict[int, float] = {}
    for start, weight in open_at.items():
        for more, mass in enumerate(masses):
            reached[start + more] = reached.get(start + more, 0.0) + weight * mass
    return reached


@lru_cache(maxsize=256)
def binomial_masses(seeds: int, germination: float) -> tuple[float, ...]:
    """P(k of n germinate) for k = 0 to n, independent seeds.

    >>> binomial_masses(2, 0.5)
    (0.25, 0.5, 0.25)
    """
    dead = 1.0 - germination
    return tuple(comb(seeds, k) * germination**k * dead ** (seeds - k) for k in range(seeds + 1))
