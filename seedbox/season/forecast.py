"""How much of a packet still germinates on a day, how sure that is, and what to do with it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date, timedelta
from math import exp
from typing import TYPE_CHECKING

from seedbox.science.advice import Advice
from seedbox.science.likelihood import Evidence
from seedbox.science.posterior import Belief, lot_belief
from seedbox.science.regeneration import dose_to_regeneration
from seedbox.season.crop_basis import CropBases, CropBasis
from seedbox.season.forecast_evidence import printed_test, rests_on
from seedbox.season.outlook import Outlook, Thresholds, expected_range, outlook
from seedbox.season.seed_age import TimeZero, time_zero
from seedbox.season.storage_history import StorageHistory, storage_history
from seedbox.season.testing.evidence import lot_test
from seedbox.tin.frozen import record
from seedbox.tin.preferences import Settings
from seedbox.tin.records import Dossier, Kind, Origin, OwnCrop, OwnFigure, Store, Treatment, Unit

if TYPE_CHECKING:
    from seedbox.science.emergence_factor import EmergenceFactor
    from seedbox.season.testing.places import PlaceFactors

__all__ = ["Advice", "Forecast", "Forecaster"]

# Sets, cloves and tubers are planted in the season after they came (common practice, no source).
_STOCK_KEEPS_DAYS = 240
_HORIZON_DAYS = 30 * 365


@record
class Forecast:
    """What is believed of a packet on a day; shares are fractions.

    `mean` is the expected germination, `low` and `high` hold what the next sowing or test of the
    packet shows nine times in ten. `p_standard`, `p_floor`: probability that germination reaches
    the standard, the floor. `test_seeds`: how many seeds a test is worth. `regrow_before`: saved
    or swapped seed falls below 85 % of its first value then. `shelf_date`: planting stock only,
    which has no forecast.
    """

    mean: float | None
    low: float | None
    high: float | None
    p_standard: float | None
    p_floor: float | None
    standard: float | None
    standard_basis: str
    advice: Advice | None
    thick_factor: float | None
    good_until: date | None
    supported: bool
    rests_on: tuple[str, ...]
    warnings: tuple[str, ...]
    test_seeds: int | None = None
    regrow_before: date | None = None
    shelf_date: date | None = None


@record
class _Case:
    """All that a packet's forecast is computed from."""

    basis: CropBasis
    zero: TimeZero
    history: StorageHistory
    belief: Belief


class Forecaster:
    """Forecasts for one tin. What a crop's packets share is worked out once."""

    def __init__(
        self,
        settings: Settings,
        own_figures: Iterable[OwnFigure] = (),
        own_crops: Iterable[OwnCrop] = (),
    ) -> None:
        self._settings = settings
        self._bases = CropBases(settings.region, settings.fallback_standard, own_figures, own_crops)
        self._places: PlaceFactors | None = None

    def use_trays(self, dossiers: Iterable[Dossier], stores: Mapping[int, Store]) -> None:
        """Lets the places of a tin's trays be learnt; without this each place is as usual."""
        self._places = self._learning_from(dossiers, stores)

    def _known_places(self) -> PlaceFactors:
        if self._places is None:
            self._places = self._learning_from((), {})
        return self._places

    def _learning_from(
        self, dossiers: Iterable[Dossier], stores: Mapping[int, Store]
    ) -> PlaceFactors:
        from seedbox.season.testing.places import PlaceFactors  # most tins have no trays

        def believed(dossier: Dossier, on: date) -> list[float]:
            return self.masses(replace(dossier, trays=()), on, stores)

        return PlaceFactors(dossiers, believed)

    def place_factor(self, place: str, on: date) -> EmergenceFactor:
        """Share of the living seed that comes up in a place, by the trays counted up to a day."""
        return self._known_places().factor(place, on)

    def forecast(self, dossier: Dossier, on: date, stores: Mapping[int, Store]) -> Forecast:
        """The forecast of one packet for a day, from what was known by then."""
        if dossier.packet.kind is Kind.STOCK:
            return _stock(dossier, on, self._settings.hemisphere)
        case = self._case(dossier, on, stores)
        found = outlook(
            case.belief,
            case.history.dose(on),
            case.history.rate_now,
            Thresholds(case.basis.standard, self._settings.floor, self._settings.sure),
            lambda: self.seeds_left(dossier),
        )
        return _forecast(dossier, on, case, found)

    def curve(
        self,
        dossier: Dossier,
        on: date,
        stores: Mapping[int, Store],
        until: date,
        points: int = 60,
    ) -> list[tuple[date, float, float, float]]:
        """Day, mean, low and high from the beginning of ageing to `until`; empty for stock."""
        if dossier.packet.kind is Kind.STOCK:
            return []
        case = self._case(dossier, on, stores)
        days = max((until - case.zero.day).days, 1)
        steps = max(min(points, days + 1), 2) - 1
        curve = []
        for i in range(steps + 1):
            day = case.zero.day + timedelta(days=days * i // steps)
            curve.append((day, *expected_range(case.belief.masses(case.history.dose(day)))))
        return curve

    def masses(self, dossier: Dossier, on: date, stores: Mapping[int, Store]) -> list[float]:
        """What is believed of a packet's germination on a day, on the probit lattice; sums to 1.

        For the science that weighs outcomes of a test. Planting stock has none: an empty list.
        """
        if dossier.packet.kind is Kind.STOCK:
            return []
        case = self._case(dossier, on, stores)
        return case.belief.masses(case.history.dose(on))

    def _case(self, dossier: Dossier, on: date, stores: Mapping[int, Store]) -> _Case:
        packet = dossier.packet
        basis = self._bases.basis(packet.crop_id)
        zero = time_zero(dossier, self._settings.hemisphere, on)
        history = storage_history(basis, zero.day, dossier.storage, stores)
        seen: list[Evidence] = [
            lot_test(test, history.dose(test.on))
            for test in dossier.tests
            if test.on <= on and test.seeds > 0
        ]
        if packet.printed_germination is not None:
            printed_on = packet.printed_on or zero.day
            seen.append(printed_test(packet.printed_germination, history.dose(printed_on)))
        if dossier.trays:
            seen += self._trays(dossier, history, on)
        primed = packet.treatment is Treatment.PRIMED
        belief = lot_belief(basis.prior(packet.origin or "", primed), seen)
        return _Case(basis, zero, history, belief)

    def _trays(self, dossier: Dossier, history: StorageHistory, on: date) -> list[Evidence]:
        """Counted trays, weaker than tests by what their place and luck take."""
        places = self._known_places()
        return [
            places.evidence(tray, history.dose(tray.on), on)
            for tray in dossier.trays
            if tray.on <= on
        ]

    def seeds_left(self, dossier: Dossier) -> float | None:
        """Seeds in a packet, by weight where it is kept in grams; None when that is not known."""
        if dossier.left is None or dossier.packet.unit is not Unit.GRAMS:
            return dossier.left
        from seedbox import almanac

        crop_id = dossier.packet.crop_id
        weight = almanac.thousand_seed_weight_g(crop_id, self._bases.own(crop_id))
        return None if weight is None else 1000.0 * dossier.left / weight.grams


def _forecast(dossier: Dossier, on: date, case: _Case, found: Outlook) -> Forecast:
    warnings = [f"Outside what the model supports. {why}" for why in case.history.unsupported]
    if not case.zero.known:
        warnings.append("Its age is not known, so the forecast may be far too hopeful.")
    good_until = None
    if found.good_days is not None:
        good_until = on + timedelta(days=found.good_days)
    return Forecast(
        mean=found.mean,
        low=found.low,
        high=found.high,
        p_standard=found.p_standard,
        p_floor=found.p_floor,
        standard=case.basis.standard,
        standard_basis=case.basis.standard_basis,
        advice=found.advice,
        thick_factor=found.thick_factor,
        good_until=good_until,
        supported=not case.history.unsupported,
        rests_on=rests_on(dossier, on, case.basis, case.zero, case.history),
        warnings=tuple(warnings),
        test_seeds=found.test_seeds,
        regrow_before=_regrow_before(dossier, on, case),
    )


def _regrow_before(dossier: Dossier, on: date, case: _Case) -> date | None:
    """For seed nobody sells: when its middle estimate falls below 85 % of its first value."""
    if dossier.packet.origin not in {Origin.SAVED, Origin.SWAPPED}:
        return None
    viability, ln_rate = case.belief.centre()
    dose = dose_to_regeneration(viability, exp(ln_rate))
    now, zero = case.history.dose(on), case.zero.day
    if dose > now:
        days = (dose - now) / case.history.rate_now
        return on + timedelta(days=int(days)) if days <= _HORIZON_DAYS else None
    low, high = zero.toordinal(), on.toordinal()
    while low < high:
        middle = (low + high) // 2
        if case.history.dose(date.fromordinal(middle)) < dose:
            low = middle + 1
        else:
            high = middle
    return date.fromordinal(low)


def _stock(dossier: Dossier, on: date, hemisphere: str) -> Forecast:
    zero = time_zero(dossier, hemisphere, on)
    shelf = dossier.packet.sow_by or zero.day + timedelta(days=_STOCK_KEEPS_DAYS)
    why = "its own date" if dossier.packet.sow_by else "eight months, usual for sets and tubers"
    late = ("Past its shelf date: plant only what is firm and sound.",) if shelf < on else ()
    return Forecast(
        mean=None,
        low=None,
        high=None,
        p_standard=None,
        p_floor=None,
        standard=None,
        standard_basis="",
        advice=None,
        thick_factor=None,
        good_until=shelf,
        supported=True,
        rests_on=(f"Planting stock, not seed: kept by date only ({why}).", zero.reason),
        warnings=late,
        shelf_date=shelf,
    )
