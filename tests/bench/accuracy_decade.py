"""A simulated decade of sowing: strategies of testing, and two rules that people use.

The truth is not the model's own belief alone: lots of other spreads, tables that promise too
much or too little, and stores that are warmer and damper than the grower believes.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import cache
from statistics import fmean, stdev

from seedbox.science.testing_worth import USUAL_COSTS
from seedbox.season.crop_basis import CropBasis, crop_basis
from tests.bench.accuracy_garden import FALLBACK, PACKET, PLANTS, STATED, Garden, Tally, Truth
from tests.bench.accuracy_strategies import COUNTED, PLAIN, RULES_OF_THUMB, Strategy

GROWERS = 40
PART = 10  # growers a task
PROCESSES = 2
YEARS = 10
SEED = 20261125
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
TRUTHS = (
    Truth("as the model believes", 0.65, 0.4, 1.0, 0.6, 0.0, 0.0),
    Truth(
        "worse lots, tables too hopeful, store 4 C warmer and damper", 0.4, 0.6, 1.4, 0.8, 4, 0.08
    ),
    Truth("tables too gloomy, lots more alike", 0.8, 0.3, 0.5, 0.4, -2, -0.05),
    Truth("lots far more unlike than believed", 0.5, 0.8, 1.0, 1.1, 0.0, 0.0),
)


@cache
def basis_of(crop: str) -> CropBasis:
    """What the almanac knows of a crop, for a grower in Europe."""
    return crop_basis(crop, "", "eu", FALLBACK, {})


def gardens(truth: Truth, grower: int) -> list[Garden]:
    """A grower's crops at the start; the same packets and luck whoever asks."""
    return [
        Garden(basis_of(crop), truth, SEED + 1000 * grower + number)
        for number, crop in enumerate(CROPS)
    ]


def decade(truth: Truth, strategy: Strategy, grower: int) -> Tally:
    """A grower's ten years, all crops together."""
    total = Tally()
    for garden in gardens(truth, grower):
        for _ in range(YEARS):
            strategy.act(garden)
        total.add(garden.tally)
    return total


def simulate(truth: Truth, strategy: Strategy, growers: Sequence[int]) -> list[Tally]:
    """The decade of each grower."""
    return [decade(truth, strategy, grower) for grower in growers]


def report() -> Iterator[str]:
    """Lines of the report."""
    yield from _head()
    strategies = (*PLAIN, *COUNTED, *RULES_OF_THUMB)
    parts = [range(first, first + PART) for first in range(0, GROWERS, PART)]
    with ProcessPoolExecutor(PROCESSES) as pool:
        tasks = {
            (truth, strategy): [pool.submit(simulate, truth, strategy, part) for part in parts]
            for truth in TRUTHS
            for strategy in strategies
        }
        for truth in TRUTHS:
            found = {
                strategy: [tally for task in tasks[truth, strategy] for tally in task.result()]
                for strategy in strategies
            }
            yield from _of_truth(truth, found)


def _head() -> Iterator[str]:
    yield (
        f"A simulated decade: {GROWERS} growers, {len(CROPS)} crops, {PLANTS} plants of each a"
        f" year, packets of {PACKET} seeds, {STATED.coolest_c:g} to {STATED.warmest_c:g} C,"
        f" {STATED.relative_humidity:.0%} RH (invented)"
    )
    costs = USUAL_COSTS
    yield "  A crop and decade; ± is one standard error over growers; all share their luck."
    yield (
        f"  Cost in plants: a plant short 1, a test {costs.work_of_test:g}, a packet"
        f" {costs.new_packet:g} (its seed with it). Used: sown and tested."
    )
    yield (
        "  Saved: plants fewer short than testing nothing, for each 100 seeds tested. A test also"
        " empties the packet, so that fresh seed comes sooner."
    )
    yield (
        f"  {'':<24}{'plants short':>16}{'cost in plants':>16}{'sown':>7}{'tested':>8}{'thrown':>8}"
        f"{'bought':>8}{'short/100 used':>16}{'saved/100 tested':>18}"
    )


def _of_truth(truth: Truth, found: dict[Strategy, list[Tally]]) -> Iterator[str]:
    yield f"  Truth: {truth.name}"
    for strategies in (PLAIN, COUNTED, RULES_OF_THUMB):
        if strategies is COUNTED:
            yield "    and what came up of each sowing is entered as a test:"
        for strategy in strategies:
            nothing = found[COUNTED[0] if strategies is COUNTED else PLAIN[0]]
            yield f"    {strategy.name:<22}{_figures(found[strategy], nothing)}"
        if strategies is not RULES_OF_THUMB:
            yield from _verdicts(*(found[strategy] for strategy in strategies[:3]))


def _figures(tallies: Sequence[Tally], nothing: Sequence[Tally]) -> str:
    short = _mean([100 * t.short / t.wanted for t in tallies])
    cost = _mean([_cost(t) for t in tallies])
    a_crop = [_per_crop(tallies, lambda t, name=name: getattr(t, name)) for name in _SEEDS]
    packets = _per_crop(tallies, lambda t: t.bought)
    return (
        f"{short[0]:>9.1f} ± {short[1]:.1f} %{cost[0]:>10.2f} ± {cost[1]:.2f}"
        f"{a_crop[0]:>7.0f}{a_crop[1]:>8.1f}{a_crop[2]:>8.0f}{packets:>8.2f}"
        f"{_short_per_100_used(tallies):>16.2f}{_saved(tallies, nothing):>18}"
    )


_SEEDS = ("sown", "tested", "thrown")


def _per_crop(tallies: Sequence[Tally], value: Callable[[Tally], float]) -> float:
    return fmean(map(value, tallies)) / len(CROPS)


def _cost(tally: Tally) -> float:
    costs = USUAL_COSTS
    plants = costs.missing_plant * tally.short
    return (plants + costs.work_of_test * tally.tests + costs.new_packet * tally.bought) / len(
        CROPS
    )


def _mean(values: Sequence[float]) -> tuple[float, float]:
    """Mean and its standard error."""
    return fmean(values), stdev(values) / len(values) ** 0.5


def _short_per_100_used(tallies: Sequence[Tally]) -> float:
    return 100 * sum(t.short for t in tallies) / sum(t.sown + t.tested for t in tallies)


def _saved(tallies: Sequence[Tally], nothing: Sequence[Tally]) -> str:
    """Ratio of means and its standard error by the delta method."""
    tested = [t.tested for t in tallies]
    if not sum(tested):
        return "-"
    saved = [was.short - t.short for was, t in zip(nothing, tallies, strict=True)]
    ratio = sum(saved) / sum(tested)
    off = stdev([s - ratio * n for s, n in zip(saved, tested, strict=True)])
    error = off / fmean(tested) / len(tested) ** 0.5
    return f"{100 * ratio:.1f} ± {100 * error:.1f}"


def _verdicts(
    nothing: Sequence[Tally], everything: Sequence[Tally], plan: Sequence[Tally]
) -> Iterator[str]:
    for name, others in (("nothing", nothing), ("everything", everything)):
        pairs = list(zip(plan, others, strict=True))
        short = _mean([100 * (a.short - b.short) / b.wanted for a, b in pairs])
        cost = _mean([_cost(a) - _cost(b) for a, b in pairs])
        used = _mean([(a.sown + a.tested - b.sown - b.tested) / len(CROPS) for a, b in pairs])
        yield (
            f"      plan less testing {name + ':':<12}"
            f" short {short[0]:+.1f} ± {short[1]:.1f} points,"
            f" used {used[0]:+.0f} ± {used[1]:.0f} seeds,"
            f" cost {cost[0]:+.2f} ± {cost[1]:.2f}: {_verdict(*cost)}"
        )


def _verdict(difference: float, error: float) -> str:
    if abs(difference) <= 2 * error:
        return "no difference beyond two standard errors"
    return "the plan costs less" if difference < 0 else "THE PLAN COSTS MORE"
