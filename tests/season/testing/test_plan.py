"""Which packets are worth a test."""

from __future__ import annotations

from datetime import date

import pytest

from seedbox import almanac
from seedbox.season.testing.plan import testing_plan as plan_of
from seedbox.season.testing.starting import Wishes, start
from seedbox.season.testing.wanted import FEWEST, MOST, Demands, plants_wanted
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import Plan
from seedbox.tin.packets import PacketDraft, add_packet
from seedbox.tin.plans import set_plan
from seedbox.tin.preferences import Settings
from seedbox.tin.records import Kind, Origin, Packet
from seedbox.tin.settings import set_setting
from seedbox.tin.stores import add_store
from seedbox.tin.tests import record_test


@pytest.fixture
def worthwhile(tin: Tin, doubtful: Packet, today: date) -> int:
    """A number of plants for which the doubtful packet is worth a test."""
    for plants in (5, 10, 20, 40):
        set_setting(tin, "plants_wanted", str(plants))
        if plan_of(tin, today).tests:
            return plants
    raise AssertionError("a packet that may be dead or fine is worth no test at all")


def test_a_doubtful_packet_is_worth_a_test(
    tin: Tin, doubtful: Packet, today: date, worthwhile: int
) -> None:
    found = plan_of(tin, today)
    (planned,) = found.tests
    assert planned.line.packet == doubtful
    assert 5 <= planned.seeds <= 50
    assert planned.net > 0
    assert planned.plants == worthwhile
    assert f"{worthwhile} plants" in planned.why
    assert found.seeds == planned.seeds
    assert "your setting plants_wanted" in found.notes[0]


@pytest.mark.usefixtures("worthwhile")
def test_what_is_known_already_is_not_tested(tin: Tin, doubtful: Packet, today: date) -> None:
    record_test(tin, doubtful, today, 200, 190, today=today)
    assert plan_of(tin, today).tests == ()


@pytest.mark.usefixtures("worthwhile")
def test_a_packet_under_test_waits_for_its_result(tin: Tin, doubtful: Packet, today: date) -> None:
    start(tin, doubtful.code, Wishes(20), today=today)
    found = plan_of(tin, today)
    assert found.tests == ()
    assert "1 packet is being tested already." in found.notes


def test_few_seeds_are_not_spent_on_a_test(tin: Tin, today: date) -> None:
    drawer = add_store(tin, "drawer", 18, 24, relative_humidity=0.5)
    for amount in (16, 20, 0):
        add_packet(
            tin,
            PacketDraft(
                "carrot",
                origin=Origin.BOUGHT,
                harvest_year=2022,
                amount=amount,
                store_id=drawer.id,
                received_on=date(2022, 12, 1),
            ),
            today=today,
        )
    found = plan_of(tin, today)
    assert all(each.seeds <= 5 for each in found.tests)
    few = next(each for each in found.not_worth if each.line.dossier.left == 16)
    assert few.why.startswith("Only 16 seeds are left, too few")


def test_packets_of_one_crop_share_the_plants(tin: Tin, doubtful: Packet, today: date) -> None:
    set_setting(tin, "plants_wanted", "40")
    add_packet(tin, PacketDraft("carrot", origin=Origin.BOUGHT, harvest_year=2026), today=today)
    found = plan_of(tin, today)
    assert {each.plants for each in (*found.tests, *found.not_worth)} == {20}


def test_plans_say_how_many_plants_and_packets_of_a_plan_share_them(
    tin: Tin, doubtful: Packet, today: date
) -> None:
    for variety in ("", "Long Hill"):
        draft = PacketDraft("carrot", variety, origin=Origin.BOUGHT, harvest_year=2022)
        add_packet(tin, draft, today=today)
    set_setting(tin, "plants_wanted", "7")
    set_plan(tin, "carrot", 30)
    set_plan(tin, "carrot", 24, variety="slate hill")
    found = plan_of(tin, today)
    plants = {one.line.packet.variety: one.plants for one in (*found.tests, *found.not_worth)}
    assert plants == {doubtful.variety: 24, "": 15, "Long Hill": 15}
    assert found.notes[0].startswith("Plants wanted: by your plans; of what they do not name, 7 of")


def test_a_plan_that_names_a_year_holds_for_that_one_and_the_season_before(
    tin: Tin, doubtful: Packet
) -> None:
    settings = Settings(plants_wanted=7)

    def wanted(year: int, *plans: Plan) -> tuple[int, bool]:
        demand = Demands(plans, settings, {}, year).of(doubtful)
        return demand.plants, demand.planned

    always = Plan(1, "carrot", 12)
    once, later = Plan(2, "carrot", 40, year=2028), Plan(3, "carrot", 50, year=2029)
    assert wanted(2027, once, always) == wanted(2028, always, once, later) == (40, True)
    assert wanted(2029, once, later, always) == (50, True)
    assert wanted(2026, once, always) == wanted(2030, once, always) == (12, True)
    assert wanted(2026, once) == wanted(2027, Plan(4, "leek", 9)) == (7, False)


def test_stock_is_never_planned(tin: Tin, today: date) -> None:
    add_packet(tin, PacketDraft("shallot", kind=Kind.STOCK, amount=40), today=today)
    found = plan_of(tin, today)
    assert (found.tests, found.not_worth) == ((), ())


def test_the_most_worthwhile_comes_first(tin: Tin, doubtful: Packet, today: date) -> None:
    for crop_id in ("parsnip", "leek", "onion_bulb", "lettuce"):
        for year in (2021, 2023, 2024):
            draft = PacketDraft(crop_id, origin=Origin.SAVED, harvest_year=year, amount=400)
            add_packet(tin, draft, today=today)
    longest = 0
    for plants in (10, 30, 90, 270):
        set_setting(tin, "plants_wanted", str(plants))
        worth = [each.net for each in plan_of(tin, today).tests]
        assert worth == sorted(worth, reverse=True)
        longest = max(longest, len(worth))
    assert longest > 1


@pytest.mark.parametrize("crop_id", [crop.id for crop in almanac.crops()])
def test_plants_of_every_crop(crop_id: str) -> None:
    assert FEWEST <= plants_wanted(crop_id, Settings(), {}) <= MOST
    assert plants_wanted(crop_id, Settings(plants_wanted=7), {}) == 7


def test_wide_crops_want_fewer_plants() -> None:
    wide, narrow = (plants_wanted(each, Settings(), {}) for each in ("pumpkin", "onion_bulb"))
    assert wide < narrow
    assert plants_wanted("own:thing", Settings(), {}) == 12
