"""How many seeds, in how many cells or along a row, for the plants that are wanted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from seedbox.science.chances import Chances, of_masses, scattered, with_shares
from seedbox.science.emergence_factor import EmergenceFactor, prior_factor
from seedbox.science.errors import OutOfRangeError
from seedbox.science.seed_worth import seedlings_per_cluster
from seedbox.science.sowing_rate import (
    MOST_SEEDS,
    TrayPlan,
    assurance_of_seeds,
    fewest_cells,
    fewest_cells_for_seeds,
    fewest_seeds,
    multi_sown,
    plants_assured,
    seeds_for_plants,
    within_packet,
)
from seedbox.science.testing_constants import TRAY_ICC
from seedbox.units import per_cent

ASSURANCE: Final = 0.90
MOST_CELLS: Final = 200
MOST_PER_CELL: Final = 5  # more seedlings than this in a cell harm one another: common practice
# What a grower sows who is not short of seed: two or three to a cell, thinned to the best one, as
# long as that takes no more than a quarter of the packet (common practice, no source).
USUAL_PER_CELL: Final = 3
USUAL_SHARE: Final = 0.25
# Units that are fruits of several seeds, and how many seeds come up from one at most: beet and
# chard two or three, a coriander fruit two. From memory; the kinds are marked in `seed_size`.
CLUSTERS: Final = {
    "beetroot": 2.5,
    "chard": 2.5,
    "spinach_beet": 2.5,
    "coriander": 2.0,
    "spinach_nz": 3.0,
}


class Aim(StrEnum):
    """What a plan saves. `USUAL` saves cells while there is seed enough, else seed."""

    USUAL = "few cells while seed is plenty"
    SEED = "fewest seeds"
    CELLS = "fewest cells"


@dataclass(frozen=True, slots=True)
class HowMany:
    """A sowing that gives `plants` with `assurance` [-]; fewer than `wanted` when it falls short.

    `seedlings_per_unit` is above 1 where a seed is a cluster. `sentence` says why and what then.
    """

    cells: int
    per_cell: int
    seeds: int
    plants: int
    wanted: int
    assurance: float
    seedlings_per_unit: float
    sentence: str

    @property
    def falls_short(self) -> bool:
        """Whether fewer plants are sure than were wanted."""
        return self.plants < self.wanted


@dataclass(frozen=True, slots=True)
class Row:
    """Seeds for a drilled row; as ``HowMany`` otherwise."""

    seeds: int
    per_metre: float
    row_m: float
    plants: int
    wanted: int
    assurance: float
    sentence: str

    @property
    def falls_short(self) -> bool:
        """Whether fewer plants are sure than were wanted."""
        return self.plants < self.wanted


def chances_here(
    masses: Sequence[float], factor: EmergenceFactor | None = None, share: float | None = None
) -> Chances:
    """Chance that a seed of the lot gives a plant in a place.

    `masses` is the lot's distribution of germination on the probit lattice (``Belief.masses``);
    `factor` what is believed of the place, by default what is believed of any; `share` what
    warmth leaves of the seedlings there, where trials say so. Trays of one lot scatter, see
    ``testing_constants.TRAY_ICC``.
    """
    place = (factor or prior_factor()).nodes()
    if share is not None:
        place = [(part * share, weight) for part, weight in place]
    return scattered(with_shares(of_masses(masses), place), TRAY_ICC)


def tray(
    chances: Chances,
    plants: int,
    *,
    crop_id: str = "",
    assurance: float = ASSURANCE,
    aim: Aim = Aim.USUAL,
    most_cells: int = MOST_CELLS,
    seeds_left: int | None = None,
    share: float = USUAL_SHARE,
) -> HowMany:
    """Cells thinned to one plant each; limited by the tray and by what is in the packet.

    `Aim.USUAL` takes up to `USUAL_PER_CELL` seeds a cell while that is no more than this `share`
    of `seeds_left` (or nobody knows how many are left), else the fewest seeds.
    """
    if aim is not Aim.SEED:
        usual = aim is Aim.USUAL
        few = fewest_cells_for_seeds(
            chances,
            plants,
            assurance,
            most_cells,
            most_per_cell=_usual_per_cell(crop_id) if usual else MOST_PER_CELL,
            most_seeds=_to_spare(seeds_left, share if usual else 1.0),
        )
        if few is not None:
            return _answer(few, plants, chances, crop_id, "")
    plan, why = _tray_plan(chances, plants, assurance, aim, most_cells)
    if seeds_left is not None and plan.seeds > seeds_left:
        within = within_packet(chances, plan, min(seeds_left, most_cells), assurance)
        plan, why = within, f"only {seeds_left} seeds are left"
    return _answer(plan, plants, chances, crop_id, why)


def _to_spare(seeds_left: int | None, share: float) -> int:
    return MOST_SEEDS if seeds_left is None else int(share * seeds_left)


def _usual_per_cell(crop_id: str) -> int:
    """Of clusters fewer, so that their seedlings do not crowd one another before thinning."""
    return min(USUAL_PER_CELL, int(MOST_PER_CELL / CLUSTERS.get(crop_id, 1.0)))


def _tray_plan(
    chances: Chances, plants: int, assurance: float, aim: Aim, most_cells: int
) -> tuple[TrayPlan, str]:
    search = fewest_cells if aim is Aim.CELLS else fewest_seeds
    try:
        return search(chances, plants, assurance, most_cells, MOST_PER_CELL), ""
    except OutOfRangeError:
        sure = plants_assured(chances, most_cells, MOST_PER_CELL, assurance)
    if sure == 0:
        dud = TrayPlan(0, 0, 0, 0.0)
        return dud, _no_number("one plant", assurance)
    plan = search(chances, sure, assurance, most_cells, MOST_PER_CELL)
    return plan, f"{most_cells} cells of at most {MOST_PER_CELL} seeds give no more"


def modules(
    chances: Chances,
    plants: int,
    per_module: int,
    *,
    crop_id: str = "",
    assurance: float = ASSURANCE,
    seeds_left: int | None = None,
) -> HowMany:
    """Modules sown with several seeds and left unthinned (onions, beet, leeks)."""
    try:
        plan = multi_sown(chances, plants, per_module, assurance)
    except OutOfRangeError:
        why = _no_number(f"{plants} plants", assurance)
        return _answer(TrayPlan(0, 0, 0, 0.0), plants, chances, crop_id, why)
    if seeds_left is None or plan.seeds <= seeds_left:
        return _answer(plan, plants, chances, crop_id, "")
    cells = max(min(seeds_left // plan.per_cell, plan.cells), 0)
    seeds = cells * plan.per_cell
    sure = min(plants_assured(chances, seeds, 1, assurance), plants)
    reached = assurance_of_seeds(chances, sure, seeds)
    short = TrayPlan(cells, plan.per_cell, sure, reached)
    return _answer(short, plants, chances, crop_id, f"only {seeds_left} seeds are left")


def row(
    chances: Chances,
    row_m: float,
    spacing_cm: float,
    *,
    assurance: float = ASSURANCE,
    seeds_left: int | None = None,
) -> Row:
    """A drilled row thinned to a spacing."""
    wanted = max(round(100.0 * row_m / spacing_cm), 1)
    try:
        seeds = seeds_for_plants(chances, wanted, assurance)
    except OutOfRangeError:
        why = _no_number(f"{wanted} plants", assurance)
        return Row(0, 0.0, row_m, 0, wanted, 0.0, why)
    plants, why = wanted, ""
    if seeds_left is not None and seeds > seeds_left:
        seeds, why = seeds_left, f"only {seeds_left} seeds are left"
        plants = plants_assured(chances, seeds, 1, assurance)
    reached = assurance_of_seeds(chances, plants, seeds)
    told = f"{seeds} seeds, {seeds / row_m:.0f} a metre: {_plants(plants, reached)}"
    return Row(seeds, seeds / row_m, row_m, plants, wanted, reached, _joined(told, why))


def _answer(plan: TrayPlan, wanted: int, chances: Chances, crop_id: str, why: str) -> HowMany:
    seedlings = _seedlings(chances, crop_id)
    if plan.seeds:
        each = "seed" if plan.per_cell == 1 else "seeds"
        cells = "cell" if plan.cells == 1 else "cells"
        told = f"{plan.cells} {cells} of {plan.per_cell} {each}: " + _plants(
            plan.plants, plan.assurance
        )
    else:
        told = "nothing to sow"
    if crop_id in CLUSTERS and plan.seeds:
        told += "; each seed is a cluster of several, so thin"
    return HowMany(
        plan.cells,
        plan.per_cell,
        plan.seeds,
        plan.plants,
        wanted,
        plan.assurance,
        seedlings,
        _joined(told, why),
    )


def _seedlings(chances: Chances, crop_id: str) -> float:
    """Seedlings from one unit that comes up at all."""
    size = CLUSTERS.get(crop_id)
    if size is None or chances.mean() == 0.0:
        return 1.0
    return chances.average(lambda chance: seedlings_per_cluster(chance, size)) / chances.mean()


def _plants(plants: int, assurance: float) -> str:
    unit = "plant" if plants == 1 else "plants"
    return f"{plants} {unit} or more, {per_cent(assurance)} sure"


def _no_number(plants: str, assurance: float) -> str:
    return f"no number of seeds makes {plants} {per_cent(assurance)} sure: test the packet"


def _joined(told: str, why: str) -> str:
    return f"{told}; {why}" if why else told
