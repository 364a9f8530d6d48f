"""What the plans need and the tin will not have alive in time, in seeds and grams, with reasons."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from math import ceil

from seedbox.science.errors import OutOfRangeError
from seedbox.science.sowing_rate import plants_assured, seeds_for_plants
from seedbox.season.forecast import Advice
from seedbox.season.listing import PacketLine
from seedbox.season.searching import search_key
from seedbox.season.sowing.climate import spoken
from seedbox.season.sowing.desk import Desk, few_nodes
from seedbox.season.sowing.how_many import chances_here
from seedbox.season.sowing.needs import Need
from seedbox.season.sowing.successions import sowings_to_come
from seedbox.tin.garden_records import Plan
from seedbox.tin.records import Dossier, Kind, Origin, Packet

_ENOUGH_TIMES = 20  # of one packet no more seed than this many times the plants is reckoned with


@dataclass(frozen=True, slots=True)
class BuyLine:
    """Seed to get for one plan: `seeds` and `grams` (None where nobody knows the weight).

    `plants` are wanted in all, over `sowings`; the tin is sure of `sure`. `by` is the first day
    of sowing. `uncounted` are codes of packets that may hold enough, if somebody counts them.
    """

    plan: Plan
    crop: str
    variety: str
    plants: int
    sowings: int
    sure: int
    seeds: int
    grams: float | None
    by: date | None
    reason: str
    uncounted: tuple[str, ...] = ()


def buying(desk: Desk) -> tuple[BuyLine, ...]:
    """What to get for the plans of this season, the soonest needed first."""
    found = [_line(desk, need) for need in desk.needs]
    lines = [line for line in found if line is not None]
    return tuple(sorted(lines, key=lambda one: (one.by or date.max, one.crop, one.variety)))


def _line(desk: Desk, need: Need) -> BuyLine | None:
    plan, figures = need.plan, desk.facts.figures(need.plan.crop_id)
    if figures is None:
        return None
    assert desk.garden.climate is not None
    first, sowings = sowings_to_come(need, figures, desk.garden.climate, desk.today)
    wanted = need.plants + plan.plants * (sowings - (1 if need.plants else 0))
    if wanted < 1 or first is None:
        return None
    lines = [desk.listing.forecast(one) for one in desk.listing.lines if _serves(desk, one, plan)]
    sure = _sure_of(desk, lines, wanted, first)
    if sure >= wanted:
        return None
    seeds = _fresh_seeds(desk, plan, wanted - sure)
    grams = desk.facts.grams(plan.crop_id, seeds)
    uncounted = tuple(line.packet.code for line in lines if line.dossier.left is None)
    return BuyLine(
        plan,
        desk.listing.book.name(plan.crop_id),
        plan.variety,
        wanted,
        sowings,
        sure,
        seeds,
        None if grams is None else _round_up(grams),
        first,
        _reason(lines, wanted, sure),
        uncounted,
    )


def _serves(desk: Desk, line: PacketLine, plan: Plan) -> bool:
    """Whether a packet would be sown for a plan: its variety, or any without a plan of its own."""
    packet = line.packet
    if packet.kind is not Kind.SEED or packet.crop_id != plan.crop_id or line.is_empty:
        return False
    if plan.variety:
        return search_key(packet.variety) == search_key(plan.variety)
    served = desk.need_of(line)
    return served is not None and not served.plan.variety


def _sure_of(desk: Desk, lines: Sequence[PacketLine], wanted: int, on: date) -> int:
    """Plants of which the packets together are sure on the day of sowing, each for itself.

    Spent packets are not sown, so they give none.
    """
    total = 0
    for line in lines:
        left = desk.seeds_left(line)
        if total >= wanted or not left or _is_spent(line):
            continue
        chances = few_nodes(chances_here(desk.listing.masses(line, on)))
        seeds = min(left, _ENOUGH_TIMES * wanted)
        total += plants_assured(chances, seeds, 1, desk.settings.assurance)
    return min(total, wanted)


def _fresh_seeds(desk: Desk, plan: Plan, plants: int) -> int:
    """Seeds of a new bought packet that give so many plants with assurance."""
    today = desk.today
    fresh = Packet(0, "", plan.crop_id, origin=Origin.BOUGHT, packed_year=today.year)
    line = PacketLine(Dossier(fresh, None), "", "", "")
    chances = few_nodes(chances_here(desk.listing.masses(line, today)))
    try:
        return seeds_for_plants(chances, plants, desk.settings.assurance)
    except OutOfRangeError:
        return 2 * plants  # a crop so unsure that no number makes it certain


def _is_spent(line: PacketLine) -> bool:
    return line.forecast is not None and line.forecast.advice is Advice.SPENT


def _reason(lines: Sequence[PacketLine], wanted: int, sure: int) -> str:
    if not lines:
        return f"none in the tin; {wanted} plants wanted"
    spent = [line.code for line in lines if _is_spent(line)]
    uncounted = [line.code for line in lines if line.dossier.left is None]
    parts = [f"what is there is sure of {sure} of {wanted} plants"]
    if spent:
        parts.append(f"{', '.join(spent)} {'is' if len(spent) == 1 else 'are'} spent")
    if uncounted:
        parts.append(f"count {', '.join(uncounted)} first")
    return "; ".join(parts)


def _round_up(grams: float) -> float:
    """To the next tenth of a gram, or hundredth below one."""
    step = 0.01 if grams < 1 else 0.1
    return round(ceil(grams / step - 1e-9) * step, 2)


def buying_rows(lines: Iterable[BuyLine]) -> list[tuple[str, ...]]:
    """A list for a spreadsheet or a page, with its header as the first row."""
    header = ("crop", "variety", "plants", "sowings", "seeds", "grams", "needed by", "reason")
    return [
        header,
        *(
            (
                one.crop,
                one.variety,
                str(one.plants),
                str(one.sowings),
                str(one.seeds),
                "" if one.grams is None else f"{one.grams:g}",
                spoken(one.by) if one.by else "",
                one.reason,
            )
            for one in lines
        ),
    ]
