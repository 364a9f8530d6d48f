"""How many sowings a plan still asks for in its season."""

from __future__ import annotations

from datetime import date
from math import ceil
from typing import Final

from seedbox.season.sowing.climate import GardenClimate
from seedbox.season.sowing.figures import SowingFigures
from seedbox.season.sowing.needs import Need
from seedbox.season.sowing.windows import ways

MOST_SOWINGS: Final = 30


def sowings_to_come(
    need: Need, figures: SowingFigures, climate: GardenClimate, today: date
) -> tuple[date | None, int]:
    """The first day of sowing still to come, and how many sowings the season has from then."""
    found = ways(figures, climate, today)
    now = [way for way in found if way.open]
    opens = [way.opens for way in found if not way.open and way.opens is not None]
    first = today if now else min(opens, default=None)
    if first is None or (need.met and need.next_on is None):
        return first, 0
    if need.plan.again_days is None:
        return first, 1
    first = max(first, need.next_on or first)
    ends = [way.later_until or way.closes for way in found if way.open or way.opens]
    last = max((end for end in ends if end is not None), default=None)
    if last is None:  # no frost: a year of sowings
        return first, min(ceil(365 / need.plan.again_days), MOST_SOWINGS)
    times = 1 + max((last - first).days, 0) // need.plan.again_days
    return first, min(times, MOST_SOWINGS)
