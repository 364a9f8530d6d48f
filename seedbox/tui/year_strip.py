"""The year of the tin as lines: a letter a week, for each crop and what is done."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from seedbox.season.sowing.climate import spoken
from seedbox.season.sowing.tin_year import LETTERS, CropYear, TinYear
from seedbox.season.sowing.year import Activity, Stretch
from seedbox.tui.columns import Column
from seedbox.tui.virtual_list import Row

LEGEND = (
    ", ".join(f"{letter} {activity.value}" for activity, letter in LETTERS.items())
    + "; a small letter: a later sowing. | is this week."
)
WEEKS = 53
_ALL_YEAR_DAYS = 360
_SHORT = {
    Activity.INDOORS: "indoors",
    Activity.UNDER_COVER: "under cover",
    Activity.OUTDOORS: "outdoors",
    Activity.SET_OUT: "plant out",
    Activity.HARVEST: "harvest",
}


def year_columns(starts: Sequence[date], today: date) -> tuple[Column, ...]:
    """Crop, what is done, and the weeks under the names of their months."""
    return (
        Column("crop", "Crop", 11, most=26),
        Column("what", "What", 11),
        Column("weeks", month_line(starts, today), WEEKS),
    )


def month_line(starts: Sequence[date], today: date) -> str:
    """The months over their weeks, and a stroke over the week of `today`."""
    line = ["|" if 0 <= (today - start).days < 7 else " " for start in starts]
    months = [
        (start + timedelta(days=3)).month for start in starts
    ]  # the Thursday's, as ISO has it
    for month in range(1, 13):
        free = [week for week, one in enumerate(months) if one == month and line[week] == " "]
        for week, letter in zip(free, f"{date(2001, month, 1):%b}", strict=False):
            line[week] = letter
    return "".join(line)


def year_rows(year: TinYear) -> list[tuple[CropYear, Row]]:
    """A line for each crop and activity; the crop stands on the first of its lines."""
    found: list[tuple[CropYear, Row]] = []
    for crop in year.crops:
        name = crop.crop
        for activity, weeks in crop.weeks.items():
            if weeks.strip("."):
                found.append((crop, (name, _SHORT[activity], weeks)))
                name = ""
        if name:
            found.append((crop, (name, "no week known", "")))
    return found


def crop_words(crop: CropYear, year: int) -> str:
    """The stretches of one crop in words, those of this year."""
    said: list[str] = []
    before: Stretch | None = None
    for one in crop.stretches:
        if not one.first.year <= year <= one.last.year:
            continue
        if one.later and before is not None and before.activity is one.activity:
            said[-1] += f", later until {spoken(one.last)}"
        elif (one.last - one.first).days >= _ALL_YEAR_DAYS:
            said.append(f"{one.activity.value} all year")
        elif one.first.year < year:
            said.append(f"{one.activity.value} until {spoken(one.last)}")
        else:
            said.append(f"{one.activity.value} {spoken(one.first)} to {spoken(one.last)}")
        before = one
    return f"{crop.crop}: {'; '.join(said)}." if said else f"{crop.crop}: no week is known."
