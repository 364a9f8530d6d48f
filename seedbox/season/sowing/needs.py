"""What the household's plans still need, from what was sown this season."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from seedbox.season.searching import search_key
from seedbox.season.sowing.climate import GardenClimate, spoken
from seedbox.season.sowing.garden import season_of
from seedbox.season.sowing.in_progress import Growing
from seedbox.tin.garden_records import Plan

# A sowing that gives nearly what was wanted has met its plan. Our judgement.
NEARLY = 0.8


@dataclass(frozen=True, slots=True)
class Need:
    """A plan on a day: `plants` still wanted (0: met), and since when a succession is due.

    `next_on` is when to sow again, for a plan that is met until then.
    """

    plan: Plan
    plants: int
    have: int
    due_since: date | None
    next_on: date | None

    @property
    def met(self) -> bool:
        return self.plants == 0

    def words(self) -> str:
        """What the plan says now: `plan of 12: 4 sown for, 8 wanted`."""
        said = f"plan of {self.plan.plants}"
        if self.due_since is not None:
            return f"{said}: sow again, due since {spoken(self.due_since)}"
        if self.met:
            again = f"; sow again from {spoken(self.next_on)}" if self.next_on else ""
            return f"{said} is met{again}"
        return f"{said}: none sown yet" if not self.have else f"{said}: {self.have} on the way"


def needs(
    plans: Iterable[Plan], sowings: Sequence[Growing], climate: GardenClimate, on: date
) -> tuple[Need, ...]:
    """Every plan that holds for the season of a day, with what it still needs.

    A plan of one variety is served by that variety alone, and its sowings do not count for a
    plan of the whole crop as well.
    """
    year, start = season_of(climate, on)
    holding = [plan for plan in plans if plan.year in (None, year)]
    named = {(plan.crop_id, search_key(plan.variety)) for plan in holding if plan.variety}
    this_season = [one for one in sowings if start < one.sowing.on <= on]
    return tuple(
        _need(plan, [one for one in this_season if serves(one, plan, named)], on)
        for plan in holding
    )


def serves(one: Growing, plan: Plan, named: set[tuple[str, str]]) -> bool:
    """Whether a sowing counts for a plan."""
    crop_id, variety = one.packet.crop_id, search_key(one.packet.variety)
    if crop_id != plan.crop_id:
        return False
    if plan.variety:
        return variety == search_key(plan.variety)
    return (crop_id, variety) not in named


def _need(plan: Plan, sowings: list[Growing], on: date) -> Need:
    if plan.again_days is None or not sowings:
        have = sum(one.plants for one in sowings)
        return Need(plan, _lacking(plan.plants, have), have, None, None)
    last = max(one.sowing.on for one in sowings if one.plants) if _any_alive(sowings) else None
    if last is None:
        return Need(plan, plan.plants, 0, None, None)
    due = last + timedelta(days=plan.again_days)
    if due <= on:
        return Need(plan, plan.plants, 0, due, None)
    # The batch: sowings near the last one that count for the same turn.
    batch = [one for one in sowings if (last - one.sowing.on).days < plan.again_days / 2]
    have = sum(one.plants for one in batch)
    return Need(plan, _lacking(plan.plants, have), have, None, due)


def _any_alive(sowings: list[Growing]) -> bool:
    return any(one.plants for one in sowings)


def _lacking(wanted: int, have: int) -> int:
    return 0 if have >= NEARLY * wanted else wanted - have
