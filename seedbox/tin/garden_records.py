"""What a tin holds of the garden, as frozen records: places, plans, sowings and their events."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum


class PlaceKind(StrEnum):
    """What sort of place it is where things grow."""

    WINDOWSILL = "windowsill"
    PROPAGATOR = "propagator"
    SHELF = "lit shelf"
    HEATED_GREENHOUSE = "heated greenhouse"
    GREENHOUSE = "greenhouse"
    COLD_FRAME = "cold frame"
    COVER = "cover"
    BED = "bed"

    @property
    def indoors(self) -> bool:
        """Whether frost never comes in."""
        return self in _INDOORS

    @property
    def usually_covered(self) -> bool:
        """Whether such a place has a roof of some sort."""
        return self is not PlaceKind.BED


_INDOORS = frozenset(
    {
        PlaceKind.WINDOWSILL,
        PlaceKind.PROPAGATOR,
        PlaceKind.SHELF,
        PlaceKind.HEATED_GREENHOUSE,
    }
)


@dataclass(frozen=True, slots=True)
class Place:
    """Where things grow. Temperatures [C] are those of the soil or compost there.

    Constant where `coolest_c == warmest_c`; else the means of the coolest and the warmest month,
    or `months_c`, twelve means from January on. `ppfd` [micromol per square metre and second]
    for `light_hours` [h] a day is the light; None where nobody measured it.
    """

    id: int
    name: str
    kind: PlaceKind
    covered: bool
    coolest_c: float
    warmest_c: float
    months_c: tuple[float, ...] = ()
    ppfd: float | None = None
    light_hours: float | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Plan:
    """What the household wants: `plants` of a crop from each sowing, every `again_days` if set.

    Without a `variety` any of the crop will do. `year` is that in which the growing season
    begins; None is every year.
    """

    id: int
    crop_id: str
    plants: int
    variety: str = ""
    year: int | None = None
    again_days: int | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Sowing:
    """Seed of one packet sown on a day in a place: in `cells` of `per_cell` seeds, or in rows.

    `left_per_cell` plants are left standing together in a cell (1: thinned to one).
    """

    id: int
    code: str
    packet_id: int
    on: date
    place_id: int
    seeds: int
    cells: int | None = None
    per_cell: int | None = None
    row_m: float | None = None
    left_per_cell: int = 1
    plants_wanted: int | None = None
    pot_depth_cm: float | None = None
    note: str = ""


class EventKind(StrEnum):
    """What became of a sowing. `put off` and `skipped` are said of one of its jobs."""

    EMERGED = "emerged"
    THINNED = "thinned"
    POTTED_ON = "potted on"
    HARDENING = "hardening off"
    PLANTED_OUT = "planted out"
    HARVESTED = "harvested"
    SOWN_AGAIN = "sown again"
    MOVED = "moved"
    FAILED = "failed"
    ENDED = "ended"
    PUT_OFF = "put off"
    SKIPPED = "skipped"

    @property
    def ends(self) -> bool:
        """Whether nothing more is to be done with the sowing."""
        return self in (EventKind.FAILED, EventKind.ENDED)

    @property
    def of_a_job(self) -> bool:
        """Whether it tells of a job and not of the plants."""
        return self in (EventKind.PUT_OFF, EventKind.SKIPPED)


@dataclass(frozen=True, slots=True)
class SowingEvent:
    """What happened on a day. `count` is seedlings or plants; `place_id` where they then stood.

    `job` names the job that was put off (to the day `until`) or skipped.
    """

    sowing_id: int
    on: date
    kind: EventKind
    count: int | None = None
    place_id: int | None = None
    pot_depth_cm: float | None = None
    job: str = ""
    until: date | None = None
    note: str = ""
    id: int = 0
