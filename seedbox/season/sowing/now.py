"""What this tin can sow now in this garden, in order of what is lost by waiting."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from math import exp

from seedbox.season.forecast import Advice
from seedbox.season.listing import Listing
from seedbox.season.searching import search_key
from seedbox.season.sowing.desk import Desk
from seedbox.season.sowing.how_many import Aim
from seedbox.season.sowing.needs import Need
from seedbox.season.sowing.offers import LeftOut, Offer
from seedbox.tin.file import Tin

# What is lost by waiting, on one scale. Our judgement: a plan that nothing was sown for weighs as
# much as a window that closes today; a window that closes in two weeks a third of that.
_PLAN, _AGAIN, _WINDOW, _USE_UP, _MET, _SECOND = 2.0, 1.5, 2.0, 1.0, -2.0, -3.0
_WINDOW_DAYS = 14.0
_NOT_PLANNED = 0.5  # a closing window of what nobody planned


@dataclass(frozen=True, slots=True)
class SowingNow:
    """What can be sown on a day, most urgent first; what cannot, and why; what to set first.

    While `missing` says anything of the garden's frosts or latitude, nothing is offered.
    """

    on: date
    offers: tuple[Offer, ...]
    left_out: tuple[LeftOut, ...]
    missing: tuple[str, ...]
    needs: tuple[Need, ...]


def now(
    tin: Tin,
    today: date,
    *,
    crop_id: str = "",
    place: str = "",
    aim: Aim = Aim.USUAL,
    listing: Listing | None = None,
) -> SowingNow:
    """What this tin can sow on a day; `crop_id` and `place` (a name) narrow it down.

    `aim` says what trays save: cells, seed, or as usual.
    """
    desk = Desk(tin, today, listing=listing, place=place, aim=aim)
    if desk.garden.climate is None or not desk.garden.places:
        return SowingNow(today, (), (), desk.garden.missing, ())
    lines = [line for line in desk.listing.lines if not line.is_empty]
    found = [desk.look(line) for line in lines if crop_id in ("", line.packet.crop_id)]
    offers = _in_order((one for one in found if isinstance(one, Offer)), today)
    left_out = tuple(one for one in found if isinstance(one, LeftOut))
    return SowingNow(today, offers, left_out, desk.garden.missing, desk.needs)


def _urgency(offer: Offer, today: date) -> float:
    """What is lost by waiting: plans first, then windows that close, then seed that fades."""
    need, closes, total = offer.need, offer.last_chance, 0.0
    if need is not None:
        total += _AGAIN if need.due_since else _PLAN * need.plants / need.plan.plants
        total += _MET if need.met else 0.0
    if closes is not None:
        near = _WINDOW * exp(-max((closes - today).days, 0) / _WINDOW_DAYS)
        total += near * (_NOT_PLANNED if need is None else 1.0)
    if offer.line.forecast and offer.line.forecast.advice is Advice.USE_UP:
        total += _USE_UP
    return total


def _in_order(offers: Iterable[Offer], today: date) -> tuple[Offer, ...]:
    """Most urgent first. Of packets that serve one purpose the first choice alone counts fully."""
    groups: dict[tuple[str, str], list[Offer]] = {}
    for bare in offers:
        offer = replace(bare, urgency=_urgency(bare, today))
        plan = offer.need.plan.variety if offer.need else ""
        groups.setdefault((offer.line.packet.crop_id, search_key(plan)), []).append(offer)
    settled = [one for group in groups.values() for one in _settled(group)]
    return tuple(sorted(settled, key=_order))


def _settled(group: list[Offer]) -> list[Offer]:
    first, *rest = sorted(group, key=_first_choice)
    code = first.line.packet.code
    return [
        first,
        *(replace(one, urgency=one.urgency + _SECOND, instead_of=code) for one in rest),
    ]


def _first_choice(offer: Offer) -> tuple[bool, bool, float, str]:
    """Seed that fades first, then packets that hold enough, then the livelier one."""
    forecast = offer.line.forecast
    fades = forecast is not None and forecast.advice is Advice.USE_UP
    mean = (forecast.mean if forecast else None) or 0.0
    return (offer.plan.falls_short, not fades, -mean, offer.line.packet.code)


def _order(offer: Offer) -> tuple[float, str, str, str]:
    line = offer.line
    return (-round(offer.urgency, 6), line.crop, line.packet.variety, line.packet.code)
