"""How long a plant may stay in its cell or pot."""

from __future__ import annotations

from typing import Final

from seedbox.season.sowing import job_constants as c
from seedbox.season.sowing.figures import SowingFigures, Span

_USUAL_EMERGE: Final = Span(7.0, 14.0)
# Crops that run to flower or make small heads when their roots are checked. Common practice.
_FLOWERS_EARLY: Final = frozenset(
    {
        "beetroot",
        "broccoli_calabrese",
        "cauliflower",
        "celeriac",
        "celery",
        "chard",
        "chinese_cabbage",
        "endive",
        "fennel_florence",
        "kohlrabi",
        "lettuce",
        "onion_bulb",
        "pak_choi",
        "radicchio",
        "spinach",
        "sunflower",
    }
)


def days_in_pot(figures: SowingFigures, depth_cm: float) -> float:
    """Days from emergence until roots have filled a pot of a depth [cm].

    In a pot as deep as the crop needs, its usual time to transplanting less its usual time to
    emerge. A shallow pot shortens it: with the depth itself for roots that go down first, with
    the square root of the depth for those that spread. A deeper one lengthens it, by half at
    most. Never less than it takes to a true leaf.
    """
    weeks = figures.weeks_to_transplant or c.UNKNOWN_WEEKS
    growing = 7.0 * weeks.mid - (figures.emerge_days or _USUAL_EMERGE).mid
    room = min(depth_cm / figures.pot_depth_cm, c.MOST_ROOM) if figures.pot_depth_cm else 1.0
    power = 1.0 if figures.deep_rooted else c.FIBROUS_POWER
    return max(growing * float(room**power), c.LEAST_DAYS_IN_POT)


def days_until_large_enough(figures: SowingFigures) -> Span:
    """Days from emergence until it can be set out, soonest and latest."""
    weeks = figures.weeks_to_transplant or c.UNKNOWN_WEEKS
    emerge = (figures.emerge_days or _USUAL_EMERGE).mid
    least = c.LEAST_DAYS_IN_POT
    return Span(max(7.0 * weeks.low - emerge, least), max(7.0 * weeks.high - emerge, least))


def if_pot_bound(figures: SowingFigures) -> str:
    """What happens to a plant that stays too long in its pot."""
    if figures.tap_rooted:
        return "pot-bound: the main root coils at the bottom and the plant never grows away well"
    if figures.crop_id in _FLOWERS_EARLY:
        return "pot-bound: growth is checked, and it may run to flower early"
    if figures.hardiness.frost_kills:
        return "pot-bound: growth stops, and it flowers while still small"
    return "pot-bound: growth stops, and leaves turn pale"
