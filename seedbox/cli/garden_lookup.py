"""Names of the garden as people type them: places by part of their name, days of the year."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import TYPE_CHECKING

from seedbox.cli.lookup import one_named
from seedbox.errors import SeedboxError, UsageError
from seedbox.tin.garden_records import Place, Plan

if TYPE_CHECKING:
    from seedbox.tin.file import Tin

_NONE = "none"
_NUMBERS = re.compile(r"\d{1,2}-\d{1,2}")


def place_among(places: Iterable[Place], wanted: str) -> Place:
    """A place by its name, or by a part of it that no other place has.

    Raises:
        NotFoundError: with the places that there are.
    """
    return one_named(list(places), wanted, "place")


def place_name(tin: Tin, wanted: str) -> str:
    """The whole name of the place that is meant."""
    return place_among(tin.places(), wanted).name


def plan_of(tin: Tin, crop_id: str, variety: str, year: int | None) -> Plan | None:
    """The plan of a crop and variety (in any case) for a year, None being every year."""
    folded = variety.casefold()
    for plan in tin.plans():
        if (plan.crop_id, plan.variety.casefold(), plan.year) == (crop_id, folded, year):
            return plan
    return None


def day_of_year(text: str) -> str:
    """A day that comes every year, as month and day: from `04-25`, `25 April` or `April 25`.

    >>> day_of_year("25 April"), day_of_year("apr 5"), day_of_year("None")
    ('04-25', '04-05', 'none')
    """
    words = " ".join(text.casefold().replace(",", " ").split())
    if words in (_NONE, "never"):
        return _NONE
    if _NUMBERS.fullmatch(words):
        month, day = words.split("-")
        return _checked(f"2001-{month}-{day}", text)
    return _checked(f"{words} 2001", text)


def _checked(day: str, text: str) -> str:
    from seedbox.cli.dates import read_day

    try:
        return f"{read_day(day):%m-%d}"
    except SeedboxError:
        raise UsageError(
            f"“{text}” is not a day of every year.",
            hint="Write month and day as 04-25, or 25 April; none where frost never comes.",
        ) from None
