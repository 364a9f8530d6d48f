"""What a germination test of a packet is worth: better sowing, less the seeds and the work.

Everything is counted in plants: 1 is the loss of one plant that was wanted.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from math import ceil, comb, exp, lgamma, log, sqrt
from operator import mul

from seedbox.science import testing_constants as c
from seedbox.science.constants import BETA_SIZE, FEWEST_TO_TEST, TEST_ICC, TEST_SHARE, TEST_SIZES
from seedbox.science.errors import require, require_inside
from seedbox.science.lattice import POINTS, fractions
from seedbox.science.likelihood import log_likelihood_table
from seedbox.science.probit import normal_cdf, normal_density

_STRIDE = 2  # every second lattice point, a quarter of a probit, resolves losses and outcomes
_MOST_PLANTS = 100_000
_MOST_SOWINGS = 100.0
_NEGLIGIBLE = 1e-6


@dataclass(frozen=True, slots=True)
class Costs:
    """In plants: a wanted plant that is missing, a seed that gives none, a test, a new packet."""

    missing_plant: float = c.MISSING_PLANT
    wasted_seed: float = c.WASTED_SEED
    work_of_test: float = c.WORK_OF_TEST
    new_packet: float = c.NEW_PACKET


USUAL_COSTS = Costs()


@dataclass(frozen=True, slots=True)
class WorthOfTest:
    """`seeds` to test, 0 when no test pays; `net` worth of it [plants].

    `loss_now` is expected without a test, `loss_after` with it, its own cost not counted; both
    over all the sowings that were asked about. `sow_now` is the best number of seeds for one
    sowing without a test, 0 when a new packet is better.
    """

    seeds: int
    net: float
    loss_now: float
    loss_after: float
    sow_now: int


def worth_of_test(
    masses: Sequence[float],
    plants: int,
    seeds_left: float | None,
    costs: Costs = USUAL_COSTS,
    *,
    emergence: float = c.EMERGENCE_MEAN,
    sowings: float = 1.0,
) -> WorthOfTest:
    """The number of seeds to test that leaves most, and what it leaves.

    ``net(n) = m (min_a E[loss(a)] - sum over k of P(k) min_a E[loss(a) | k]) - work - n x seed``,
    actions a: sow so many seeds, or buy a new packet; after the test n seeds fewer are left.

    Parameters: masses, belief in germination on the probit lattice, sum 1; plants wanted;
    seeds_left in the packet [seeds] or None when unknown (then taken as plenty); costs [plants];
    emergence, share of germinable seed that comes up where it is sown [fraction]; sowings m that
    the answer serves, 1 or more, see ``sowings_served``.
    Returns: WorthOfTest. Sizes weighed are 10, 20, 25 and 50 seeds, or 5 to 9 where a quarter of
    the packet is no more; never more than a quarter of the packet.
    Range: sowings that are all alike, each decided for itself; left out are that the lot ages
    between them, that a sowing tells about the next, and that a new packet serves for several.
    Raises: OutOfRangeError.

    A packet that is either dead or fine is worth a test, one known to be fine is not:

    >>> doubtful, fine = [0.0] * POINTS, [0.0] * POINTS
    >>> doubtful[POINTS // 2 - 16] = doubtful[POINTS // 2 + 8] = 0.5
    >>> fine[POINTS // 2 + 8] = 1.0
    >>> worth_of_test(doubtful, 20, 200).seeds, worth_of_test(fine, 20, 200).seeds
    (10, 0)

    Source: expected value of sample information, Raiffa & Schlaifer 1961, Applied Statistical
    Decision Theory; costs and their reasons in ``testing_constants``.
    """
    require("plants wanted", plants, 1, _MOST_PLANTS)
    require_inside("emergence factor", emergence, 0.0, 1.0 + 1e-9)
    spread = _coarse(masses)
    left = _MOST_PLANTS * 10 if seeds_left is None else int(seeds_left)
    require("sowings", sowings, 1.0, _MOST_SOWINGS)
    sowing = _Sowing(plants, round(emergence, 2), replace(costs, work_of_test=0.0, new_packet=0.0))
    buying = costs.new_packet + _fresh_packet_loss(sowing)
    least, sow_now = _best(spread, _choices(sowing, left), buying)
    loss_now = sowings * least
    to_gain = loss_now - sowings * _loss_if_known(spread, sowing, left, buying)
    best = WorthOfTest(0, 0.0, loss_now, loss_now, sow_now)
    for seeds in sizes_to_weigh(seeds_left):
        cost = costs.work_of_test + seeds * costs.wasted_seed
        if to_gain - cost <= best.net:
            break  # not even full knowledge would pay for so large a test
        after = sowings * _loss_after_test(spread, _choices(sowing, left - seeds), seeds, buying)
        if loss_now - after - cost > best.net:
            best = WorthOfTest(seeds, loss_now - after - cost, loss_now, after, sow_now)
    return best


def sowings_served(seeds_left: float | None, plants: int) -> float:
    """Sowings for which the answer of a test serves: as many as the packet holds, to a limit.

    ``seeds left / (1.5 plants)``, from 1 to 3

    Parameters: seeds_left [seeds] or None when unknown (then taken as plenty); plants wanted of
    each sowing.
    Returns: sowings [-].
    Raises: OutOfRangeError.

    >>> sowings_served(30, 10), sowings_served(12, 10), sowings_served(None, 10)
    (2.0, 1.0, 3.0)

    Source: Seedbox's own rule; limits in ``testing_constants``.
    """
    require("plants wanted", plants, 1, _MOST_PLANTS)
    if seeds_left is None:
        return c.MOST_SOWINGS_SERVED
    return min(max(seeds_left / (c.SEEDS_PER_PLANT * plants), 1.0), c.MOST_SOWINGS_SERVED)


def sizes_to_weigh(seeds_left: float | None) -> tuple[int, ...]:
    """Numbers of seeds that a test may take from a packet, at most a quarter of it.

    >>> sizes_to_weigh(90), sizes_to_weigh(30), sizes_to_weigh(19), sizes_to_weigh(None)
    ((10, 20), (7,), (), (10, 20, 25, 50))
    """
    if seeds_left is None:
        return TEST_SIZES
    most = int(seeds_left * TEST_SHARE)
    fitting = tuple(size for size in TEST_SIZES if size <= most)
    return fitting or ((most,) if most >= FEWEST_TO_TEST else ())


def outcome_masses(masses: Sequence[float], seeds: int) -> tuple[float, ...]:
    """Probability of each number 0 to n that may germinate in a test of n seeds.

    ``P(k) = sum over g of p(g) BetaBinomial(k | n, g; icc 0.04)``

    Parameters: masses, one a lattice point, sum 1; seeds n [seeds], 1 or more.
    Returns: n + 1 probabilities [-].

    >>> even = [0.0] * POINTS
    >>> even[POINTS // 2] = 1.0
    >>> [round(p, 2) for p in outcome_masses(even, 2)]
    [0.26, 0.48, 0.26]

    Source: Skellam 1948, as in ``likelihood``.
    """
    spread = _coarse(masses)
    return tuple(sum(map(mul, spread, row)) for row in _outcome_rows(seeds))


def sowing_loss(plants: int, seeds: int, share: float, costs: Costs = USUAL_COSTS) -> float:
    """Expected loss when seeds of which a share comes up are sown for the plants wanted.

    ``(missing + seed) E[(N - X)+] + seed (s - N)``, X the plants from s seeds, normal with the
    mean and variance of the beta-binomial, icc 0.04

    Parameters: plants N wanted; seeds s sown; share that comes up [fraction]; costs [plants].
    Returns: loss [plants]: missing plants, and seeds that gave no wanted plant.

    >>> sowing_loss(10, 10, 0.0)
    10.2
    >>> round(sowing_loss(10, 20, 0.8), 2)
    0.2

    Source: arithmetic; the normal loss function, Raiffa & Schlaifer 1961, section 5.
    """
    mean = seeds * share
    sd = sqrt(max(mean * (1.0 - share) * (1.0 + (seeds - 1) * TEST_ICC), 0.0))
    short = max(plants - mean, 0.0)
    if sd > 1e-9:
        off = (plants - mean) / sd
        short = (plants - mean) * normal_cdf(off) + sd * normal_density(off)
    wasted = costs.wasted_seed * (seeds - plants)
    return (costs.missing_plant + costs.wasted_seed) * short + wasted


@dataclass(frozen=True, slots=True)
class _Sowing:
    plants: int
    emergence: float
    costs: Costs


@dataclass(frozen=True, slots=True)
class _Choice:
    seeds: int
    losses: tuple[float, ...]


def _coarse(masses: Sequence[float]) -> list[float]:
    """Masses on every second lattice point; those between are shared out to both sides."""
    require("lattice points", len(masses), POINTS, POINTS)
    spread = list(masses[::_STRIDE])
    for i, mass in enumerate(masses[1::_STRIDE]):
        spread[i] += 0.5 * mass
        spread[i + 1] += 0.5 * mass
    return spread


def _choices(sowing: _Sowing, left: int) -> list[_Choice]:
    """Numbers of seeds to sow, fewest first, up to what is left."""
    wanted = [ceil(sowing.plants * rate) for rate in c.SOWING_RATES]
    seeds = [each for each in wanted if each < left]
    if len(seeds) < len(wanted):
        seeds.append(max(left, 0))
    return [_Choice(each, _losses(sowing, each)) for each in seeds]


@lru_cache(maxsize=4096)
def _losses(sowing: _Sowing, seeds: int) -> tuple[float, ...]:
    return tuple(
        sowing_loss(sowing.plants, seeds, alive * sowing.emergence, sowing.costs)
        for alive, _ in fractions(0)[::_STRIDE]
    )


@lru_cache(maxsize=512)
def _fresh_packet_loss(sowing: _Sowing) -> float:
    """Loss of a sowing from a new packet, its price not counted."""
    share = c.FRESH_GERMINATION * sowing.emergence
    return min(
        sowing_loss(sowing.plants, ceil(sowing.plants * rate), share, sowing.costs)
        for rate in c.SOWING_RATES
    )


def _best(spread: Sequence[float], choices: Sequence[_Choice], buying: float) -> tuple[float, int]:
    """Least expected loss over a distribution, and the seeds to sow for it."""
    losses = [(sum(map(mul, spread, choice.losses)), choice.seeds) for choice in choices]
    return min(*losses, (sum(spread) * buying, 0))


def _loss_if_known(spread: Sequence[float], sowing: _Sowing, left: int, buying: float) -> float:
    """Expected loss if germination were known for nothing: no test can do better."""
    columns = zip(*(choice.losses for choice in _choices(sowing, left)), strict=True)
    return float(
        sum(mass * min(buying, *losses) for mass, losses in zip(spread, columns, strict=True))
    )


def _loss_after_test(
    spread: list[float], choices: Sequence[_Choice], seeds: int, buying: float
) -> float:
    """Expected loss after a test, over all its outcomes."""
    first = next(i for i, mass in enumerate(spread) if mass > _NEGLIGIBLE)
    last = next(i for i in range(len(spread), 0, -1) if spread[i - 1] > _NEGLIGIBLE)
    occupied = spread[first:last]
    losses = [choice.losses[first:last] for choice in choices]
    losses.append((buying,) * len(occupied))
    total: float = 0.0
    for row in _outcome_rows(seeds):
        joint = list(map(mul, occupied, row[first:last]))
        total += float(min([sum(map(mul, joint, loss)) for loss in losses]))
    return total


@lru_cache(maxsize=64)
def _outcome_rows(seeds: int) -> tuple[tuple[float, ...], ...]:
    """P(k of n | g) at each coarse lattice point, a row a k."""
    constant = lgamma(BETA_SIZE) - lgamma(seeds + BETA_SIZE)
    return tuple(
        tuple(
            exp(value + constant + log(comb(seeds, k)))
            for value in log_likelihood_table(k, seeds, 0)[::_STRIDE]
        )
        for k in range(seeds + 1)
    )
