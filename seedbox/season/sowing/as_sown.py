"""A sowing of the tin as its course is reckoned from: figures, place, pots, what has happened."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from seedbox.season.sowing.course import Sown
from seedbox.season.sowing.desk import Desk
from seedbox.season.sowing.figures import SowingFigures, Span
from seedbox.season.sowing.garden import GrowingPlace
from seedbox.season.sowing.how_many import CLUSTERS
from seedbox.season.sowing.in_progress import Growing
from seedbox.season.sowing.place import Warmth
from seedbox.season.sowing.spans import Method
from seedbox.tin.garden_records import EventKind, Plan

_NEW_POT_CM = 9.0  # a usual pot after a cell: common practice, no source


def as_sown(desk: Desk, growing: Growing, figures: SowingFigures) -> Sown:
    """The sowing as its course is reckoned from."""
    sowing, potted = growing.sowing, growing.last(EventKind.POTTED_ON)
    depth = max(figures.pot_depth_cm, _NEW_POT_CM)
    return Sown(
        figures=_with_succession(desk, growing, figures),
        model=desk.facts.model(figures.crop_id),
        method=growing.sown_in.method,
        sown_on=sowing.on,
        warmth=growing.sown_in.spot.warmth,
        cell_depth_cm=_cell_depth(desk, growing),
        per_cell=sowing.per_cell or 1,
        plants_per_cell=sowing.left_per_cell,
        clusters=figures.crop_id in CLUSTERS,
        outside=_outside(desk.garden.places),
        hardening_days=desk.settings.hardening_days,
        emerged_on=growing.emerged_on,
        potted_on=potted.on if potted else None,
        pot_depth_cm=(potted.pot_depth_cm or depth) if potted else None,
        hardening_since=growing.day_of(EventKind.HARDENING),
        planted_out_on=growing.day_of(EventKind.PLANTED_OUT),
    )


def _cell_depth(desk: Desk, growing: Growing) -> float | None:
    if growing.sowing.cells is None:
        return None
    return growing.sowing.pot_depth_cm or desk.settings.cell_depth_cm


def _with_succession(desk: Desk, growing: Growing, figures: SowingFigures) -> SowingFigures:
    """A household's plan says how often to sow again; where it says nothing, not at all."""
    plans = [plan for plan in desk.garden.plans if is_of(plan, growing)]
    if not plans:
        return figures
    days = next((plan.again_days for plan in plans if plan.again_days), None)
    return replace(figures, succession_days=Span(days, days) if days else None)


def is_of(plan: Plan, growing: Growing) -> bool:
    packet = growing.packet
    same = plan.variety.casefold() in ("", packet.variety.casefold())
    return plan.crop_id == packet.crop_id and same


def _outside(places: Sequence[GrowingPlace]) -> Warmth | None:
    """The warmth of a bed that plants go out to, where the garden has one."""
    return next((one.spot.warmth for one in places if one.method is Method.OUTDOORS), None)
