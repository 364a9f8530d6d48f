"""What this tin can sow now: the common-practice list, other gardens, order, reasons, places."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from itertools import pairwise

import pytest

from seedbox.season.listing import Listing
from seedbox.season.sowing.desk import few_nodes
from seedbox.season.sowing.fields import now_fields
from seedbox.season.sowing.how_many import Aim, chances_here
from seedbox.season.sowing.now import SowingNow, now
from seedbox.season.sowing.offers import Offer
from seedbox.season.sowing.sow import Wish, sow
from seedbox.season.sowing.spans import Method
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import PlaceKind
from seedbox.tin.places import add_place, edit_place, remove_place
from seedbox.tin.plans import set_plan
from seedbox.tin.settings import reset_setting, set_setting

Planted = Callable[..., Tin]
MARCH = [date(2027, 3, day) for day in (1, 11, 21, 31)]


def methods(offer: Offer) -> set[Method]:
    return {choice.method for choice in (offer.choice, *offer.others)}


def offered(found: SowingNow) -> dict[str, Offer]:
    return {one.line.packet.crop_id: one for one in found.offers}


def left_out(found: SowingNow) -> dict[str, str]:
    return {one.line.packet.crop_id: one.reason for one in found.left_out}


# --- Common practice, no source: March in a mild maritime garden ---------------------------------
@pytest.fixture
def march(planted: Planted) -> list[SowingNow]:
    tin = planted()
    return [now(tin, day) for day in MARCH]


def test_march_offers_what_growers_sow_indoors_or_under_cover(march: list[SowingNow]) -> None:
    for crop in (
        "chard", "beetroot", "kale", "cabbage", "cauliflower", "broccoli_calabrese",
        "brussels_sprouts", "leek", "lettuce", "pak_choi",
    ):  # fmt: skip
        found = [methods(offered(one)[crop]) for one in march if crop in offered(one)]
        assert found, crop
        assert any(each & {Method.INDOORS, Method.UNDER_COVER} for each in found), crop


def test_march_offers_outdoors_as_the_month_goes_on(march: list[SowingNow]) -> None:
    outdoors = [
        {crop for crop, one in offered(each).items() if Method.OUTDOORS in methods(one)}
        for each in march
    ]
    hardy = {"radish", "carrot", "parsnip", "bean_broad", "pea_garden", "spinach", "rocket"}
    assert outdoors[0] == set()
    assert hardy <= outdoors[-1]
    assert all(before <= after for before, after in pairwise(outdoors))


def test_tender_crops_in_march_are_for_indoors_alone(march: list[SowingNow]) -> None:
    for crop in ("tomato", "pepper_sweet", "pepper_chilli", "aubergine"):
        found = [methods(offered(one)[crop]) for one in march if crop in offered(one)]
        assert found, crop
        assert all(each == {Method.INDOORS} for each in found), crop
    assert "too early" in left_out(march[-1])["courgette"]


def test_sunflower_comes_late_in_march_and_celery_with_late_ones_costs_harvest(
    march: list[SowingNow],
) -> None:
    assert "too early" in left_out(march[0])["sunflower"]
    assert "sunflower" in offered(march[2])
    assert "late, which costs harvest" in offered(march[-1])["celery"].reason
    assert "costs harvest" not in offered(march[-1])["tomato"].reason


def test_depths_are_those_that_growers_use(march: list[SowingNow]) -> None:
    rows = {row["crop_id"]: row for one in march for row in now_fields(one)}
    assert rows["chard"]["depth_mm"] == pytest.approx(25, abs=6)
    assert rows["beetroot"]["depth_mm"] == pytest.approx(25, abs=6)
    assert rows["kale"]["depth_mm"] == pytest.approx(10, abs=4)


# --- Other gardens -------------------------------------------------------------------------------
def test_a_garden_with_ten_more_weeks_of_frost_gets_another_list(planted: Planted) -> None:
    day = date(2027, 3, 21)
    mild, hard = offered(now(planted(), day)), offered(now(planted("07-04", "09-15", "62"), day))
    assert len(hard) < len(mild) / 2
    assert hard.keys() <= mild.keys()


def test_a_garden_shifted_by_half_a_year_gets_the_mirrored_list(planted: Planted) -> None:
    north = now(planted(), date(2027, 3, 21))
    south = now(planted("10-25", "04-25", "-52"), date(2027, 9, 20))
    up, down = offered(north), offered(south)
    assert up.keys() == down.keys()
    assert left_out(north).keys() == left_out(south).keys()
    half = timedelta(days=183)
    for crop, one in up.items():
        assert methods(one) == methods(down[crop]), crop
        assert one.closes is not None
        closes = down[crop].closes
        assert closes is not None
        assert abs((closes - one.closes - half).days) <= 3, crop


def test_without_frost_the_warmth_of_the_places_decides(planted: Planted) -> None:
    tin = planted("none", "none", "5")
    for name in ("Greenhouse", "Windowsill", "Bed"):
        edit_place(tin, name, coolest_c=26.0, warmest_c=27.0)
    for day in (date(2027, 1, 10), date(2027, 7, 10)):
        found = now(tin, day)
        assert {"tomato", "courgette", "bean_runner"} <= offered(found).keys()
        assert all(one.closes is None for one in found.offers)
        assert "too warm" in left_out(found)["celery"] or "celery" in offered(found)


def test_nothing_is_guessed_while_the_garden_has_not_said_its_frosts(planted: Planted) -> None:
    tin = planted()
    for name in ("last_spring_frost", "latitude"):
        reset_setting(tin, name)
    found = now(tin, MARCH[0])
    assert (found.offers, found.left_out) == ((), ())
    assert any("last spring frost" in said for said in found.missing)
    assert any("latitude" in said for said in found.missing)


def test_a_garden_without_places_says_so(planted: Planted) -> None:
    tin = planted()
    for name in ("Windowsill", "Greenhouse", "Bed"):
        remove_place(tin, name)
    found = now(tin, MARCH[0])
    assert found.offers == ()
    assert any("Add a place" in said for said in found.missing)


# --- Places --------------------------------------------------------------------------------------
def test_a_cold_place_says_until_when_to_wait_and_what_is_ready(planted: Planted) -> None:
    tin = planted(crops=("tomato",))
    add_place(tin, "Propagator", PlaceKind.PROPAGATOR, coolest_c=24)
    edit_place(tin, "Windowsill", coolest_c=6.0, warmest_c=24.0)
    alone = left_out(now(tin, date(2027, 3, 12), place="windowsill"))["tomato"]
    assert "too cold" in alone
    assert "wait until about" in alone
    assert "use the Propagator: 6 days" in alone
    both = now(tin, date(2027, 3, 12))
    assert offered(both)["tomato"].choice.place.name == "Propagator"


def test_light_too_low_for_seedlings_is_said(planted: Planted) -> None:
    tin = planted(crops=("lettuce",))
    edit_place(tin, "Windowsill", ppfd=90.0, light_hours=10.0)
    offer = offered(now(tin, date(2027, 2, 20)))["lettuce"]
    assert offer.choice.place.name == "Windowsill"
    # 90 x 10 h x 0.0036 = 3.24 mol (definition of the daily light integral)
    assert offer.light == "3.2 mol/m² a day: too little light for seedlings"


def test_one_crop_or_one_place_can_be_asked_for(planted: Planted) -> None:
    tin = planted()
    assert offered(now(tin, MARCH[3], crop_id="lettuce")).keys() == {"lettuce"}
    found = now(tin, MARCH[3], place="bed")
    assert {one.choice.place.name for one in found.offers} == {"Bed"}


# --- Numbers -------------------------------------------------------------------------------------
def test_more_plants_take_more_seed_and_assurance_is_kept(planted: Planted) -> None:
    tin = planted(crops=("cabbage",))
    seeds = []
    for plants in (4, 12, 30):
        set_plan(tin, "cabbage", plants)
        plan = offered(now(tin, MARCH[0]))["cabbage"].plan
        assert plan.plants == plants
        assert plan.assurance >= 0.9
        seeds.append(plan.seeds)
    assert seeds == sorted(set(seeds))
    set_setting(tin, "assurance", "0.95")
    assert offered(now(tin, MARCH[0]))["cabbage"].plan.seeds > seeds[-1]


def test_fewest_cells_take_more_seed(planted: Planted) -> None:
    tin = planted(crops=("cabbage",))
    set_plan(tin, "cabbage", 24)
    seed = offered(now(tin, MARCH[0]))["cabbage"].how
    cells = offered(now(tin, MARCH[0], aim=Aim.CELLS))["cabbage"].how
    assert seed is not None
    assert cells is not None
    assert cells.cells < seed.cells
    assert cells.seeds >= seed.seeds


def test_saving_cells_never_takes_seed_from_the_sowings_that_follow(planted: Planted) -> None:
    tin = planted(crops=("lettuce",), seeds=160)
    set_plan(tin, "lettuce", 12)
    once = offered(now(tin, MARCH[0]))["lettuce"].how
    set_plan(tin, "lettuce", 12, again_days=21)
    again = offered(now(tin, MARCH[0]))["lettuce"].how
    assert once is not None and again is not None
    assert once.per_cell > 1 and once.seeds <= 40
    assert again.per_cell == 1
    day, sowings = MARCH[0], 0
    while (found := offered(now(tin, day)).get("lettuce")) and not found.plan.falls_short:
        sow(tin, tin.packets()[0].code, found.choice.place.name, Wish(plants=12), today=day)
        day, sowings = day + timedelta(days=21), sowings + 1
    assert sowings >= 160 // (again.seeds + 3)


def test_what_is_in_the_packet_bounds_the_sowing_and_says_what_it_gives(planted: Planted) -> None:
    tin = planted(crops=("cabbage",), seeds=10)
    set_plan(tin, "cabbage", 24)
    offer = offered(now(tin, MARCH[0]))["cabbage"]
    assert offer.plan.seeds == 10
    assert 0 < offer.plan.plants < 10
    assert "only 10 seeds are left" in offer.plan.sentence


def test_seed_that_dislikes_moving_goes_in_rows(march: list[SowingNow]) -> None:
    carrot = offered(march[-1])["carrot"]
    assert carrot.choice.method is Method.OUTDOORS
    assert carrot.row is not None
    assert carrot.row.row_m > 0


def test_few_nodes_keep_the_mean_and_nearly_every_assurance(planted: Planted) -> None:
    from seedbox.science.sowing_rate import assurance_of_seeds

    tin = planted(crops=("cabbage",))
    listing = Listing(tin, MARCH[0])
    full = chances_here(listing.masses(listing.lines[0]))
    few = few_nodes(full)
    assert len(few.nodes) < len(full.nodes) / 2
    assert few.mean() == pytest.approx(full.mean(), abs=1e-9)
    for plants, seeds in ((1, 2), (12, 20), (60, 110)):
        exact = assurance_of_seeds(full, plants, seeds)
        assert assurance_of_seeds(few, plants, seeds) == pytest.approx(exact, abs=0.005)


# --- Order and plans -----------------------------------------------------------------------------
def test_planned_crops_come_first_and_met_plans_last(planted: Planted) -> None:
    tin = planted()
    set_plan(tin, "carrot", 30)
    day = MARCH[3]
    first = now(tin, day).offers[0]
    assert first.line.packet.crop_id == "carrot"
    assert "plan of 30: none sown yet" in first.reason
    code = first.line.packet.code
    sow(tin, code, "Bed", Wish(plants=30), today=day)
    after = now(tin, day)
    assert after.offers[-1].line.packet.crop_id == "carrot"
    assert "is met" in after.offers[-1].reason


def test_a_succession_falls_due_again(planted: Planted) -> None:
    tin = planted(crops=("lettuce",))
    set_plan(tin, "lettuce", 6, again_days=14)
    code = tin.packets()[0].code
    sow(tin, code, "Windowsill", Wish(plants=6), today=MARCH[0])
    soon, later = now(tin, MARCH[1]), now(tin, MARCH[2])
    assert "sow again from 15 March" in soon.offers[0].reason
    assert later.needs[0].due_since == date(2027, 3, 15)
    assert "due since 15 March" in later.offers[0].reason


def test_windows_that_close_soon_come_before_those_that_stay_open(planted: Planted) -> None:
    tin = planted()
    for crop in ("onion_bulb", "lettuce"):
        set_plan(tin, crop, 10)
    order = [one.line.packet.crop_id for one in now(tin, date(2027, 4, 8)).offers]
    assert order.index("onion_bulb") < order.index("lettuce")


def test_of_packets_for_one_purpose_the_first_choice_comes_first(demo: Tin) -> None:
    found = now(demo, date(2027, 2, 20))
    leeks = [one for one in found.offers if one.line.packet.crop_id == "leek"]
    assert len(leeks) > 1
    assert not leeks[0].instead_of
    assert {one.instead_of for one in leeks[1:]} == {leeks[0].line.packet.code}


def test_every_packet_of_the_demo_is_offered_or_told_why_not(demo: Tin) -> None:
    found = now(demo, date(2027, 2, 20))
    codes = [one.line.packet.code for one in (*found.offers, *found.left_out)]
    filled = [
        line.packet.code for line in Listing(demo, date(2027, 2, 20)).lines if not line.is_empty
    ]
    assert sorted(codes) == sorted(filled)
    reasons = " ".join(one.reason for one in found.left_out)
    for words in ("spent", "too early", "planting stock", "too doubtful", "nothing is known"):
        assert words in reasons
    assert all(one.reason for one in (*found.offers, *found.left_out))


def test_offers_are_told_with_all_fields(demo: Tin) -> None:
    rows = now_fields(now(demo, date(2027, 3, 31)))
    wanted = {
        "code", "crop", "variety", "method", "place", "emergence_days", "depth_mm", "cells",
        "seeds_per_cell", "seeds", "plants", "assurance", "window_closes", "reason",
    }  # fmt: skip
    assert rows
    assert all(wanted <= row.keys() for row in rows)
    for row in rows:
        if row["cells"] is not None:
            assert row["seeds"] == row["cells"] * row["seeds_per_cell"]
        days = row["emergence_days"]
        assert days["low"] <= days["mid"] <= days["high"]
