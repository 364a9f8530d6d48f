"""How a packet would be sown, as the fields of a form, and from the fields what was asked for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from seedbox.season.sowing.desk import Desk as Season
from seedbox.season.sowing.offers import LeftOut, Offer
from seedbox.season.sowing.sow import SowingPlan, Wish, plan_sowing
from seedbox.tin.file import Tin
from seedbox.tui.field_values import FieldReader
from seedbox.tui.form import Values

RECKONED = ("cells", "per_cell", "seeds", "row_m")
_NOTHING: Mapping[str, str] = dict.fromkeys(RECKONED, "")


@dataclass(frozen=True, slots=True)
class Proposal:
    """A plan for some plants in a place, as the texts of the fields."""

    plan: SowingPlan
    texts: Values


def proposed(tin: Tin, season: Season, code: str, place: str, wish: Wish) -> Proposal:
    """What is reckoned for the plants wished for; None: what the plan still needs.

    Raises SeedboxError when nothing can be reckoned.
    """
    plan = plan_sowing(tin, code, place, wish, today=season.today, desk=season)
    return Proposal(plan, _texts(plan))


def _texts(plan: SowingPlan) -> Values:
    draft = plan.draft
    if draft.cells:
        return {**_NOTHING, "cells": str(draft.cells), "per_cell": str(draft.per_cell)}
    row = "" if draft.row_m is None else f"{draft.row_m:g}"
    return {**_NOTHING, "seeds": str(draft.all_seeds or ""), "row_m": row}


def wish_from(reader: FieldReader, last: Proposal | None) -> Wish:
    """What the fields ask for; left as they were proposed, cells and seeds are reckoned anew."""
    plants, depth = reader.count("plants") or None, reader.number("depth")
    texts = {name: reader.text(name) for name in RECKONED}
    if (last is not None and texts == last.texts) or not any(texts.values()):
        return Wish(plants=plants, pot_depth_cm=depth, note=reader.text("note"))
    cells, seeds = reader.count("cells") or None, reader.count("seeds") or None
    per_cell, row_m = reader.count("per_cell") or None, reader.number("row_m")
    if cells and seeds:
        reader.fault("seeds", "Cells, or seeds in a row, not both: empty one of them.")
    if per_cell and not cells:
        reader.fault("cells", "Say how many cells.")
    if row_m and not seeds:
        reader.fault("seeds", "Say how many seeds go into the row.")
    return Wish(plants, cells, per_cell, seeds, row_m, None, depth, reader.text("note"))


def best_place(season: Season, code: str) -> tuple[str, str]:
    """The place that is advised for a packet now, and why now is not the time, or nothing."""
    places = [place.name for place in season.garden.places]
    if season.garden.climate is None:
        return places[0], ""
    found: Offer | LeftOut = season.look(season.listing.line(code))
    if isinstance(found, Offer):
        return found.choice.place.name, ""
    return places[0], found.reason
