"""What a tin holds, as frozen records. Amounts are in the packet's own unit; days are local."""

from __future__ import annotations

from datetime import date, datetime
from enum import StrEnum

from seedbox.tin.frozen import record


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


@record
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


@record
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


@record
class StoragePeriod:
    """From this day the packet lay in this store; the next period of the packet ends it."""

    packet_id: int
    from_date: date
    store_id: int
    sealed: bool = False
    moisture: float | None = None
    id: int = 0


@record
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


class TestState(StrEnum):
    """A running test is counted, a finished one tells of its packet, a dropped one of nothing."""

    __test__ = False  # not a test class, whatever its name starts with

    RUNNING = "running"
    FINISHED = "finished"
    DROPPED = "dropped"


class Substrate(StrEnum):
    """What the seeds of a test lie on or in."""

    PAPER = "paper"
    SAND = "sand"
    MIX = "mix"


@record
class GerminationTest:
    """A germination test: `germinated` normal seedlings of `seeds` laid, `hard` apart.

    Figures are those of the finish; while a test runs they are 0 and its counts tell.
    `on` is the day of the finish, or of the start while it runs. `temperature_c` is constant, or
    that of the day where `night_c` is given. Count days are days after the start. `abnormal`,
    `fresh` (firm but still asleep) and `dead` are None where nobody told. `reported_by` says
    whose test it was when it was not one's own; such a test counts with less trust.
    """

    id: int
    code: str
    packet_id: int
    on: date
    seeds: int
    germinated: int
    hard: int = 0
    note: str = ""
    state: TestState = TestState.FINISHED
    started_on: date | None = None
    replicates: int = 1
    substrate: Substrate | None = None
    temperature_c: float | None = None
    night_c: float | None = None
    first_count_day: int | None = None
    final_count_day: int | None = None
    pretreatment: str = ""
    abnormal: int | None = None
    fresh: int | None = None
    dead: int | None = None
    reported_by: str = ""

    def laid(self, replicate: int) -> int:
        """Seeds in a replicate, the first being 1; what does not divide goes to the first ones."""
        each, over = divmod(self.seeds, self.replicates)
        return each + (replicate <= over)

    @property
    def unclassed(self) -> int:
        """Seeds of a finished test of which nobody said what became of them."""
        told = (self.abnormal or 0) + (self.fresh or 0) + (self.dead or 0)
        return self.seeds - self.germinated - self.hard - told

    @property
    def stopped_early(self) -> bool:
        """Finished before its last count day with seeds that might still have come."""
        if self.started_on is None or self.final_count_day is None or not self.unclassed:
            return False
        days = (self.on - self.started_on).days
        return self.state is TestState.FINISHED and days < self.final_count_day


@record
class TestCount:
    """What was newly found, and taken away, in one replicate on one day."""

    __test__ = False  # not a test class, whatever its name starts with

    test_id: int
    on: date
    replicate: int = 1
    normal: int = 0
    abnormal: int = 0
    hard: int = 0
    fresh: int = 0
    dead: int = 0
    id: int = 0

    @property
    def seeds(self) -> int:
        """Seeds of whatever kind that this count accounts for."""
        return self.normal + self.abnormal + self.hard + self.fresh + self.dead


@record
class TrayCount:
    """Seedlings that stood in a tray on a day, of the seeds sown; `place` is where it stood."""

    packet_id: int
    on: date
    place: str
    sown: int
    emerged: int
    note: str = ""
    id: int = 0


@record
class OwnCrop:
    """A crop that the almanac does not know. `family` may be empty; `id` starts with `own:`."""

    id: str
    name: str
    family: str = ""
    note: str = ""


@record
class OwnFigure:
    """A person's own figure for a crop, shown as theirs and used before the almanac's."""

    crop_id: str
    figure: str
    value: str
    note: str = ""


@record
class Change:
    """One entry of the history; `state` is `done`, `undone`, or `dropped` (undone, overtaken)."""

    id: int
    made_at: datetime
    label: str
    state: str


@record
class Dossier:
    """A packet with all that the tin knows of it; `left` is None when the quantity is unknown.

    `tests` are the finished ones: a running test tells nothing yet.
    """

    packet: Packet
    left: float | None
    storage: tuple[StoragePeriod, ...] = ()
    tests: tuple[GerminationTest, ...] = ()
    store: Store | None = None
    trays: tuple[TrayCount, ...] = ()
