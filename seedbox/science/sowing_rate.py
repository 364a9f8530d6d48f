"""How many seeds give the plants that are wanted, with an assurance: over what is known of the
lot, the place and the tray, never over a mean.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import ceil, exp

from seedbox.science.binomial_tail import at_least
from seedbox.science.chances import Chances
from seedbox.science.errors import OutOfRangeError, require, require_inside

_ROUNDING = 1e-9  # 1 - (1 - 0.9) is a little less than 0.9 in binary
MOST_SEEDS = 100_000
MOST_PER_CELL = 50


@dataclass(frozen=True, slots=True)
class TrayPlan:
    """Cells, seeds in each, and how sure they give the plants. `assurance` is what is reached."""

    cells: int
    per_cell: int
    plants: int
    assurance: float

    @property
    def seeds(self) -> int:
        """Seeds that the plan takes."""
        return self.cells * self.per_cell


def cell_filled(chance: float, per_cell: int) -> float:
    """Chance that a cell has at least one plant.

    ``1 - (1 - p)^k``

    Parameters: chance p [-]; per_cell k [seeds].
    Returns: probability [-].

    >>> round(cell_filled(0.9, 3), 3)
    0.999

    Source: definition.
    """
    return float(1.0 - (1.0 - chance) ** per_cell)


def assurance_of_seeds(chances: Chances, plants: int, seeds: int) -> float:
    """Probability that so many seeds, each in its own place, give the plants wanted.

    ``E[P(Binomial(n, p) >= N)]`` over the distribution of p

    >>> from seedbox.science.chances import certain
    >>> round(assurance_of_seeds(certain(0.8), 1, 2), 2)
    0.96
    """
    return chances.average(lambda chance: at_least(plants, seeds, chance))


def assurance_of_tray(chances: Chances, plants: int, cells: int, per_cell: int) -> float:
    """Probability that cells thinned to one plant give the plants wanted.

    ``E[P(Binomial(cells, 1 - (1 - p)^k) >= N)]`` over the distribution of p, which all cells of
    the tray share

    >>> from seedbox.science.chances import certain
    >>> round(assurance_of_tray(certain(0.9), 1, 1, 3), 3)
    0.999
    """
    return chances.average(
        lambda chance: at_least(plants, cells, min(cell_filled(chance, per_cell), 1.0))
    )


def seeds_for_plants(chances: Chances, plants: int, assurance: float) -> int:
    """Smallest number of seeds, each in its own place, that gives the plants with assurance.

    ``min n: E[P(Binomial(n, p) >= N)] >= a``

    Parameters: chances; plants N, 1 or more; assurance a [-], in (0, 1).
    Returns: seeds.
    Raises: OutOfRangeError, also when the lot may be dead with a probability of 1 - a or more.

    >>> from seedbox.science.chances import certain
    >>> seeds_for_plants(certain(0.5), 1, 0.9)
    4

    Source: definition.
    """
    _check(plants, assurance)
    return _smallest(lambda seeds: assurance_of_seeds(chances, plants, seeds), plants, assurance)


def seeds_per_cell(chances: Chances, assurance: float) -> int:
    """Smallest number of seeds that fills one cell with assurance.

    ``min k: E[1 - (1 - p)^k] >= a``

    Parameters, returns, raises: as ``seeds_for_plants`` for one plant.

    >>> from seedbox.science.chances import certain
    >>> seeds_per_cell(certain(0.6), 0.9)
    3

    Source: definition.
    """
    return seeds_for_plants(chances, 1, assurance)


def cells_for_plants(chances: Chances, plants: int, per_cell: int, assurance: float) -> TrayPlan:
    """Smallest tray of cells, thinned to one plant each, that gives the plants with assurance.

    ``min c: E[P(Binomial(c, 1 - (1 - p)^k) >= N)] >= a``

    Parameters: chances; plants N; per_cell k [seeds], 1 or more; assurance a [-].
    Returns: TrayPlan.
    Raises: as ``seeds_for_plants``.

    >>> from seedbox.science.chances import certain
    >>> cells_for_plants(certain(0.6), 12, 2, 0.9).cells
    16

    Source: definition.
    """
    _check(plants, assurance)
    require("seeds per cell", per_cell, 1, MOST_PER_CELL)

    def sure(cells: int) -> float:
        return assurance_of_tray(chances, plants, cells, per_cell)

    cells = _smallest(sure, plants, assurance)
    return TrayPlan(cells, per_cell, plants, sure(cells))


def fewest_seeds(
    chances: Chances, plants: int, assurance: float, most_cells: int, most_per_cell: int = 5
) -> TrayPlan:
    """The plan that takes the fewest seeds and fits the tray; among equals, the fewest cells.

    Parameters: chances; plants N; assurance a [-]; most_cells in the tray; most_per_cell.
    Returns: TrayPlan.
    Raises: OutOfRangeError when no plan fits the tray.

    >>> from seedbox.science.chances import certain
    >>> plan = fewest_seeds(certain(0.7), 12, 0.9, most_cells=18)
    >>> plan.cells, plan.per_cell, fewest_seeds(certain(0.7), 12, 0.9, 40).cells
    (15, 2, 21)

    Source: search of all plans.
    """
    _fits(chances, plants, assurance, most_cells, most_per_cell)
    best: TrayPlan | None = None
    for per_cell in range(1, most_per_cell + 1):
        most = min(most_cells, best.seeds // per_cell) if best else most_cells
        if assurance_of_tray(chances, plants, most, per_cell) >= assurance - _ROUNDING:
            best = cells_for_plants(chances, plants, per_cell, assurance)
    assert best is not None
    return best


def fewest_cells(
    chances: Chances, plants: int, assurance: float, most_cells: int, most_per_cell: int = 5
) -> TrayPlan:
    """The plan that takes the fewest cells; among equals, the fewest seeds.

    Parameters, returns, raises: as ``fewest_seeds``.

    >>> from seedbox.science.chances import certain
    >>> plan = fewest_cells(certain(0.7), 12, 0.9, most_cells=40)
    >>> plan.cells, plan.per_cell
    (12, 4)

    Source: search of all plans.
    """
    _fits(chances, plants, assurance, most_cells, most_per_cell)
    # More seeds in a cell never take more cells.
    cells = cells_for_plants(chances, plants, most_per_cell, assurance).cells
    return _thriftiest(chances, plants, assurance, cells, most_per_cell)


def _thriftiest(
    chances: Chances, plants: int, assurance: float, cells: int, most_per_cell: int
) -> TrayPlan:
    """So many cells with the fewest seeds in each; `most_per_cell` are known to be enough."""
    for per_cell in range(1, most_per_cell + 1):
        reached = assurance_of_tray(chances, plants, cells, per_cell)
        if reached >= assurance - _ROUNDING:
            break
    return TrayPlan(cells, per_cell, plants, reached)


def fewest_cells_for_seeds(
    chances: Chances,
    plants: int,
    assurance: float,
    most_cells: int,
    *,
    most_per_cell: int,
    most_seeds: int,
) -> TrayPlan | None:
    """The plan that takes the fewest cells without taking more seeds than are to spare.

    Parameters: as ``fewest_seeds``; most_seeds that it may take, 0 or more.
    Returns: TrayPlan, among equals the one of fewest seeds; None when no plan keeps within both.
    Raises: OutOfRangeError.

    >>> from seedbox.science.chances import certain
    >>> some, more = (
    ...     fewest_cells_for_seeds(certain(0.7), 12, 0.9, 40, most_per_cell=3, most_seeds=n)
    ...     for n in (30, 40)
    ... )
    >>> some.cells, some.per_cell, more.cells, more.per_cell
    (15, 2, 13, 3)

    Source: search of all plans.
    """
    _check(plants, assurance)
    require("seeds per cell", most_per_cell, 1, MOST_PER_CELL)
    require("seeds to spare", most_seeds, 0, float("inf"))
    for per_cell in range(most_per_cell, 0, -1):  # more seeds in a cell never take more cells
        most = min(most_cells, most_seeds // per_cell)
        if most < plants:
            continue
        if assurance_of_tray(chances, plants, most, per_cell) >= assurance - _ROUNDING:
            cells = cells_for_plants(chances, plants, per_cell, assurance).cells
            return _thriftiest(chances, plants, assurance, cells, per_cell)
    return None


def _fits(
    chances: Chances, plants: int, assurance: float, most_cells: int, most_per_cell: int
) -> None:
    _check(plants, assurance)
    require("seeds per cell", most_per_cell, 1, MOST_PER_CELL)
    if assurance_of_tray(chances, plants, most_cells, most_per_cell) < assurance - _ROUNDING:
        raise OutOfRangeError("plants", plants, 1, max(most_cells - 1, 1))


def plants_assured(chances: Chances, cells: int, per_cell: int, assurance: float) -> int:
    """Most plants that so many cells give with the assurance; 0 when not even one.

    ``max N: E[P(Binomial(c, 1 - (1 - p)^k) >= N)] >= a``

    >>> from seedbox.science.chances import certain
    >>> plants_assured(certain(0.7), 21, 1, 0.9)
    12

    Source: definition.
    """
    require_inside("assurance", assurance, 0.0, 1.0)
    low, high = 0, cells + 1
    while high - low > 1:
        middle = (low + high) // 2
        if assurance_of_tray(chances, middle, cells, per_cell) >= assurance - _ROUNDING:
            low = middle
        else:
            high = middle
    return low


def within_packet(chances: Chances, wanted: TrayPlan, seeds: int, assurance: float) -> TrayPlan:
    """The plan that was wanted if the packet allows it, else the most plants that it gives.

    Seeds that are scarce go one to a cell: a second seed in a cell is thinned away.

    Parameters: chances; wanted, a plan; seeds in the packet, 0 or more; assurance a [-].
    Returns: TrayPlan; its `plants` are fewer than wanted when the packet falls short.

    >>> from seedbox.science.chances import certain
    >>> wanted = cells_for_plants(certain(0.7), 12, 2, 0.9)
    >>> plan = within_packet(certain(0.7), wanted, 12, 0.9)
    >>> plan.cells, plan.per_cell, plan.plants
    (12, 1, 6)

    Source: definition.
    """
    require("seeds in the packet", seeds, 0, float("inf"))
    if wanted.seeds <= seeds:
        return wanted
    plants = min(plants_assured(chances, seeds, 1, assurance), wanted.plants)
    return TrayPlan(seeds, 1, plants, assurance_of_tray(chances, plants, seeds, 1))


def seeds_per_metre(
    chances: Chances, spacing_cm: float, row_m: float, assurance: float
) -> tuple[int, float]:
    """Seeds for a drilled row that is thinned to a spacing: in all, and for each metre.

    ``n`` seeds for ``row / spacing`` plants with assurance; a longer row needs fewer a metre

    Parameters: chances; spacing_cm [cm] and row_m [m], above 0; assurance [-].
    Returns: (seeds, seeds per metre [per m]).
    Raises: OutOfRangeError.

    >>> from seedbox.science.chances import certain
    >>> seeds, per_metre = seeds_per_metre(certain(0.5), 5.0, 2.0, 0.9)
    >>> seeds, per_metre
    (92, 46.0)

    Source: definition. Plants may still stand unevenly, see ``drill_without_gaps``.
    """
    require_inside("plant spacing", spacing_cm, 0.0, float("inf"), "cm")
    require_inside("row", row_m, 0.0, float("inf"), "m")
    plants = max(ceil(100.0 * row_m / spacing_cm - _ROUNDING), 1)
    seeds = seeds_for_plants(chances, plants, assurance)
    return seeds, seeds / row_m


def drill_without_gaps(chances: Chances, spacing_cm: float, assurance: float) -> float:
    """Seeds per metre that leave a plant in any stretch as long as the spacing, with assurance.

    ``min r: E[1 - exp(-r s p)] >= a``, seeds scattered at random along the drill

    Parameters: chances; spacing_cm [cm]; assurance [-].
    Returns: seeds per metre [per m], to the next tenth.
    Raises: OutOfRangeError.

    >>> from seedbox.science.chances import certain
    >>> drill_without_gaps(certain(0.5), 5.0, 0.9)
    92.2

    Source: Poisson process.
    """
    require_inside("plant spacing", spacing_cm, 0.0, float("inf"), "cm")
    _check(1, assurance)
    metre_per_tenth = spacing_cm / 1000.0

    def sure(tenths: int) -> float:
        return chances.average(lambda chance: 1.0 - exp(-tenths * metre_per_tenth * chance))

    return _smallest(sure, 1, assurance) / 10.0


def multi_sown(chances: Chances, plants: int, per_module: int, assurance: float) -> TrayPlan:
    """Modules that are left unthinned: as many as the plants need, with seeds to be sure of them.

    ``c = ceil(N / m)``; ``min k: E[P(Binomial(c k, p) >= N)] >= a``

    Parameters: chances; plants N; per_module m, plants wanted together; assurance [-].
    Returns: TrayPlan.
    Raises: OutOfRangeError.

    >>> from seedbox.science.chances import certain
    >>> plan = multi_sown(certain(0.8), 20, 4, 0.9)
    >>> plan.cells, plan.per_cell
    (5, 6)

    Source: definition.
    """
    require("plants in a module", per_module, 1, MOST_PER_CELL)
    modules = ceil(plants / per_module)
    seeds = seeds_for_plants(chances, plants, assurance)
    per_cell = ceil(seeds / modules)
    return TrayPlan(
        modules, per_cell, plants, assurance_of_seeds(chances, plants, modules * per_cell)
    )


def _check(plants: int, assurance: float) -> None:
    require("plants", plants, 1, MOST_SEEDS)
    require_inside("assurance", assurance, 0.0, 1.0)


def _smallest(sure: Callable[[int], float], start: int, assurance: float) -> int:
    """Smallest count that is sure enough; `sure` never falls as the count rises."""
    high = start
    while sure(high) < assurance - _ROUNDING:
        if high >= MOST_SEEDS:
            raise OutOfRangeError("assurance", assurance, 0.0, sure(high))
        high = min(2 * high, MOST_SEEDS)
    low = max(high // 2, start - 1)
    while high - low > 1:
        middle = (low + high) // 2
        if sure(middle) >= assurance - _ROUNDING:
            high = middle
        else:
            low = middle
    return high
