"""One packet on one day: how, where and how many to sow of it, or why not."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from seedbox.season.forecast import Advice
from seedbox.season.listing import PacketLine
from seedbox.season.sowing.climate import spoken
from seedbox.season.sowing.crop_facts import light_to_germinate, pretreatment
from seedbox.season.sowing.figures import SowingFigures
from seedbox.season.sowing.garden import GrowingPlace
from seedbox.season.sowing.how_many import HowMany, Row
from seedbox.season.sowing.needs import Need
from seedbox.season.sowing.spans import Method, Phase
from seedbox.season.sowing.where import Emerging, Verdict, days_text
from seedbox.season.sowing.windows import Way
from seedbox.tin.garden_records import PlaceKind

# Seed of crops that can be moved goes straight outdoors where it comes up within these days.
QUICK_OUTDOORS_DAYS = 12
# Room in a propagator is scarce: it is kept for what it brings on by this many days. Practice.
PROPAGATOR_SAVES_DAYS = 4


@dataclass(frozen=True, slots=True)
class Choice:
    """One way of sowing, in one place."""

    way: Way
    place: GrowingPlace
    emerging: Emerging

    @property
    def method(self) -> Method:
        return self.way.method


@dataclass(frozen=True, slots=True)
class Offer:
    """A packet that can be sown now, in the way that suits best; `others` are further ways.

    `how` is for cells, `row` for a row where it is to grow. `wanted` plants follow from `need`, or
    where nothing is planned from a small bed. `instead_of` is the code of a packet of the same
    crop that comes first. `closes` ends this way, `last_chance` every way; `urgency` says what is
    lost by waiting: see `now`.
    """

    line: PacketLine
    figures: SowingFigures
    choice: Choice
    others: tuple[Choice, ...]
    wanted: int
    need: Need | None
    how: HowMany | None
    row: Row | None
    closes: date | None
    reason: str
    last_chance: date | None = None
    urgency: float = 0.0
    instead_of: str = ""

    @property
    def plan(self) -> HowMany | Row:
        """The one of `how` and `row` that holds."""
        found = self.how or self.row
        assert found is not None
        return found

    @property
    def pretreatment(self) -> tuple[str, ...]:
        """What the seed wants before it is sown, in words."""
        return pretreatment(self.figures.crop_id)

    @property
    def covering(self) -> str:
        """Whether the seed is covered or wants light, in words; empty where it is not known."""
        return light_to_germinate(self.figures.crop_id)

    @property
    def light(self) -> str:
        """What the light of the place means for seedlings; empty where it is not known."""
        return self.choice.place.light_sentence()


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A packet that is not sown now, and why."""

    line: PacketLine
    reason: str


def choose(
    figures: SowingFigures, choices: Sequence[Choice]
) -> tuple[Choice | None, tuple[Choice, ...]]:
    """The best way and the rest. Only ways in which seed comes up are chosen from.

    What dislikes moving goes outdoors first, then under cover. What can be moved goes straight
    outdoors where it comes up quickly there; else where it comes up soonest. Sowings in season
    come before late ones.
    """
    good = [one for one in choices if one.emerging.verdict.sows]
    ranked = sorted(good, key=lambda one: _rank(figures, one))
    return (ranked[0], tuple(ranked[1:])) if ranked else (None, ())


_WARMTH = list(Method)


def _rank(figures: SowingFigures, one: Choice) -> tuple[int, int, int, float]:
    days = one.emerging.days.mid if one.emerging.days else float("inf")
    if one.place.record.kind is PlaceKind.PROPAGATOR:
        days += PROPAGATOR_SAVES_DAYS
    late = int(one.way.phase is Phase.LATER and not figures.dislikes_moving)
    losing = int(one.emerging.verdict is Verdict.LOSES)
    if figures.dislikes_moving:
        return (losing, late, -_WARMTH.index(one.method), days)
    quick = one.method is Method.OUTDOORS and days <= QUICK_OUTDOORS_DAYS
    return (late, losing, int(not quick), days)


def why_closed(ways: Sequence[Way], on: date) -> str:
    """Why no way is open: the one that opens soonest tells."""
    coming = sorted((way for way in ways if way.opens), key=lambda way: way.opens or on)
    if coming:
        first = coming[0]
        return f"{first.reason} ({first.method.value})"
    said = dict.fromkeys(way.reason for way in ways if way.reason)
    return "; ".join(said) or "no sowing week is known for it"


def last_chance(ways: Sequence[Way], on: date, figures: SowingFigures) -> date | None:
    """The day after which waiting costs the crop, whichever way it is sown; None when never.

    A way that opens before another closes carries on. Crops raised in pots lose harvest with
    every day past their season.
    """
    now = [way for way in ways if way.open]
    if any(way.closes is None for way in now):
        return None
    if figures.pots_only and all(way.phase is Phase.LATER for way in now):
        return on
    ends = [_end(way, figures) for way in now]
    latest = max(ends, default=on)
    following = [way for way in ways if not way.open and way.opens and way.opens <= latest]
    return max([latest, *(_end(way, figures) for way in following)])


def _end(way: Way, figures: SowingFigures) -> date:
    assert way.closes is not None
    return way.closes if figures.pots_only or way.later_until is None else way.later_until


def reason_of(choice: Choice, need: Need | None, line: PacketLine) -> str:
    """Why it is worth sowing now, the household's plan first."""
    said = [need.words() if need else "", _use_up(line), choice.way.reason]
    return "; ".join(part for part in said if part)


def _use_up(line: PacketLine) -> str:
    forecast = line.forecast
    if forecast is None or forecast.advice is not Advice.USE_UP:
        return ""
    last = forecast.good_until
    return f"use up, good until {spoken(last)} {last.year}" if last else "use up"


def emergence_words(choice: Choice) -> str:
    """Days to emergence in the chosen place, in words."""
    days = choice.emerging.days
    return choice.emerging.sentence if days is None else days_text(days)
