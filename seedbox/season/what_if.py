"""A forecast without a packet: seed of a crop through storage periods that a person names."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from seedbox.errors import UsageError
from seedbox.science.advice import Advice
from seedbox.science.ageing import Climate
from seedbox.science.constants import DAYS_PER_YEAR, PRINTED_SEEDS
from seedbox.science.likelihood import MOST_SEEDS, LotTest
from seedbox.science.posterior import Belief, lot_belief
from seedbox.science.probit import probit
from seedbox.season.crop_basis import CropBasis, crop_basis
from seedbox.season.outlook import Thresholds, expected_range, outlook
from seedbox.season.storage_history import REFERENCE_ROOM, carried_moisture
from seedbox.season.storage_plan import StoragePlan, check_plan, parse_plan
from seedbox.tin.preferences import Settings
from seedbox.units import celsius_range, per_cent

__all__ = ["Stage", "StoragePlan", "WhatIf", "parse_plan", "what_if"]


@dataclass(frozen=True, slots=True)
class Stage:
    """What is left at the end of a stretch of storage; `days` since the beginning."""

    words: str
    days: float
    mean: float
    low: float
    high: float
    p_standard: float


@dataclass(frozen=True, slots=True)
class WhatIf:
    """The seed at the end of all stretches, stage by stage, and had it stayed where it was.

    `kept_as_it_is` is the first store for the whole time; None when there is only one stretch.
    `thick_factor` goes with `sow thick`, `good_days` is how long it stays good in the last store.
    """

    mean: float
    low: float
    high: float
    p_standard: float
    p_floor: float
    standard: float
    standard_basis: str
    advice: Advice
    thick_factor: float | None
    good_days: int | None
    supported: bool
    stages: tuple[Stage, ...]
    kept_as_it_is: Stage | None
    rests_on: tuple[str, ...]
    warnings: tuple[str, ...]


def what_if(
    crop_id: str,
    periods: Sequence[StoragePlan],
    *,
    germination: float | None = None,
    tested: int | None = None,
    origin: str | None = None,
    primed: bool = False,
    family: str = "",
    settings: Settings | None = None,
    own: Mapping[str, str] | None = None,
) -> WhatIf:
    """What is left of seed of a crop after storage, from a test at the beginning or none.

    Raises:
        UsageError: for a germination, number of seeds or storage period that cannot be.
    """
    settings = settings or Settings()
    basis = crop_basis(crop_id, family, settings.region, settings.fallback_standard, own or {})
    belief = lot_belief(basis.prior(origin or "", primed), _tests(germination, tested))
    climates = _climates(basis, periods)
    doses, faults = _doses(basis, periods, climates)
    total_days = sum(period.days for period in periods)
    stages = []
    days = 0.0
    for period, climate, dose in zip(periods, climates, doses, strict=True):
        days += period.days
        stages.append(_stage(belief, basis, _words(period, climate), days, dose))
    kept = None
    if len(periods) > 1:
        dose = basis.rate(climates[0])[0] * total_days
        words = f"kept as at first: {_words(periods[0], climates[0], days=total_days)}"
        kept = _stage(belief, basis, words, total_days, dose)
    found = outlook(
        belief,
        doses[-1],
        basis.rate(climates[-1])[0],
        Thresholds(basis.standard, settings.floor, settings.sure),
        lambda: None,
    )
    return WhatIf(
        mean=found.mean,
        low=found.low,
        high=found.high,
        p_standard=found.p_standard,
        p_floor=found.p_floor,
        standard=basis.standard,
        standard_basis=basis.standard_basis,
        advice=found.advice,
        thick_factor=found.thick_factor,
        good_days=found.good_days,
        supported=not faults,
        stages=tuple(stages),
        kept_as_it_is=kept,
        rests_on=_rests_on(basis, germination, tested, origin, primed),
        warnings=tuple(f"Outside what the model supports. {fault}" for fault in faults),
    )


def _tests(germination: float | None, tested: int | None) -> list[LotTest]:
    if germination is None:
        return []
    if not 0.0 <= germination <= 1.0:
        raise UsageError(f"Germination is a fraction from 0 to 1, not {germination:g}.")
    seeds = PRINTED_SEEDS if tested is None else tested
    if not 1 <= seeds <= MOST_SEEDS:
        raise UsageError(f"A test takes 1 to {MOST_SEEDS:,} seeds, not {seeds}.")
    return [LotTest(0.0, seeds, round(germination * seeds))]


def _climates(basis: CropBasis, periods: Sequence[StoragePlan]) -> list[Climate]:
    if not periods:
        raise UsageError("Say how long the seed is kept, and where.")
    before, climates = REFERENCE_ROOM, []
    for period in periods:
        check_plan(period)
        before = _climate(basis, period, before)
        climates.append(before)
    return climates


def _climate(basis: CropBasis, period: StoragePlan, before: Climate) -> Climate:
    if period.moisture is not None:
        return Climate(period.coolest_c, period.warmest_c, moisture=period.moisture)
    if period.sealed:
        moisture = carried_moisture(basis, before)
        return Climate(period.coolest_c, period.warmest_c, moisture=moisture)
    return Climate(period.coolest_c, period.warmest_c, period.relative_humidity)


def _doses(
    basis: CropBasis, periods: Sequence[StoragePlan], climates: Sequence[Climate]
) -> tuple[list[float], list[str]]:
    dose, doses, faults = 0.0, [], []
    for period, climate in zip(periods, climates, strict=True):
        rate, fault = basis.rate(climate)
        dose += rate * period.days
        doses.append(dose)
        if fault and fault not in faults:
            faults.append(fault)
    return doses, faults


def _stage(belief: Belief, basis: CropBasis, words: str, days: float, dose: float) -> Stage:
    mean, low, high = expected_range(belief.masses(dose))
    p_standard = belief.probability_at_least(probit(basis.standard), dose)
    return Stage(words, days, mean, low, high, p_standard)


def _words(period: StoragePlan, climate: Climate, days: float | None = None) -> str:
    time = _time_words(period.days if days is None else days)
    warmth = celsius_range(period.coolest_c, period.warmest_c)
    if climate.moisture is not None:
        return f"{time} at {warmth}, sealed at {climate.moisture:.1f} % moisture"
    return f"{time} at {warmth}, {per_cent(climate.relative_humidity or 0.0)} humidity"


def _time_words(days: float) -> str:
    if days < 2 * DAYS_PER_YEAR:
        return "1 day" if days == 1 else f"{days:.0f} days"
    return f"{days / DAYS_PER_YEAR:.3g} years"


def _rests_on(
    basis: CropBasis,
    germination: float | None,
    tested: int | None,
    origin: str | None,
    primed: bool,
) -> tuple[str, ...]:
    said = []
    if germination is None:
        said.append("No test given: the start is what such seed usually has.")
    elif tested is None:
        said.append(
            f"Germination {per_cent(germination)} at first, counted as a test of"
            f" {PRINTED_SEEDS} seeds."
        )
    else:
        said.append(f"Germination {per_cent(germination)} at first, of {tested} seeds tested.")
    said.append(basis.life_sentence())
    if primed:
        said.append("Primed seed: taken to age faster, by one to six times.")
    if not basis.standard_known:
        said.append("No legal minimum is known for this crop.")
    if origin:
        said.append(f"Origin: {origin}.")
    return tuple(said)
