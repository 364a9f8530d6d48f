"""What this season and the coming ones will use: plants of each plan, and the day of sowing."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil

from seedbox.season.searching import search_key
from seedbox.season.sowing.climate import GardenClimate
from seedbox.season.sowing.desk import Desk
from seedbox.season.sowing.garden import season_of
from seedbox.season.sowing.needs import Need, needs
from seedbox.season.sowing.successions import sowings_to_come
from seedbox.season.testing.wanted import plants_wanted
from seedbox.tin.garden_records import Plan
from seedbox.tin.records import Kind

_YEAR = timedelta(days=365)
# A garden that has not said its frosts sows for half the year: common practice, no source.
_SOWING_DAYS = 182


@dataclass(frozen=True, slots=True)
class Use:
    """What one plan takes in one season: `plants` in all, sown from the day `on`.

    `season` counts from 0, this one. `planned` is False for what a household is taken to want of
    a kind for which it has no plan.
    """

    season: int
    plan: Plan
    plants: int
    on: date
    planned: bool

    @property
    def key(self) -> tuple[str, str]:
        """Crop, and variety where the plan names one."""
        return self.plan.crop_id, search_key(self.plan.variety)


def uses(desk: Desk, seasons: int = 2) -> tuple[Use, ...]:
    """What the plans use in this season and the next ones, and what is kept where no plan is.

    A crop of the tin without any plan in a season is kept for a small bed of each variety.
    """
    return tuple(use for season in range(seasons) for use in _season(desk, season))


def next_sowing_day(desk: Desk) -> date:
    """A day in the sowing season ahead, for which seed that is passed on is reckoned.

    The last spring frost to come; half a year ahead where there is none, or none was said.
    """
    climate, today = desk.garden.climate, desk.today
    if climate is None or climate.last_spring_frost is None:
        return today + _YEAR / 2
    return climate.last_spring_frost.next_after(today)


def _season(desk: Desk, season: int) -> Iterable[Use]:
    year, begins = _begins(desk, season)
    plans = [plan for plan in desk.garden.plans if plan.year in (None, year)]
    unplanned = _households(desk, {plan.crop_id for plan in plans})
    for planned, group in ((True, plans), (False, unplanned)):
        for need in _needs(desk, group, season):
            yield _use(desk, need, season, begins, planned=planned)


def _begins(desk: Desk, season: int) -> tuple[int, date]:
    """The year of a season, and the day on which it begins, or today in the midst of this one."""
    climate, today = desk.garden.climate, desk.today
    if climate is None:
        return today.year + season, today + season * _YEAR
    year = season_of(climate, today)[0] + season
    if season == 0:
        return year, today
    if climate.last_spring_frost is None:
        return year, date(year, 1, 1)
    before = climate.season_of(climate.last_spring_frost.in_year(year - 1))
    return year, before.first_frost + timedelta(days=1)


def _households(desk: Desk, planned: set[str]) -> list[Plan]:
    """Plans that nobody made: a small bed of each variety in the tin of a crop without a plan."""
    kinds: dict[tuple[str, str], Plan] = {}
    for line in desk.listing.lines:
        packet = line.packet
        if packet.kind is Kind.STOCK or line.is_empty or packet.crop_id in planned:
            continue
        key = packet.crop_id, search_key(packet.variety)
        plants = plants_wanted(packet.crop_id, desk.settings, desk.facts.own(packet.crop_id))
        kinds.setdefault(key, Plan(0, packet.crop_id, plants, packet.variety))
    return list(kinds.values())


def _needs(desk: Desk, plans: list[Plan], season: int) -> Iterable[Need]:
    """This season less what was sown; a later one whole."""
    climate = desk.garden.climate
    if season == 0 and climate is not None:
        return needs(plans, desk.sowings, climate, desk.today)
    return [Need(plan, plan.plants, 0, None, None) for plan in plans]


def _use(desk: Desk, need: Need, season: int, begins: date, *, planned: bool) -> Use:
    plan, climate = need.plan, desk.garden.climate
    first, sowings = _sowings(desk, need, climate, begins)
    plants = need.plants + plan.plants * (sowings - (1 if need.plants else 0))
    return Use(season, plan, max(plants, 0), first or begins, planned)


def _sowings(
    desk: Desk, need: Need, climate: GardenClimate | None, begins: date
) -> tuple[date | None, int]:
    """First day and number of sowings; a crop of which nothing is known is sown once."""
    figures, again = desk.facts.figures(need.plan.crop_id), need.plan.again_days
    if climate is None:
        return begins, 1 if again is None else ceil(_SOWING_DAYS / again)
    if figures is None:
        return begins, 1 if need.plants else 0
    return sowings_to_come(need, figures, climate, begins)
