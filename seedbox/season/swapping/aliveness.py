"""What a seed of each packet is worth in the sowing seasons ahead, for a whole tin at once."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from datetime import date, timedelta
from functools import cache

from seedbox.science.chances import Chances, of_masses, scattered, with_shares
from seedbox.science.constants import SPENT_AT
from seedbox.science.emergence_factor import prior_factor
from seedbox.science.lattice import LOWEST, PER_PROBIT, PROBITS
from seedbox.science.probit import known_probit, normal_cdf
from seedbox.science.testing_constants import TRAY_ICC
from seedbox.season.listing import PacketLine
from seedbox.season.sowing.desk import Desk, few_nodes

_YEAR_DAYS = 365
# With so many nodes, on such a scale, numbers of seeds come out at most one in thirty too high,
# and a tin is reckoned in a third of the time.
_NODES = 32
_LEAST_MASS = 1e-9


class Alive:
    """What a seed of each packet is worth in the sowing seasons ahead, reckoned once for each.

    One day stands for a whole season: `ahead` for the next, and the same day of the years after.
    """

    def __init__(self, desk: Desk, ahead: date) -> None:
        self.desk, self.ahead = desk, ahead
        self._chances: dict[tuple[str, int], Chances | None] = {}

    def chances(self, line: PacketLine, on: date | None = None) -> Chances | None:
        """Chance that a seed gives a plant in the season of a day; None when spent by then."""
        years = 0 if on is None else max(round((on - self.ahead).days / _YEAR_DAYS), 0)
        key = line.packet.code, years
        if key not in self._chances:
            day = self.ahead + timedelta(days=_YEAR_DAYS * years)
            masses = self.desk.listing.masses(line, day)
            spent = is_spent(masses, self.desk.settings.floor)
            self._chances[key] = None if spent else seed_chances(masses)
        return self._chances[key]


def seed_chances(masses: Sequence[float]) -> Chances:
    """Chance that a seed gives a plant in a place like any, from a lot's `masses` on the lattice.

    As ``how_many.chances_here``, with fewer nodes at each step.
    """
    lot = few_nodes(of_masses(masses), _NODES)
    there = with_shares(lot, prior_factor().nodes())
    return few_nodes(scattered(_on_scale(there), TRAY_ICC), _NODES)


def _on_scale(chances: Chances) -> Chances:
    """The same on fixed shares, whose scatter is reckoned once for all; the mean is kept."""
    shares = _scale()
    weights, last = [0.0] * len(shares), len(shares) - 2
    for chance, weight in chances.nodes:
        low = min(max(bisect_right(shares, chance) - 1, 0), last)
        part = (chance - shares[low]) / (shares[low + 1] - shares[low])
        weights[low] += weight * (1.0 - part)
        weights[low + 1] += weight * part
    kept = ((share, weight) for share, weight in zip(shares, weights, strict=True))
    return Chances(tuple((share, weight) for share, weight in kept if weight > _LEAST_MASS))


@cache
def _scale() -> tuple[float, ...]:
    return tuple(normal_cdf(LOWEST + i / PER_PROBIT) for i in range(PROBITS * PER_PROBIT + 1))


def is_spent(masses: Sequence[float], floor: float) -> bool:
    """Whether a lot of which `masses` are believed (probit lattice) is as good as dead."""
    first = max(round((known_probit(floor) - LOWEST) * PER_PROBIT), 0)
    return sum(masses[first:]) <= SPENT_AT
