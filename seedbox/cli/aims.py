"""What trays are to save, cells or seed, as options of every command that reckons a sowing."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

import click

from seedbox.errors import UsageError

if TYPE_CHECKING:
    from seedbox.season.sowing.how_many import Aim

_CELLS, _SEEDS = "fewest_cells", "fewest_seeds"


def aim_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Adds `--fewest-cells` and `--fewest-seeds`."""
    seeds = click.option("--fewest-seeds", is_flag=True, help="Save seed, whatever cells it takes.")
    cells = click.option("--fewest-cells", is_flag=True, help="Save cells, whatever seed it takes.")
    return cells(seeds(command))


def aim_of(given: Mapping[str, Any]) -> Aim:
    """What was asked for; without a word as usual. Raises UsageError for both at once."""
    from seedbox.season.sowing.how_many import Aim

    if given[_CELLS] and given[_SEEDS]:
        raise UsageError("Give --fewest-cells or --fewest-seeds, not both.")
    if given[_CELLS]:
        return Aim.CELLS
    return Aim.SEED if given[_SEEDS] else Aim.USUAL


def aim_typed(aim: Aim) -> str:
    """The option that asks for an aim, with a space before it; nothing for the usual one."""
    from seedbox.season.sowing.how_many import Aim

    return {Aim.CELLS: " --fewest-cells", Aim.SEED: " --fewest-seeds"}.get(aim, "")


def refuse_aim(given: Mapping[str, Any]) -> None:
    """Cells that a person settles leave nothing to save."""
    if (given[_CELLS] or given[_SEEDS]) and (given["cells"] or given["seeds"]):
        asked = "--cells" if given["cells"] else "--seeds"
        raise UsageError(f"With {asked} the numbers are yours: leave the --fewest option out.")
