"""Sowing a packet: how it would be sown, what speaks against it, and doing it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from math import ceil

from seedbox.errors import BadDataError
from seedbox.science.light import Light
from seedbox.science.sowing_rate import assurance_of_seeds, assurance_of_tray, plants_assured
from seedbox.season.forecast import Advice
from seedbox.season.listing import PacketLine
from seedbox.season.sowing.crop_facts import MULTI_SOWN
from seedbox.season.sowing.desk import Desk, in_row
from seedbox.season.sowing.figures import SowingFigures
from seedbox.season.sowing.garden import GrowingPlace
from seedbox.season.sowing.how_many import HowMany
from seedbox.season.sowing.where import emerging
from seedbox.season.sowing.windows import ways
from seedbox.season.testing.starting import grams_for
from seedbox.tin.codes import shown
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import Sowing
from seedbox.tin.records import Kind, Unit
from seedbox.tin.sowings import SowingDraft, add_sowing
from seedbox.units import per_cent


@dataclass(frozen=True, slots=True)
class Wish:
    """What a person asks for; what is left out is reckoned.

    `plants` alone: cells or a row for them. `cells` and `per_cell`, or `seeds` (with `row_m`):
    just so. `pot_depth_cm` is how deep the cells are; the setting `cell_depth_cm` else.
    """

    plants: int | None = None
    cells: int | None = None
    per_cell: int | None = None
    seeds: int | None = None
    row_m: float | None = None
    left_per_cell: int | None = None
    pot_depth_cm: float | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class SowingPlan:
    """A sowing before it is made: `plants` it gives with `assurance`, in a sentence, and warnings.

    `short` says why it gives fewer plants than were asked for; empty when it does not.
    """

    line: PacketLine
    place: GrowingPlace
    draft: SowingDraft
    plants: int
    assurance: float
    sentence: str
    short: str
    warnings: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Sown:
    """A sowing that was made, with the plan it followed; `grams` taken from a packet in grams."""

    sowing: Sowing
    plan: SowingPlan
    grams: float | None


def plan_sowing(
    tin: Tin, code: str, place: str, wish: Wish, *, today: date, desk: Desk | None = None
) -> SowingPlan:
    """How a packet would be sown in a place on a day; nothing is written."""
    packet = tin.packet(code)
    if packet.kind is Kind.STOCK:
        raise BadDataError(f"{shown(packet.code)} is planting stock: it is planted, not sown.")
    desk = desk or Desk(tin, today)
    spot = desk.garden.place_by_id(tin.place(place).id)
    line = desk.listing.forecast(desk.listing.line(packet.code))
    figures = desk.facts.figures(packet.crop_id)
    if wish.cells is None and wish.seeds is None:
        return _reckoned(desk, line, spot, figures, wish)
    return _as_told(desk, line, spot, figures, wish)


def sow(
    tin: Tin,
    code: str,
    place: str,
    wish: Wish,
    *,
    today: date,
    on: date | None = None,
    take_short: bool = False,
    desk: Desk | None = None,
) -> Sown:
    """Sows a packet: its seed is taken and the sowing gets its code, in one change.

    Refused when the packet cannot give the plants that were asked for, with the number that it
    would give; `take_short` sows for those instead.
    """
    day = on or today
    plan = plan_sowing(tin, code, place, wish, today=day, desk=desk)
    if plan.short and not (take_short and plan.draft.all_seeds):
        raise BadDataError(plan.short, hint=_way_out(plan))
    packet, grams = plan.line.packet, None
    if packet.unit is Unit.GRAMS:
        grams = grams_for(tin, packet, plan.draft.all_seeds)
    sowing = add_sowing(
        tin, packet, plan.place.record, plan.draft, today=today, on=day, grams_taken=grams
    )
    return Sown(sowing, plan, grams)


def _way_out(plan: SowingPlan) -> str:
    if plan.plants < 1 or not plan.draft.all_seeds:
        return "Test the packet first, or sow all of it as it is: give cells and seeds per cell."
    return f"Sow for {_plants(plan.plants)}, choose another packet, or recount this one."


def _reckoned(
    desk: Desk,
    line: PacketLine,
    place: GrowingPlace,
    figures: SowingFigures | None,
    wish: Wish,
) -> SowingPlan:
    if figures is None:
        raise BadDataError(
            f"Nothing is known of how {line.crop} is sown.",
            hint="Say cells and seeds per cell, or the number of seeds.",
        )
    wanted = wish.plants or desk.wanted(line, desk.need_of(line))
    share = emerging(desk.facts.model(figures.crop_id), place.spot.warmth, desk.today).share
    chances = desk.chances(line, place, share)
    how, drill = desk.how_many(line, figures, place, wanted, chances)
    if drill is not None:
        draft = _draft(wish, seeds=drill.seeds, row_m=round(drill.row_m, 2), wanted=drill.plants)
        found, sentence = drill.plants, drill.sentence
        reached = drill.assurance
    else:
        assert how is not None
        draft = _in_cells(desk, line, wish, how)
        found, sentence, reached = how.plants, how.sentence, how.assurance
    short = ""
    if found < wanted:
        short = _short(desk, line, found, wanted, draft.all_seeds)
    warnings = tuple(_warnings(desk, line, place, figures))
    return SowingPlan(line, place, draft, found, reached, sentence, short, warnings)


def _in_cells(desk: Desk, line: PacketLine, wish: Wish, how: HowMany) -> SowingDraft:
    """Cells as reckoned; clumps are left together."""
    together = 1
    if line.packet.crop_id in MULTI_SOWN and how.cells:
        together = max(ceil(how.plants / how.cells), 1)
    return _draft(
        wish,
        cells=how.cells or None,
        per_cell=how.per_cell or None,
        together=together,
        depth_cm=desk.settings.cell_depth_cm,
        wanted=how.plants,
    )


def _as_told(
    desk: Desk,
    line: PacketLine,
    place: GrowingPlace,
    figures: SowingFigures | None,
    wish: Wish,
) -> SowingPlan:
    """Cells or seeds as a person says; what they give is reckoned, and what is there bounds it."""
    cells, per_cell = wish.cells, (wish.per_cell or 1) if wish.cells else None
    seeds = wish.seeds if wish.seeds is not None else (cells or 0) * (per_cell or 0)
    left = desk.seeds_left(line)
    model = desk.facts.model(figures.crop_id) if figures else None
    share = emerging(model, place.spot.warmth, desk.today).share if model else None
    chances, sure = desk.chances(line, place, share), desk.settings.assurance
    sown = seeds if left is None else min(seeds, left)
    trays = cells is not None and sown == seeds
    count, each = (cells or 1, per_cell or 1) if trays else (sown, 1)
    gives = plants_assured(chances, count, each, sure) if sown else 0
    reached = (
        assurance_of_tray(chances, gives, count, each)
        if trays
        else assurance_of_seeds(chances, gives, sown)
    )
    draft = _draft(
        wish,
        cells=cells,
        per_cell=per_cell,
        seeds=None if cells else seeds,
        row_m=wish.row_m,
        depth_cm=desk.settings.cell_depth_cm if cells else None,
        wanted=wish.plants or gives or None,
    )
    sentence = f"{sown} seeds: {_plants(gives)} or more, {per_cent(reached)} sure"
    short = "" if left is None or seeds <= left else _too_few(line, left, gives)
    warnings = (
        *(_warnings(desk, line, place, figures) if figures else ()),
        *_fewer(wish.plants, gives),
    )
    return SowingPlan(line, place, draft, gives, reached, sentence, short, warnings)


def _fewer(wanted: int | None, gives: int) -> list[str]:
    if wanted is None or gives >= wanted:
        return []
    return [f"So sown, {_plants(gives)} are sure, not {wanted}."]


def _draft(
    wish: Wish,
    *,
    cells: int | None = None,
    per_cell: int | None = None,
    seeds: int | None = None,
    row_m: float | None = None,
    together: int = 1,
    depth_cm: float | None = None,
    wanted: int | None = None,
) -> SowingDraft:
    return SowingDraft(
        seeds,
        cells,
        per_cell,
        row_m,
        wish.left_per_cell or together,
        wanted or None,
        wish.pot_depth_cm or (depth_cm if cells else None),
        wish.note,
    )


def _short(desk: Desk, line: PacketLine, gives: int, wanted: int, seeds: int) -> str:
    """Why fewer plants are sure than were asked for: too little seed, or seed too doubtful."""
    if not gives:
        return f"{line.code} has {line.left}, too doubtful for even one sure plant."
    left = desk.seeds_left(line)
    if left is None or seeds < left:
        return (
            f"{line.code} is so doubtful that even {seeds} seeds give {_plants(gives)} for sure,"
            f" not {wanted}."
        )
    return f"{line.code} has {line.left}: that gives {_plants(gives)} for sure, not {wanted}."


def _too_few(line: PacketLine, left: int, gives: int) -> str:
    seeds = "1 seed" if left == 1 else f"{left} seeds"
    return f"{line.code} has only {seeds} left; sown all, they give {_plants(gives)} for sure."


def _warnings(
    desk: Desk, line: PacketLine, place: GrowingPlace, figures: SowingFigures
) -> Iterator[str]:
    """What speaks against this sowing: season, warmth, light, roots, age."""
    climate = desk.garden.climate
    if climate is not None:
        found = [way for way in ways(figures, climate, desk.today) if way.method is place.method]
        yield from (f"Not the time: {way.reason}." for way in found if not way.open)
    come = desk.emerging(figures.crop_id, place)
    if not come.verdict.sows:
        yield f"{place.name}: {come.sentence}."
    light = place.spot.light()
    if light is not None and light[1] is Light.TOO_LITTLE:
        yield f"{place.name}: {light[0]:.1f} mol/m² a day, {light[1].value}."
    depth = desk.settings.cell_depth_cm
    if not in_row(place, figures) and depth < figures.pot_depth_cm:
        yield f"Its roots want {figures.pot_depth_cm:g} cm; the cells are {depth:g} cm deep."
    if line.forecast and line.forecast.advice in (Advice.SPENT, Advice.TEST):
        yield f"The packet's advice is {line.forecast.advice.value}."


def _plants(number: int) -> str:
    return "1 plant" if number == 1 else f"{number} plants"
