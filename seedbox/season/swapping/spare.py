"""What of each packet can be given away: in portions, honestly described, with the reason."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from seedbox.errors import BadDataError
from seedbox.season.forecast import Advice, Forecast
from seedbox.season.listing import PacketLine
from seedbox.season.sowing.desk import Desk
from seedbox.season.swapping import cautions as told
from seedbox.season.swapping.aliveness import Alive
from seedbox.season.swapping.hybrids import is_hybrid, packet_words
from seedbox.season.swapping.keeping import Kept, kept_back, seeds_for_tests
from seedbox.season.swapping.portions import Portion, portion
from seedbox.season.swapping.records import Germination, Offer
from seedbox.season.swapping.seasons import next_sowing_day, uses
from seedbox.season.swapping.spare_words import honest_words, why_none, why_spare
from seedbox.season.testing.evidence import weighed
from seedbox.tin.file import Tin
from seedbox.tin.list_records import SwapChoice, SwapWord
from seedbox.tin.records import Dossier, GerminationTest, Kind, Packet, TestState


@dataclass(frozen=True, slots=True)
class Spare:
    """One packet and what can be given away of it.

    `seeds` are in the packet, `kept_back` of them stay; both None where nobody counted. `portion`
    is None where none can be measured. `could_give` portions are spare by the reckoning;
    `offer.portions` are offered, 0 where it is held back: `held` says why. `grams_per_portion` is
    None where no weight is known. `why` says all of it in a sentence. `stays` tells what the
    seeds that are kept back are for.
    """

    line: PacketLine
    offer: Offer
    seeds: int | None
    kept_back: int | None
    portion: Portion | None
    could_give: int
    held: str
    why: str
    grams_per_portion: float | None = None
    choice: SwapChoice | None = None
    stays: Kept = field(default_factory=Kept)

    @property
    def code(self) -> str:
        return self.line.packet.code

    @property
    def portions(self) -> int:
        return self.offer.portions


def spare_of(tin: Tin, today: date, *, seasons: int = 2) -> tuple[Spare, ...]:
    """What is spare of every packet that holds seed, by crop, variety and age."""
    return spare(Desk(tin, today), tin, seasons=seasons)


def spare(desk: Desk, tin: Tin, *, seasons: int = 2) -> tuple[Spare, ...]:
    """As ``spare_of``, from a look at the tin that is there already.

    `seasons` says for how many seasons seed is kept back, this one being the first.
    """
    lines = [desk.listing.forecast(line) for line in desk.listing.lines if not line.is_empty]
    alive = Alive(desk, next_sowing_day(desk))
    kept = kept_back(lines, uses(desk, seasons), alive)
    choices = {choice.packet_id: choice for choice in tin.swap_choices()}
    running = tin.tests(state=TestState.RUNNING)
    found = []
    for line in lines:
        packet = line.packet
        tests = [test for test in running if test.packet_id == packet.id]
        own = replace(kept[packet.code]) if packet.code in kept else Kept()
        own.test = seeds_for_tests(line, tests, tin.movements(packet.id) if tests else ())
        found.append(_Judging(alive, line, own, choices.get(packet.id)).spare())
    return tuple(sorted(found, key=_order))


def judged_again(desk: Desk, one: Spare, choice: SwapChoice | None) -> Spare:
    """The same packet under another word of its owner, where nothing else in the tin changed."""
    alive = Alive(desk, next_sowing_day(desk))
    return _Judging(alive, one.line, one.stays, choice).spare()


class _Judging:
    """One packet on its way to an offer."""

    def __init__(
        self, alive: Alive, line: PacketLine, kept: Kept, choice: SwapChoice | None
    ) -> None:
        self.alive, self.line, self.kept, self.choice = alive, line, kept, choice
        self.desk, self.ahead, self.packet = alive.desk, alive.ahead, line.packet
        self.passing = told.passing(line.packet, line.crop, self.desk.settings.swap_law)
        self.left = None if self.packet.kind is Kind.STOCK else self.desk.seeds_left(line)

    def spare(self) -> Spare:
        why = self._why_none()
        if why:
            return self._spare(None, 0, why)
        chances = self.alive.chances(self.line)
        if chances is None:
            return self._spare(None, 0, why_none("spent ahead", self.line, self.ahead))
        assert self.left is not None
        one = portion(self.packet.crop_id, chances, self.desk.settings.assurance)
        could = max(self.left - self.kept.seeds, 0) // one.seeds
        return self._spare(
            one,
            could,
            why_spare(self.line, self.left, self.kept, one, could, today=self.desk.today),
        )

    def _why_none(self) -> str:
        """Why nothing can be reckoned or offered at all, in a sentence."""
        if self.packet.kind is Kind.STOCK:
            return why_none("stock", self.line, self.ahead)
        if self.line.advice == Advice.SPENT:
            return why_none("spent", self.line, self.ahead)
        if self.line.dossier.left is None:
            return why_none("uncounted", self.line, self.ahead)
        if self.left is None:
            return why_none("no weight", self.line, self.ahead)
        return ""

    def _spare(self, one: Portion | None, could: int, why: str) -> Spare:
        held = self._held(could)
        offered = 0 if held else could
        if self.choice and self.choice.portions:
            offered = min(offered, self.choice.portions)
        grams = None if one is None else self.desk.facts.grams(self.packet.crop_id, one.seeds)
        if held and could:
            why = f"{why} {held}"
        elif offered < could:
            why = f"{why} You said at most {offered}."
        none = self.left is None or one is None
        kept = None if self.left is None else self.left if none else min(self.kept.seeds, self.left)
        return Spare(
            self.line, self._offer(one, offered, grams), self.left, kept, one, could, held, why,
            grams, self.choice, self.kept,
        )  # fmt: skip

    def _held(self, could: int) -> str:
        """Why it is not offered though there is some, in a sentence."""
        if self.choice and self.choice.choice is SwapWord.KEEP:
            return "Kept back, as you said."
        if self.choice and self.choice.choice is SwapWord.OFFER:
            return ""
        reasons = [self.passing.held] if self.passing.held else []
        if self.line.advice == Advice.TEST:
            reasons.append("nobody can tell whether it lives before it is tested")
        if not reasons or not could:
            return ""
        return f"Held back: {' and '.join(reasons)}."

    def _offer(self, one: Portion | None, portions: int, grams: float | None) -> Offer:
        small = (
            ""
            if one is None
            else told.small_lot_caution(self.desk.settings.swap_law, one.seeds, grams)
        )
        said = [*honest_words(self.line), *self.passing.cautions, small]
        return Offer(
            code=self.packet.code,
            crop=self.line.crop,
            crop_id="" if self.packet.crop_id.startswith("own:") else self.packet.crop_id,
            variety=self.packet.variety,
            portions=portions,
            seeds_per_portion=None if one is None else one.seeds,
            germination=germination(self.line.dossier, self.line.forecast),
            harvest_year=self.packet.harvest_year,
            treatment=self.packet.treatment,
            hybrid=is_hybrid(*packet_words(self.packet)),
            cautions=tuple(filter(None, said)),
            packed_year=_packed_year(self.packet),
        )


def germination(dossier: Dossier, forecast: Forecast | None) -> Germination:
    """What is believed of a packet, with its latest own test, and the figure printed on it."""
    packet, latest = dossier.packet, _latest(dossier.tests)
    tested, alive = weighed(latest) if latest else (None, None)
    return Germination(
        mean=forecast.mean if forecast else None,
        low=forecast.low if forecast else None,
        high=forecast.high if forecast else None,
        tested_on=latest.on if latest else None,
        tested_seeds=tested,
        germinated=alive,
        printed=packet.printed_germination,
        printed_on=packet.printed_on,
    )


def offers(found: Iterable[Spare]) -> tuple[Offer, ...]:
    """What is offered of what is spare."""
    return tuple(one.offer for one in found if one.portions)


def _packed_year(packet: Packet) -> int | None:
    """The best known year of seed whose harvest is not known."""
    if packet.harvest_year is not None:
        return None
    return packet.packed_year or packet.bought_year


def _latest(tests: Sequence[GerminationTest]) -> GerminationTest | None:
    """The latest test of one's own, else of others."""
    return max(tests, key=lambda test: (not test.reported_by, test.on, test.id), default=None)


def _order(one: Spare) -> tuple[str, str, str]:
    packet = one.line.packet
    return one.line.crop.casefold(), packet.variety.casefold(), packet.code


def portion_seeds(desk: Desk, code: str) -> int:
    """Seeds in a portion of one packet. Raises BadDataError for what is not given in portions."""
    line = desk.listing.line(code)
    if line.packet.kind is Kind.STOCK:
        raise BadDataError(why_none("stock", line, desk.today))
    chances = Alive(desk, next_sowing_day(desk)).chances(line)
    if chances is None:
        raise BadDataError(
            why_none("spent", line, desk.today), hint="To give it all the same, say --seeds."
        )
    return portion(line.packet.crop_id, chances, desk.settings.assurance).seeds
