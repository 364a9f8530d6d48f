"""Offers and sowings as plain fields, for lists in a machine's form: the same in every command."""

from __future__ import annotations

from typing import Any

from seedbox.season.sowing.how_many import HowMany
from seedbox.season.sowing.in_progress import Growing
from seedbox.season.sowing.now import SowingNow
from seedbox.season.sowing.offers import LeftOut, Offer


def offer_fields(offer: Offer) -> dict[str, Any]:
    """One offer: dates as dates, unknown figures None.

    `cells` and `seeds_per_cell` are None for a row, which has `row_m` and `seeds_per_metre`.
    """
    packet, choice, plan = offer.line.packet, offer.choice, offer.plan
    days, figures = choice.emerging.days, offer.figures
    cells = plan if isinstance(plan, HowMany) else None
    return {
        "code": packet.code,
        "crop": offer.line.crop,
        "crop_id": packet.crop_id,
        "variety": packet.variety,
        "method": choice.method.value,
        "place": choice.place.name,
        "emergence_days": None
        if days is None
        else {"low": round(days.low, 1), "mid": round(days.mid, 1), "high": round(days.high, 1)},
        "depth_mm": None if figures.depth_mm is None else figures.depth_mm.mid,
        "pot_depth_cm": figures.pot_depth_cm or None,
        "plant_spacing_cm": None
        if figures.plant_spacing_cm is None
        else figures.plant_spacing_cm.mid,
        "row_spacing_cm": None if figures.row_spacing_cm is None else figures.row_spacing_cm.mid,
        "cells": cells.cells if cells else None,
        "seeds_per_cell": cells.per_cell if cells else None,
        "row_m": None if offer.row is None else round(offer.row.row_m, 2),
        "seeds_per_metre": None if offer.row is None else round(offer.row.per_metre, 1),
        "seeds": plan.seeds,
        "plants": plan.plants,
        "plants_wanted": offer.wanted,
        "assurance": round(plan.assurance, 4),
        "window_closes": offer.closes,
        "light": offer.light or None,
        "pretreatment": list(offer.pretreatment),
        "reason": offer.reason,
        "instead_of": offer.instead_of or None,
    }


def left_out_fields(left_out: LeftOut) -> dict[str, Any]:
    """One packet that is not sown now, with why."""
    line = left_out.line
    return {
        "code": line.packet.code,
        "crop": line.crop,
        "crop_id": line.packet.crop_id,
        "variety": line.packet.variety,
        "reason": left_out.reason,
    }


def now_fields(found: SowingNow) -> list[dict[str, Any]]:
    """All offers, the most urgent first."""
    return [offer_fields(offer) for offer in found.offers]


def sowing_fields(growing: Growing) -> dict[str, Any]:
    """One sowing as it stands."""
    sowing = growing.sowing
    return {
        "code": sowing.code,
        "packet": growing.packet.code,
        "crop": growing.crop,
        "crop_id": growing.packet.crop_id,
        "variety": growing.packet.variety,
        "sown_on": sowing.on,
        "place": growing.stands_in.name,
        "cells": sowing.cells,
        "seeds_per_cell": sowing.per_cell,
        "row_m": sowing.row_m,
        "seeds": sowing.seeds,
        "plants_wanted": sowing.plants_wanted,
        "emerged": growing.emerged,
        "plants": growing.plants,
        "stage": growing.stage.value,
        "open": growing.open,
    }
