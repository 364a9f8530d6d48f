"""Autumn sowings that stand the winter: which crops, and when before the frosts.

Common practice, no source; weeks count from the first autumn frost, negative before it.
"""

from __future__ import annotations

from typing import Final

from seedbox.season.sowing.figures import Hardiness, SowingFigures, Span

# Large seed that comes up before winter and waits.
_BEANS_AND_PEAS: Final = frozenset({"bean_broad", "pea_garden", "pea_mangetout", "sweet_pea"})
_AT_FROST: Final = Span(-1.0, 4.0)
# Leaves that are to be half grown when the days grow short.
_WINTER_LEAVES: Final = frozenset(
    {
        "claytonia",
        "chervil",
        "coriander",
        "corn_salad",
        "cress_land",
        "komatsuna",
        "lettuce",
        "mizuna",
        "mustard_leaf",
        "onion_bulb",
        "onion_spring",
        "rocket",
        "spinach",
        "tatsoi",
    }
)
_BEFORE_SHORT_DAYS: Final = Span(-10.0, -5.0)
# Hardy annual flowers make small rosettes before winter.
_HARDY_ANNUAL_FLOWERS: Final = Span(-7.0, -3.0)
# Seed that must lie cold to wake.
_WINTER_COLD: Final = Span(-4.0, 8.0)
# With more weeks of frost than this, what is sown in autumn wants cover. Our judgement.
MILD_FROST_WEEKS: Final = 30.0


def autumn_weeks(figures: SowingFigures) -> Span | None:
    """When the crop can be sown to stand the winter, in weeks from the first autumn frost.

    Only hardy kinds; None for a crop that is not sown so.
    """
    if figures.hardiness is not Hardiness.HARDY:
        return None
    if figures.crop_id in _BEANS_AND_PEAS:
        return _AT_FROST
    if figures.crop_id in _WINTER_LEAVES:
        return _BEFORE_SHORT_DAYS
    if figures.wants_winter_cold:
        return _WINTER_COLD
    if figures.category == "flower" and figures.annual and figures.outdoor_weeks is not None:
        return _HARDY_ANNUAL_FLOWERS
    return None
