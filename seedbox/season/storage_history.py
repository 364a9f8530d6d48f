"""Where a packet has lain, as the ageing dose at any day."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from seedbox.science.ageing import Climate
from seedbox.science.constants import REFERENCE_C, REFERENCE_RH
from seedbox.science.moisture import equilibrium_moisture
from seedbox.season.crop_basis import CropBasis
from seedbox.tin.frozen import record
from seedbox.tin.records import StoragePeriod, Store
from seedbox.units import celsius, celsius_range, per_cent

REFERENCE_ROOM = Climate(REFERENCE_C, REFERENCE_C, REFERENCE_RH)
_ROOM = f"a room at {celsius(REFERENCE_C)} and {per_cent(REFERENCE_RH)} humidity"


@record
class Stretch:
    """One stretch of time in one climate. `dose` is what had been reached when it began."""

    begins: int
    dose: float
    rate: float


@record
class StorageHistory:
    """The ageing dose of a packet over time; the last store goes on for ever."""

    stretches: tuple[Stretch, ...]
    rests_on: tuple[str, ...]
    unsupported: tuple[str, ...]

    @property
    def rate_now(self) -> float:
        """Ageing of a typical lot in the store where it lies now [probits per day]."""
        return self.stretches[-1].rate

    def dose(self, day: date) -> float:
        """Dose of a typical lot on a day [probits]; 0 before ageing began."""
        ordinal = day.toordinal()
        for stretch in reversed(self.stretches):
            if ordinal >= stretch.begins:
                return stretch.dose + stretch.rate * (ordinal - stretch.begins)
        return 0.0


@record
class Lodging:
    """A climate from a day on, and how to say it."""

    begins: date
    climate: Climate
    words: str


def storage_history(
    basis: CropBasis,
    begins: date,
    storage: Sequence[StoragePeriod],
    stores: Mapping[int, Store],
) -> StorageHistory:
    """Dose over time from the day ageing begins, through the packet's storage periods.

    Before the first period the seed is taken to have lain in the reference room.
    """
    lodgings = _lodgings(basis, storage, stores)
    said = []
    if not lodgings:
        said.append(f"No store given: taken as {_ROOM}.")
    elif lodgings[0].begins > begins:
        said.append(f"Before it came to you: taken as {_ROOM}.")
    said += [lodging.words for lodging in lodgings]
    return history_of(basis, begins, lodgings, tuple(said))


def history_of(
    basis: CropBasis, begins: date, lodgings: Sequence[Lodging], rests_on: tuple[str, ...]
) -> StorageHistory:
    """Dose over time through given climates."""
    at, dose = begins.toordinal(), 0.0
    rate, fault = basis.rate(REFERENCE_ROOM)
    stretches, faults = [Stretch(at, dose, rate)], []
    for lodging in lodgings:
        day = max(lodging.begins.toordinal(), at)
        dose += rate * (day - at)
        at = day
        rate, fault = basis.rate(lodging.climate)
        if fault:
            faults.append(fault)
        stretches.append(Stretch(at, dose, rate))
    return StorageHistory(tuple(stretches), rests_on, tuple(dict.fromkeys(faults)))


def _lodgings(
    basis: CropBasis, storage: Sequence[StoragePeriod], stores: Mapping[int, Store]
) -> list[Lodging]:
    lodgings: list[Lodging] = []
    before = REFERENCE_ROOM
    for period in sorted(storage, key=lambda each: each.from_date):
        store = stores.get(period.store_id)
        if store is None:
            continue
        before, words = _climate(basis, period, store, before)
        lodgings.append(Lodging(period.from_date, before, words))
    return lodgings


def _climate(
    basis: CropBasis, period: StoragePeriod, store: Store, before: Climate
) -> tuple[Climate, str]:
    since = f"{store.name} since {period.from_date:%B %Y}"
    warmth = celsius_range(store.coolest_c, store.warmest_c)
    if period.sealed or store.sealed:
        moisture = period.moisture if period.moisture is not None else store.sealed_moisture
        how = "sealed"
        if moisture is None:
            moisture, how = carried_moisture(basis, before), "sealed as dry as it was before"
        climate = Climate(store.coolest_c, store.warmest_c, moisture=moisture)
        return climate, f"{since}: {warmth}, {how}, {moisture:.1f} % moisture."
    if store.relative_humidity is None:
        climate = Climate(store.coolest_c, store.warmest_c, REFERENCE_RH)
        return climate, f"{since}: {warmth}, humidity not given, taken as {per_cent(REFERENCE_RH)}."
    climate = Climate(store.coolest_c, store.warmest_c, store.relative_humidity)
    return climate, f"{since}: {warmth}, {per_cent(store.relative_humidity)} humidity."


def carried_moisture(basis: CropBasis, climate: Climate) -> float:
    """Moisture of seed that leaves this climate [% of fresh weight]."""
    if climate.moisture is not None:
        return climate.moisture
    humidity = min(climate.relative_humidity or 0.0, 0.95)
    middle = 0.5 * (climate.coolest_c + climate.warmest_c)
    return equilibrium_moisture(humidity, min(max(middle, -40.0), 90.0), basis.oil.fraction)
