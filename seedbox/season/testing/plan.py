"""Which packets are worth a germination test before the coming season, and with how many seeds."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from seedbox.science.testing_worth import (
    WorthOfTest,
    sizes_to_weigh,
    sowings_served,
    worth_of_test,
)
from seedbox.season.forecast import Advice
from seedbox.season.listing import Listing, PacketLine
from seedbox.season.testing.wanted import Demand, Demands
from seedbox.tin.file import Tin
from seedbox.tin.records import Kind, TestState
from seedbox.units import per_cent_range

# A packet as surely above its standard, or below the floor, as this has nothing to ask.
_SURE = 0.97


@dataclass(frozen=True, slots=True)
class PlannedTest:
    """A packet with the test that it is worth: `seeds` 0 when it is worth none.

    `net` is what is left of the gain after seeds and work, in plants. `plants` are wanted of this
    packet. `why` is one line.
    """

    line: PacketLine
    seeds: int
    net: float
    plants: int
    why: str


@dataclass(frozen=True, slots=True)
class TestingPlan:
    """Tests worth making, the most worthwhile first, and doubtful packets that are not worth one.

    `notes` say what the plan takes for granted.
    """

    tests: tuple[PlannedTest, ...]
    not_worth: tuple[PlannedTest, ...]
    notes: tuple[str, ...]

    @property
    def seeds(self) -> int:
        """Seeds that the whole plan uses."""
        return sum(each.seeds for each in self.tests)


def testing_plan(tin: Tin, today: date, listing: Listing | None = None) -> TestingPlan:
    """The plan for a tin on a day. A listing that is there already saves reading the tin."""
    listing = listing or Listing(tin, today)
    running = {test.packet_id for test in tin.tests(state=TestState.RUNNING)}
    lines = [line for line in listing.lines if _can_be_tested(line)]
    demands = Demands(tin.plans(), listing.settings, _own_figures(tin), today.year)
    wanted = {line.packet.id: demands.of(line.packet) for line in lines}
    shares = Counter(demand.purpose for demand in wanted.values())
    found = [
        _planned(listing, line, wanted[line.packet.id], shares)
        for line in map(listing.forecast, (each for each in lines if each.packet.id not in running))
        if _has_a_question(line)
    ]
    tests = sorted((each for each in found if each.seeds), key=_most_worth_first)
    left_out = [each for each in found if not each.seeds and _advised_to_test(each.line)]
    return TestingPlan(
        tuple(tests),
        tuple(sorted(left_out, key=_most_worth_first)),
        _notes(demands.basis(), len(running)),
    )


def _can_be_tested(line: PacketLine) -> bool:
    return line.packet.kind is Kind.SEED and not line.is_empty


def _has_a_question(line: PacketLine) -> bool:
    forecast = line.forecast
    if forecast is None or forecast.p_standard is None or forecast.p_floor is None:
        return False
    return forecast.p_standard < _SURE and forecast.p_floor > 1 - _SURE


def _advised_to_test(line: PacketLine) -> bool:
    return line.forecast is not None and line.forecast.advice is Advice.TEST


def _most_worth_first(planned: PlannedTest) -> tuple[float, str]:
    return (-planned.net, planned.line.packet.code)


def _own_figures(tin: Tin) -> dict[str, dict[str, str]]:
    own: dict[str, dict[str, str]] = {}
    for one in tin.own_figures():
        own.setdefault(one.crop_id, {})[one.figure] = one.value
    return own


def _planned(
    listing: Listing, line: PacketLine, wanted: Demand, shares: Mapping[tuple[str, str], int]
) -> PlannedTest:
    """Packets that serve one purpose share the plants that are wanted."""
    plants = max(round(wanted.plants / shares[wanted.purpose]), 1)
    left = listing.seeds_left(line)
    sowings = sowings_served(left, plants)
    worth = worth_of_test(listing.masses(line), plants, left, sowings=sowings)
    why = (
        _why(line, worth, plants, round(sowings)) if worth.seeds else _why_not(worth, plants, left)
    )
    return PlannedTest(line, worth.seeds, worth.net, plants, why)


def _why(line: PacketLine, worth: WorthOfTest, plants: int, sowings: int) -> str:
    saved = worth.loss_now - worth.loss_after
    sowing = "Sowing" if sowings == 1 else f"In {sowings} sowings"
    return (
        f"{_range(line)} may come up. {sowing} for {_plants(plants)}, knowing saves about"
        f" {_plants_worth(saved)} and costs {_plants_worth(saved - worth.net)} in seed and work."
    )


def _why_not(worth: WorthOfTest, plants: int, left: float | None) -> str:
    instead = (
        f"sow {worth.sow_now} seeds for {_plants(plants)} and see"
        if worth.sow_now
        else "rely on a new packet"
    )
    if left is not None and not sizes_to_weigh(left):
        seeds = f"{left:.0f} seeds are" if round(left) != 1 else "1 seed is"
        return f"Only {seeds} left, too few to spare any for a test: {instead}."
    return f"A test would cost more than knowing saves for {_plants(plants)}: {instead}."


def _range(line: PacketLine) -> str:
    forecast = line.forecast
    if forecast is None or forecast.low is None or forecast.high is None:
        return "An unknown share"
    return per_cent_range(forecast.low, forecast.high)


def _plants(number: int) -> str:
    return "1 plant" if number == 1 else f"{number} plants"


def _plants_worth(number: float) -> str:
    return f"{number:.1f} plants"


def _notes(basis: str, running: int) -> tuple[str, ...]:
    said = [f"Plants wanted: {basis}; packets of one plan or crop share them."]
    if running:
        packets = "1 packet is" if running == 1 else f"{running} packets are"
        said.append(f"{packets} being tested already.")
    return tuple(said)
