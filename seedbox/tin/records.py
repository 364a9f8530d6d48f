"""What a tin holds, as frozen records. Amounts are in the packet's own unit; days are local."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum


class Kind(StrEnum):
    """True seed ages by the viability model; planting stock (sets, cloves, tubers) only by date."""

    SEED = "seed"
    STOCK = "planting stock"


class Origin(StrEnum):
    BOUGHT = "bought"
    SAVED = "saved"
    SWAPPED = "swapped"
    GIFT = "gift"


class Treatment(StrEnum):
    NONE = "none"
    DRESSED = "dressed"
    PELLETED = "pelleted"
    PRIMED = "primed"


class Unit(StrEnum):
    SEEDS = "seeds"
    GRAMS = "grams"


class MovementKind(StrEnum):
    """Why a quantity changed. `recount` states what is there; all others add or take away."""

    RECEIVED = "received"
    SOWN = "sown"
    TESTED = "tested"
    GIVEN = "given"
    LOST = "lost"
    RECOUNT = "recount"


@dataclass(frozen=True, slots=True)
class Packet:
    """One packet in the tin. `crop_id` is an almanac id, or `own:…` for a person's own crop."""

    id: int
    code: str
    crop_id: str
    variety: str = ""
    kind: Kind = Kind.SEED
    origin: Origin | None = None
    source: str = ""
    harvest_year: int | None = None
    packed_year: int | None = None
    bought_year: int | None = None
    sow_by: date | None = None
    printed_germination: float | None = None
    printed_on: date | None = None
    treatment: Treatment = Treatment.NONE
    ean: str = ""
    note: str = ""
    tags: tuple[str, ...] = ()
    parent_id: int | None = None
    unit: Unit | None = None
    received_on: date | None = None


@dataclass(frozen=True, slots=True)
class Store:
    """Where packets lie. A constant temperature has `coolest_c == warmest_c`.

    `relative_humidity` is a fraction of 1 and belongs to open storage. `sealed_moisture` is the
    moisture [% of fresh weight] at which seed in this store is sealed, when a person knows it.
    """

    id: int
    name: str
    coolest_c: float
    warmest_c: float
    relative_humidity: float | None = None
    sealed: bool = False
    sealed_moisture: float | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class StoragePeriod:
    """From this day the packet lay in this store; the next period of the packet ends it."""

    packet_id: int
    from_date: date
    store_id: int
    sealed: bool = False
    moisture: float | None = None
    id: int = 0


@dataclass(frozen=True, slots=True)
class Movement:
    """One entry of the quantity journal.

    `amount` is never negative: for a recount what is there, otherwise what came or went.
    `None` is an unknown amount (a packet received uncounted).
    """

    packet_id: int
    on: date
    kind: MovementKind
    amount: float | None
    note: str = ""
    id: int = 0


@dataclass(frozen=True, slots=True)
class GerminationTest:
    """A finished germination test: `germinated` normal seedlings of `seeds` laid, `hard` apart."""

    id: int
    code: str
    packet_id: int
    on: date
    seeds: int
    germinated: int
    hard: int = 0
    note: str = ""


@dataclass(frozen=True, slots=True)
class OwnCrop:
    """A crop that the almanac does not know. `family` may be empty; `id` starts with `own:`."""

    id: str
    name: str
    family: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class OwnFigure:
    """A person's own figure for a crop, shown as theirs and used before the almanac's."""

    crop_id: str
    figure: str
    value: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Change:
    """One entry of the history; `state` is `done`, `undone`, or `dropped` (undone, overtaken)."""

    id: int
    made_at: datetime
    label: str
    state: str


@dataclass(frozen=True, slots=True)
class Dossier:
    """A packet with all that the tin knows of it; `left` is None when the quantity is unknown."""

    packet: Packet
    left: float | None
    storage: tuple[StoragePeriod, ...] = ()
    tests: tuple[GerminationTest, ...] = ()
    store: Store | None = None
