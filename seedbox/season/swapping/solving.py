"""Which method solves a hall: Seedbox's own, and where that leaves much open, HiGHS if it is there.

The own method has proved its answer best in nearly all halls measured, in less time; what it
leaves open is mostly a point or two in thousands, for which nobody should wait.
"""

from __future__ import annotations

from dataclasses import replace

from seedbox.science.exchange import Exchange, Hall, Method
from seedbox.science.exchange_method import best_exchange
from seedbox.season.swapping.highs import USUAL_SECONDS, exchange_by_highs, installed

WORTH_ASKING = 0.001  # the gap from which HiGHS is asked, a thousandth of the bound


def solve(hall: Hall, method: Method | None = None, seconds: float = USUAL_SECONDS) -> Exchange:
    """The best fair exchange of a hall, and by which method it was found.

    Parameters: hall; method, None for the own one first and HiGHS where that leaves much open;
    seconds that HiGHS may take.
    Returns: Exchange. With HiGHS alone, its answer, or the own one when it found none in its time.
    Raises: ImportError when HiGHS is asked for by name and scipy is missing.
    """
    if method is Method.HIGHS:
        return exchange_by_highs(hall, seconds) or best_exchange(hall)
    own = best_exchange(hall)
    if method is Method.OWN or own.gap < WORTH_ASKING or not installed():
        return own
    other = exchange_by_highs(hall, seconds, at_least=own.worth)
    return _better(own, other) if other else own


def _better(own: Exchange, other: Exchange) -> Exchange:
    """The one that is worth more, with the lower of both bounds."""
    bound = min(own.bound, other.bound)
    best = other if other.worth > own.worth or bound == other.bound < own.bound else own
    return replace(best, bound=bound)
