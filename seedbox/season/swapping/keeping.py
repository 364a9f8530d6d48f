"""Seed that is not spare: for the plans, for a test, and to keep a saved variety going."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date

from seedbox.science.sowing_rate import assurance_of_seeds, plants_assured, seeds_for_plants
from seedbox.season.forecast import Advice
from seedbox.season.listing import PacketLine, best_year
from seedbox.season.searching import search_key
from seedbox.season.sowing.desk import Desk
from seedbox.season.swapping.aliveness import Alive
from seedbox.season.swapping.portions import least_plants
from seedbox.season.swapping.seasons import Use
from seedbox.tin.codes import shown
from seedbox.tin.records import GerminationTest, Kind, Movement, Origin

# Of one packet no more seed than this many times the plants is reckoned with.
_ENOUGH_TIMES = 20
# Seed that no shop sells: what is lost of it is lost for good.
_NOT_SOLD = frozenset({Origin.SAVED, Origin.SWAPPED, Origin.GIFT})


@dataclass(slots=True)
class Kept:
    """Seeds of one packet that are kept back, and for what.

    `by_season` counts seeds a season from this one; `by_plan` holds the seasons in which a plan
    takes them, in the others it is what a household is taken to want. In the seasons of `past` it
    is wanted, but no longer good. `regrow` seeds in all keep the variety going, `last` says that
    the tin has no more than that. `test` seeds are for tests.
    """

    by_season: dict[int, int] = field(default_factory=dict)
    by_plan: set[int] = field(default_factory=set)
    past: set[int] = field(default_factory=set)
    regrow: int = 0
    last: bool = False
    test: int = 0

    @property
    def sown(self) -> int:
        return sum(self.by_season.values())

    @property
    def seeds(self) -> int:
        """All of it: seed kept to regrow a variety may be the very seed that is sown."""
        return max(self.sown, self.regrow) + self.test


def kept_back(lines: Iterable[PacketLine], uses: Sequence[Use], alive: Alive) -> dict[str, Kept]:
    """What is kept of each packet whose seeds are known, by code. The lines have forecasts.

    Packets of one plan share it, older good seed first. Of a variety that nobody sells, enough is
    kept to grow it again in the season ahead: the last of its seed is never spare.
    """
    share = _Sharing(alive, lines)
    named: dict[tuple[int, str], set[str]] = {}
    for use in uses:
        named.setdefault((use.season, use.plan.crop_id), set()).add(use.key[1])
    for use in uses:
        share.season(use, named[use.season, use.plan.crop_id] - {""})
    for group in share.varieties():
        share.variety(group)
    return share.kept


class _Sharing:
    """Hands the uses out over the packets that serve them."""

    def __init__(self, alive: Alive, lines: Iterable[PacketLine]) -> None:
        self.alive, self.assurance = alive, alive.desk.settings.assurance
        desk = alive.desk
        counted = (one for one in lines if _counts(desk, one))
        lines = sorted(counted, key=_older_good_first)
        self.of_crop: dict[str, list[PacketLine]] = {}
        for one in lines:
            self.of_crop.setdefault(one.packet.crop_id, []).append(one)
        self.seeds = {one.packet.code: desk.seeds_left(one) or 0 for one in lines}
        self.kept = {one.packet.code: Kept() for one in lines}
        self.left = dict(self.seeds)

    def season(self, use: Use, named: set[str]) -> None:
        """Seed for one plan in one season, from what earlier ones leave.

        `named` varieties are left to plans of their own.
        """
        wanted = use.plants
        for line in self._serving(use, named):
            if wanted < 1:
                return
            code = line.packet.code
            kept = self.kept[code]
            if not _good_on(line, use.on):
                kept.past |= {use.season} if self.left[code] and _good_until(line) else set()
                continue
            seeds, plants = self._taken(line, wanted, use.on, self.left[code])
            if not seeds:
                continue
            kept.by_season[use.season] = kept.by_season.get(use.season, 0) + seeds
            kept.by_plan |= {use.season} if use.planned else set()
            self.left[code] -= seeds
            wanted -= plants

    def varieties(self) -> list[list[PacketLine]]:
        """Packets of each variety that nobody sells, the youngest first."""
        groups: dict[tuple[str, str], list[PacketLine]] = {}
        for line in (line for lines in self.of_crop.values() for line in lines):
            key = line.packet.crop_id, search_key(line.packet.variety)
            groups.setdefault(key, []).append(line)
        return [
            sorted(group, key=_younger_good_first)
            for group in groups.values()
            if any(line.packet.origin in _NOT_SOLD for line in group)
        ]

    def variety(self, group: Sequence[PacketLine]) -> None:
        """Seed to grow the variety again from enough plants."""
        wanted = least_plants(group[0].packet.crop_id)
        for line in group:
            if wanted < 1:
                break
            code = line.packet.code
            seeds, plants = self._taken(line, wanted, None, self.seeds[code])
            self.kept[code].regrow = seeds
            wanted -= plants
        if wanted > 0:
            for line in group:
                self.kept[line.packet.code].regrow = self.seeds[line.packet.code]
                self.kept[line.packet.code].last = True

    def _serving(self, use: Use, named: set[str]) -> list[PacketLine]:
        crop_id, variety = use.key
        of_crop = self.of_crop.get(crop_id, [])
        if variety:
            return [line for line in of_crop if search_key(line.packet.variety) == variety]
        return [line for line in of_crop if search_key(line.packet.variety) not in named]

    def _taken(self, line: PacketLine, wanted: int, on: date | None, seeds: int) -> tuple[int, int]:
        """Seeds of a packet that go to the plants wanted, and the plants they are sure to give."""
        chances = self.alive.chances(line, on) if seeds else None
        if chances is None:
            return 0, 0
        seeds = min(seeds, _ENOUGH_TIMES * wanted)
        if assurance_of_seeds(chances, wanted, seeds) >= self.assurance:
            return seeds_for_plants(chances, wanted, self.assurance), wanted
        sure = plants_assured(chances, seeds, 1, self.assurance)
        return (seeds, sure) if sure else (0, 0)  # a plan does not count on doubtful seed


def seeds_for_tests(
    line: PacketLine, running: Sequence[GerminationTest], movements: Iterable[Movement]
) -> int:
    """Seeds of a running test that are still in the packet, else those that a test is worth.

    Seed laid in a test has usually left the packet by its journal.
    """
    if running:
        told = {movement.note for movement in movements}
        return sum(test.seeds for test in running if f"Test {shown(test.code)}" not in told)
    forecast = line.forecast
    return forecast.test_seeds or 0 if forecast and forecast.advice is Advice.TEST else 0


def _counts(desk: Desk, line: PacketLine) -> bool:
    """Whether a plan may count on the packet: seed, of a known number, not spent."""
    if line.packet.kind is Kind.STOCK or not desk.seeds_left(line):
        return False
    return line.forecast is None or line.forecast.advice is not Advice.SPENT


def _good_on(line: PacketLine, on: date) -> bool:
    """Whether it can still be counted on then, by the forecast and not by any date on it."""
    until = _good_until(line)
    return until is not None and on <= until


def _good_until(line: PacketLine) -> date | None:
    return line.forecast.good_until if line.forecast else None


def _good(line: PacketLine) -> bool:
    return line.advice in (Advice.SOW, Advice.USE_UP)


def _older_good_first(line: PacketLine) -> tuple[bool, int, str]:
    return not _good(line), best_year(line.packet), line.packet.code


def _younger_good_first(line: PacketLine) -> tuple[bool, int, str]:
    return not _good(line), -best_year(line.packet), line.packet.code
