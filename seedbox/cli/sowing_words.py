"""What a sowing wants, in words: depth, distance, light, what to do to the seed first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from seedbox.cli.words import number

if TYPE_CHECKING:
    from seedbox.season.sowing.figures import SowingFigures, Span
    from seedbox.season.sowing.offers import Offer

_SHARE_TO_COVER = {
    "light (press in, do not cover)": "press it in and do not cover it: it wants light",
    "dark (cover)": "cover it well: it wants dark",
}


def span(found: Span, unit: str) -> str:
    """`10 mm`, or `10 to 15 mm`."""
    if found.low == found.high:
        return f"{number(found.low)} {unit}"
    return f"{number(found.low)} to {number(found.high)} {unit}"


def depth(figures: SowingFigures) -> str:
    """How deep the seed goes; empty where nobody knows."""
    return f"{span(figures.depth_mm, 'mm')} deep" if figures.depth_mm else ""


def distances(figures: SowingFigures) -> str:
    """How far apart the plants stand, and the rows."""
    parts = (
        f"{span(figures.plant_spacing_cm, 'cm')} apart" if figures.plant_spacing_cm else "",
        f"rows {span(figures.row_spacing_cm, 'cm')}" if figures.row_spacing_cm else "",
    )
    return ", ".join(filter(None, parts))


def treatment(crop_id: str) -> list[str]:
    """What is done to the seed before it is sown, and whether it is covered."""
    from seedbox.season.sowing.crop_facts import light_to_germinate, pretreatment

    cover = _SHARE_TO_COVER.get(light_to_germinate(crop_id), "")
    return [*filter(None, (cover,)), *pretreatment(crop_id)]


def cells_deep(offer: Offer, usual_cm: float) -> str:
    """That roots want deeper cells than usual; empty in a row, or where they do not."""
    wanted = offer.figures.pot_depth_cm
    if offer.how is None or wanted <= usual_cm:
        return ""
    mine = f"in yours of {number(usual_cm)} cm it must be potted on sooner"
    return f"Cells {number(wanted)} cm deep suit its roots; {mine}"
