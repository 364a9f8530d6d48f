"""One look at the tin and the garden on one day, shared by all that asks what to sow."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date
from math import floor

from seedbox.science.chances import Chances
from seedbox.season.forecast import Advice
from seedbox.season.listing import Listing, PacketLine
from seedbox.season.searching import search_key
from seedbox.season.sowing.crop_facts import MULTI_SOWN, CropFacts
from seedbox.season.sowing.figures import SowingFigures
from seedbox.season.sowing.garden import GrowingPlace, own_figures_by_crop, read_garden
from seedbox.season.sowing.how_many import (
    USUAL_SHARE,
    Aim,
    HowMany,
    Row,
    chances_here,
    modules,
    row,
    tray,
)
from seedbox.season.sowing.in_progress import all_sowings
from seedbox.season.sowing.needs import Need, needs
from seedbox.season.sowing.offers import (
    Choice,
    LeftOut,
    Offer,
    choose,
    last_chance,
    reason_of,
    why_closed,
)
from seedbox.season.sowing.spans import Method
from seedbox.season.sowing.successions import sowings_to_come
from seedbox.season.sowing.waiting import why_no_place
from seedbox.season.sowing.where import Emerging, emerging
from seedbox.season.sowing.windows import Way, ways
from seedbox.season.testing.wanted import plants_wanted
from seedbox.tin.file import Tin
from seedbox.tin.records import Kind
from seedbox.units import per_cent

_USUAL_SPACING_CM = 15.0
_FEW_NODES = 64
_DOUBTFUL = (
    "too doubtful to count on for even one plant: test the packet first, or sow it thick and see"
)


class Desk:
    """All that one look at the tin shares: garden, sowings, needs, crops, places' factors."""

    def __init__(
        self,
        tin: Tin,
        today: date,
        *,
        listing: Listing | None = None,
        place: str = "",
        aim: Aim = Aim.USUAL,
    ) -> None:
        self.today = today
        self.aim = aim
        self.listing = listing or Listing(tin, today)
        self.settings = self.listing.settings
        self.garden = read_garden(tin, self.settings)
        self.facts = CropFacts(own_figures_by_crop(tin))
        packets = [line.packet for line in self.listing.lines]
        self.sowings = all_sowings(tin, self.garden, self.listing.book, packets)
        self.needs = self._needs()
        self.places = self._places(tin, place)
        self._emerging: dict[tuple[str, int], Emerging] = {}
        self._no_places: dict[str, str] = {}

    def _needs(self) -> tuple[Need, ...]:
        climate = self.garden.climate
        if climate is None:
            return ()
        return needs(self.garden.plans, self.sowings, climate, self.today)

    def _places(self, tin: Tin, name: str) -> tuple[GrowingPlace, ...]:
        if not name:
            return self.garden.places
        return (self.garden.place_by_id(tin.place(name).id),)

    def look(self, line: PacketLine) -> Offer | LeftOut:
        """A packet on this day: an offer, or why it is left out."""
        refused = self._refused(line)
        if refused:
            return LeftOut(line, refused)
        line = line if line.forecast else self.listing.forecast(line)
        if line.forecast and line.forecast.advice is Advice.SPENT:
            return LeftOut(line, _spent(line))
        figures, climate = self.facts.figures(line.packet.crop_id), self.garden.climate
        assert figures is not None and climate is not None
        found = ways(figures, climate, self.today)
        if not any(way.open for way in found):
            return LeftOut(line, why_closed(found, self.today))
        choices = self.choices(figures, found)
        choice, others = choose(figures, choices)
        if choice is None:
            return LeftOut(line, self._no_place(figures, found, choices))
        return self._offer(line, figures, choice, others, found)

    def _refused(self, line: PacketLine) -> str:
        if line.packet.kind is Kind.STOCK:
            return "planting stock: planted, not sown"
        if self.facts.figures(line.packet.crop_id) is None:
            return "nothing is known of how it is sown; the almanac has not this crop"
        return ""

    def choices(self, figures: SowingFigures, found: Iterable[Way]) -> list[Choice]:
        """Each open way in each place where one sows so."""
        return [
            Choice(way, place, self.emerging(figures.crop_id, place))
            for way in found
            if way.open
            for place in self.places
            if place.method is way.method
        ]

    def emerging(self, crop_id: str, place: GrowingPlace) -> Emerging:
        """How a crop sown today comes up in a place."""
        key = (crop_id, place.id)
        if key not in self._emerging:
            model = self.facts.model(crop_id)
            self._emerging[key] = emerging(model, place.spot.warmth, self.today)
        return self._emerging[key]

    def need_of(self, line: PacketLine) -> Need | None:
        """The plan that a packet would serve: one of its variety before one of its crop."""
        crop_id, variety = line.packet.crop_id, search_key(line.packet.variety)
        of_crop = [need for need in self.needs if need.plan.crop_id == crop_id]
        named = [need for need in of_crop if need.plan.variety]
        own = [need for need in named if search_key(need.plan.variety) == variety]
        rest = [need for need in of_crop if not need.plan.variety]
        return next(iter([*own, *rest]), None)

    def wanted(self, line: PacketLine, need: Need | None) -> int:
        """Plants to sow for: what the plan still needs, else a small bed of them."""
        if need is not None:
            return need.plants or need.plan.plants
        own = self.facts.own(line.packet.crop_id)
        return plants_wanted(line.packet.crop_id, self.settings, own)

    def chances(self, line: PacketLine, place: GrowingPlace, share: float | None) -> Chances:
        """Chance that a seed of the packet gives a plant in a place."""
        masses = self.listing.masses(line, self.today)
        return few_nodes(chances_here(masses, self.listing.place_factor(place.name), share))

    def seeds_left(self, line: PacketLine) -> int | None:
        """Whole seeds in the packet; None when nobody knows."""
        left = self.listing.seeds_left(line)
        return None if left is None else floor(left + 1e-6)

    def _offer(
        self,
        line: PacketLine,
        figures: SowingFigures,
        choice: Choice,
        others: tuple[Choice, ...],
        found: Sequence[Way],
    ) -> Offer | LeftOut:
        need = self.need_of(line)
        wanted = self.wanted(line, need)
        chances = self.chances(line, choice.place, choice.emerging.share)
        how, drill = self.how_many(line, figures, choice.place, wanted, chances)
        if not _plan_of(how, drill).plants:
            return LeftOut(line, _DOUBTFUL)
        reason = reason_of(choice, need, line)
        offer = Offer(
            line, figures, choice, others, wanted, need, how, drill, choice.way.closes, reason
        )
        return replace(offer, last_chance=last_chance(found, self.today, figures))

    def how_many(
        self,
        line: PacketLine,
        figures: SowingFigures,
        place: GrowingPlace,
        wanted: int,
        chances: Chances,
    ) -> tuple[HowMany | None, Row | None]:
        """Cells, modules or a row for the plants wanted, within what is in the packet."""
        left, sure = self.seeds_left(line), self.settings.assurance
        crop_id = line.packet.crop_id
        if in_row(place, figures):
            spacing = (
                figures.plant_spacing_cm.mid if figures.plant_spacing_cm else _USUAL_SPACING_CM
            )
            metres = wanted * spacing / 100.0
            return None, row(chances, metres, spacing, assurance=sure, seeds_left=left)
        if crop_id in MULTI_SOWN:
            clumps = _in_modules(chances, wanted, crop_id, sure, left)
            if clumps is not None:
                return clumps, None
        cells = round(self.settings.tray_cells)
        most = cells * -(-3 * wanted // cells)
        found = tray(
            chances,
            wanted,
            crop_id=crop_id,
            assurance=sure,
            aim=self.aim,
            most_cells=most,
            seeds_left=left,
            share=self._to_spare(line, figures),
        )
        return found, None

    def _to_spare(self, line: PacketLine, figures: SowingFigures) -> float:
        """Share of the packet that one sowing may take to save cells: less while more are due."""
        need, climate = self.need_of(line), self.garden.climate
        if need is None or need.plan.again_days is None or climate is None:
            return USUAL_SHARE
        _, sowings = sowings_to_come(need, figures, climate, self.today)
        return min(USUAL_SHARE, 1 / max(sowings, 1))

    def _no_place(
        self, figures: SowingFigures, found: Sequence[Way], choices: Sequence[Choice]
    ) -> str:
        """Its weeks have come, but no place will do: the nearest to it tells why."""
        if not choices:
            wanted = " or ".join(way.method.value for way in found if way.open)
            return f"it can be sown {wanted}, but no such place is in the garden"
        if figures.crop_id not in self._no_places:
            model, last = self.facts.model(figures.crop_id), self._end_of(figures, found)
            tried = {choice.place.id for choice in choices}
            may = {way.method for way in found if way.open}
            others = [
                one.spot for one in self.garden.places if one.method in may and one.id not in tried
            ]
            self._no_places[figures.crop_id] = why_no_place(
                model, choices, others, self.today, last
            )
        return self._no_places[figures.crop_id]

    def _end_of(self, figures: SowingFigures, found: Sequence[Way]) -> date | None:
        """Until when waiting makes sense; late sowings of pot-raised crops are sowings too."""
        last = last_chance(found, self.today, figures)
        closes = [way.closes for way in found if way.open and way.closes is not None]
        return None if last is None else max([last, *closes])


def _plan_of(how: HowMany | None, drill: Row | None) -> HowMany | Row:
    found = how or drill
    assert found is not None
    return found


def in_row(place: GrowingPlace, figures: SowingFigures) -> bool:
    """Whether seed goes in a row where it is to grow, in a border too, and not in cells."""
    if place.method is Method.OUTDOORS:
        return True
    return figures.dislikes_moving and place.method is Method.UNDER_COVER


def _in_modules(
    chances: Chances, wanted: int, crop_id: str, assurance: float, left: int | None
) -> HowMany | None:
    """Clumps as usual for the crop, smaller ones where so much old seed would crowd a module.

    None where even single plants would take too many seeds a module.
    """
    usual = MULTI_SOWN[crop_id]
    for together in range(usual, 0, -1):
        found = modules(
            chances, wanted, together, crop_id=crop_id, assurance=assurance, seeds_left=left
        )
        if found.per_cell <= 2 * usual:
            return found
    return None


def _spent(line: PacketLine) -> str:
    mean = line.forecast.mean if line.forecast else None
    alive = "" if mean is None else f": about {per_cent(mean)} still germinate"
    return f"the packet is spent{alive}; get or save new seed"


def few_nodes(chances: Chances, most: int = _FEW_NODES) -> Chances:
    """Neighbouring chances put together, their mean kept, so that a whole tin is reckoned quickly.

    No node then weighs more than about 1 / `most`, unless it did before.
    """
    if len(chances.nodes) <= most:
        return chances
    gathered: list[tuple[float, float]] = []
    sum_weight = sum_chance = 0.0
    for chance, weight in sorted(chances.nodes):
        if sum_weight and sum_weight + weight > 1.0 / most:
            gathered.append((sum_chance / sum_weight, sum_weight))
            sum_weight = sum_chance = 0.0
        sum_weight += weight
        sum_chance += weight * chance
    gathered.append((sum_chance / sum_weight, sum_weight))
    return Chances(tuple(gathered))
