"""What was found in each replicate, as a table in which one cell is chosen for counting."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from seedbox.season.testing.tally import Tally
from seedbox.tin.counting import CATEGORIES
from seedbox.tin.records import TestCount
from seedbox.tui.cells import fit
from seedbox.tui.germination_entry import Cell
from seedbox.tui.text_lines import Line

NAME_WIDTH, CELL_WIDTH = 14, 10


def grid_lines(
    replicates: Sequence[Tally], today: Iterable[TestCount], chosen: Cell | None
) -> list[Line]:
    """Head, a line a replicate, and the sum of several. `today` are the counts of this day."""
    new = {count.replicate: count for count in today}
    lines = [_head(chosen), *(_row(each, new.get(each.replicate), chosen) for each in replicates)]
    if len(replicates) > 1:
        lines.append(_sum(replicates))
    return lines


def _head(chosen: Cell | None) -> Line:
    pieces: Line = [(f"{'':<{NAME_WIDTH}}{'laid':>5}{'left':>6}", "$quiet")]
    for name in CATEGORIES:
        here = chosen is not None and chosen.category == name
        pieces.append((f"{name:>{CELL_WIDTH - 1}} ", "bold underline" if here else "$quiet"))
    return pieces


def _row(tally: Tally, new: TestCount | None, chosen: Cell | None) -> Line:
    here = chosen is not None and chosen.replicate == tally.replicate
    name = f"replicate {tally.replicate}"
    pieces: Line = [(fit(("> " if here else "  ") + name, NAME_WIDTH), "bold" if here else "")]
    pieces.append((f"{tally.seeds:>5}{tally.unclassed:>6}", ""))
    for category in CATEGORIES:
        added = getattr(new, category) if new else 0
        text = f"{f'+{added} = ' if added else ''}{getattr(tally, category)}"
        is_chosen = here and chosen is not None and chosen.category == category
        if is_chosen:
            pieces.append((f"[{text:>{CELL_WIDTH - 2}}]", "bold reverse"))
        else:
            pieces.append((f"{text:>{CELL_WIDTH - 1}} ", "$success" if added else ""))
    return pieces


def _sum(replicates: Sequence[Tally]) -> Line:
    laid, left = sum(t.seeds for t in replicates), sum(t.unclassed for t in replicates)
    text = f"{'  together':<{NAME_WIDTH}}{laid:>5}{left:>6}"
    for category in CATEGORIES:
        text += f"{sum(getattr(t, category) for t in replicates):>{CELL_WIDTH - 1}} "
    return [(text, "$quiet")]
