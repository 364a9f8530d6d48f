"""The cards of a tin: which packets stand behind each, by crop group or by month of sowing."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from seedbox import almanac
from seedbox.season.listing import PacketLine, Sort, ordered
from seedbox.season.sowing.desk import Desk
from seedbox.season.sowing.spans import Method
from seedbox.season.sowing.tin_year import tin_year
from seedbox.season.sowing.year import Activity, Stretch
from seedbox.tin.records import Kind

# The families that a kitchen garden is divided by, in the trade's words; common practice.
_FAMILIES = {
    "Amaryllidaceae": "Onion family",
    "Fabaceae": "Peas and beans",
    "Brassicaceae": "Cabbage family",
    "Amaranthaceae": "Beet family",
    "Asteraceae": "Lettuce family",
    "Apiaceae": "Carrot family",
    "Solanaceae": "Tomato family",
    "Cucurbitaceae": "Cucumber family",
}
_CATEGORIES = {"herb": "Herbs", "flower": "Flowers"}
_OTHER, _UNKNOWN_KIND = "Other vegetables", "Other kinds"
_GROUPS = (*_FAMILIES.values(), _OTHER, *_CATEGORIES.values(), _UNKNOWN_KIND)

_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August",
           "September", "October", "November", "December")  # fmt: skip
_PLANTED, _NO_TIME = "Planted, not sown", "No time of sowing known"
_SOWN = {
    Method.INDOORS: Activity.INDOORS,
    Method.UNDER_COVER: Activity.UNDER_COVER,
    Method.OUTDOORS: Activity.OUTDOORS,
}


class DividedBy(StrEnum):
    """What the packets of a tin are put in order by."""

    GROUP = "group"
    MONTH = "month"


@dataclass(frozen=True, slots=True)
class Divider:
    """A card: its name, and the packets that stand behind it, by crop."""

    name: str
    lines: tuple[PacketLine, ...]

    @property
    def by_crop(self) -> dict[str, list[str]]:
        """The varieties of each crop; an unnamed one is an empty text."""
        found: dict[str, list[str]] = {}
        for line in self.lines:
            found.setdefault(line.crop, []).append(line.packet.variety)
        return found


def dividers(desk: Desk, lines: Iterable[PacketLine], by: DividedBy) -> tuple[Divider, ...]:
    """The cards that are needed, in order; every packet stands behind one of them.

    By month it is the first month of its best weeks of sowing in this garden, this year.
    """
    if by is DividedBy.GROUP:
        return _cards(lines, lambda line: _group(desk, line), _GROUPS)
    months = _months(desk)
    order = (*_MONTHS, _PLANTED, _NO_TIME)
    return _cards(lines, lambda line: _month(months, line), order)


def _cards(
    lines: Iterable[PacketLine], name_of: Callable[[PacketLine], str], order: Sequence[str]
) -> tuple[Divider, ...]:
    found: dict[str, list[PacketLine]] = {name: [] for name in order}
    for line in lines:
        found[name_of(line)].append(line)
    return tuple(
        Divider(name, tuple(ordered(behind, Sort.CROP))) for name, behind in found.items() if behind
    )


def _group(desk: Desk, line: PacketLine) -> str:
    crop_id = line.packet.crop_id
    family = _FAMILIES.get(desk.listing.book.family(crop_id), "")
    if not almanac.is_crop_id(crop_id):
        return family or _UNKNOWN_KIND
    return _CATEGORIES.get(almanac.crop(crop_id).category) or family or _OTHER


def _months(desk: Desk) -> dict[str, str]:
    """For each crop of the tin the month in which its sowing begins, by the ways of sowing for
    which the garden has a place.
    """
    year = tin_year(desk, desk.today.year)
    here = {place.method for place in desk.garden.places} or set(Method)
    sown = {_SOWN[method] for method in here}
    starts = {
        row.crop_id: _begins([one for one in row.stretches if one.activity in sown], year.year)
        or _begins([one for one in row.stretches if one.activity in _SOWN.values()], year.year)
        for row in year.crops
    }
    return {crop: _MONTHS[day.month - 1] for crop, day in starts.items() if day is not None}


def _begins(sown: Sequence[Stretch], year: int) -> date | None:
    """The first day of the first best sowing that begins in the year, else of any sowing."""
    this_year = [one.first for one in sown if one.first.year == year and not one.later]
    return min(this_year or [one.first for one in sown], default=None)


def _month(months: dict[str, str], line: PacketLine) -> str:
    if line.packet.kind is Kind.STOCK:
        return _PLANTED
    return months.get(line.packet.crop_id, _NO_TIME)
