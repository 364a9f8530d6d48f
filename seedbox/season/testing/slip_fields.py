"""The words on the slip that lies with a test in its bag: one slip for each replicate."""

from __future__ import annotations

from datetime import date, timedelta

from seedbox.season.cautions import label_caution
from seedbox.season.crops import CropBook
from seedbox.season.testing.schedule import all_count_days, count_days, started
from seedbox.season.testing.warmth import Warmth
from seedbox.season.written_dates import written, written_day
from seedbox.tin.codes import shown
from seedbox.tin.preferences import Settings
from seedbox.tin.records import GerminationTest, Packet

_BLANK = "_" * 5
# A long test has more count days than a slip has room for.
_MOST_BLANKS = 8


def slip_fields(
    test: GerminationTest, packet: Packet, book: CropBook, settings: Settings | None = None
) -> list[dict[str, str]]:
    """Field names of the design `test` with their text, for each replicate in order; dates follow
    the settings, which also give a person's own line.
    """
    settings = settings or Settings()
    crop = book.name(packet.crop_id)
    shared = {
        "code": shown(test.code),
        "crop": crop,
        "variety": packet.variety,
        "botanical": book.botanical_name(packet.crop_id),
        "packet": f"packet {shown(packet.code)}",
        "laid_on": f"laid {written(started(test), settings.dates)}",
        "temperature": _warmth(test),
        "pretreatment": test.pretreatment,
        "caution": label_caution(packet, crop),
        "note": test.note,
        "line": settings.label_line,
        **_count_fields(test, settings.dates),
    }
    return [{**shared, "seeds": _seeds(test, number)} for number in range(1, test.replicates + 1)]


def _count_fields(test: GerminationTest, order: str) -> dict[str, str]:
    first, final = count_days(test)
    begun = started(test)
    days = [begun + timedelta(days=day) for day in all_count_days(first, final)]
    return {
        "first_count": f"first count {written_day(days[0], order)}",
        "final_count": f"last count {written_day(days[-1], order)}",
        "tally": " ".join(_to_write_on(day, order) for day in _some(days)),
    }


def _to_write_on(day: date, order: str) -> str:
    """A day in one word, so that it is not parted from its blank."""
    return f"{written_day(day, order).replace(' ', '-')}:{_BLANK}"


def _some(days: list[date]) -> list[date]:
    """As many days as there is room for, the last one always among them."""
    if len(days) <= _MOST_BLANKS:
        return days
    return [*days[: _MOST_BLANKS - 1], days[-1]]


def _seeds(test: GerminationTest, number: int) -> str:
    laid = test.laid(number)
    seeds = "1 seed" if laid == 1 else f"{laid} seeds"
    return seeds if test.replicates == 1 else f"{seeds}, replicate {number} of {test.replicates}"


def _warmth(test: GerminationTest) -> str:
    """Where it belongs, for people who will carry it from one room to another."""
    if test.temperature_c is None:
        return ""
    return Warmth(test.temperature_c, test.night_c).words
