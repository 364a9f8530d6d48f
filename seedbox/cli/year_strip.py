"""The year as lines of text: for each crop a strip of weeks for each thing that is done."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING, Any, Final

from seedbox.cli.tables import cut, pad

if TYPE_CHECKING:
    from seedbox.season.sowing.tin_year import CropYear, TinYear

_NAME, _WHAT = 15, 9
_MONTHS: Final = "JFMAMJJASOND"
_SHORT: Final = {
    "sow indoors": "indoors",
    "sow under cover": "cover",
    "sow outdoors": "outdoors",
    "plant out": "plant out",
    "harvest": "harvest",
}
LEGEND: Final = (
    "I sow indoors, C sow under cover, O sow outdoors, P plant out, H harvest.",
    "A column is a week; small letters come after the best weeks.",
)


def lines(year: TinYear, today: date) -> Iterator[str]:
    """A ruler of months, the week of today marked, then the crops."""
    yield from LEGEND
    yield ""
    blank = " " * (_NAME + _WHAT + 2)
    yield f"{blank}{_ruler(year)}".rstrip()
    mark = _this_week(year, today)
    if mark is not None:
        yield f"{blank}{' ' * mark}v this week"
    for crop in year.crops:
        yield from _crop(crop)


def _crop(crop: CropYear) -> Iterator[str]:
    told = [(activity.value, weeks) for activity, weeks in crop.weeks.items() if weeks.strip(".")]
    if not told:
        yield f"{pad(cut(crop.crop, _NAME), _NAME)} no week is known for it"
    for number, (activity, weeks) in enumerate(told):
        name = "" if number else cut(crop.crop, _NAME)
        yield f"{pad(name, _NAME)} {pad(_SHORT[activity], _WHAT)} {weeks}"


def _ruler(year: TinYear) -> str:
    """The letter of a month above the week in which it begins."""
    letters = [" "] * len(year.starts)
    for month in range(12):
        first = date(year.year, month + 1, 1)
        week = max((at for at, start in enumerate(year.starts) if start <= first), default=0)
        letters[week] = _MONTHS[month]
    return "".join(letters)


def _this_week(year: TinYear, today: date) -> int | None:
    if not year.starts[0] <= today <= date(year.year, 12, 31):
        return None
    return max(at for at, start in enumerate(year.starts) if start <= today)


def facts(year: TinYear) -> list[dict[str, Any]]:
    """The crops of the year for JSON."""
    return [
        {
            "crop": crop.crop,
            "crop_id": crop.crop_id,
            "weeks": {activity.value: weeks for activity, weeks in crop.weeks.items()},
            "stretches": [
                {
                    "activity": stretch.activity,
                    "first": stretch.first,
                    "last": stretch.last,
                    "later": stretch.later,
                }
                for stretch in crop.stretches
            ],
        }
        for crop in year.crops
    ]
