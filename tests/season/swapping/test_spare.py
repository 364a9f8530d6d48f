"""What is spare: beyond the plans, never the last of a variety, never more than there is."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from seedbox.season.sowing.desk import Desk
from seedbox.season.swapping.seasons import next_sowing_day, uses
from seedbox.season.swapping.spare import Spare, judged_again, offers, spare, spare_of
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import PlaceKind
from seedbox.tin.list_records import SwapChoice, SwapWord
from seedbox.tin.places import add_place
from seedbox.tin.plans import set_plan
from seedbox.tin.quantity import take
from seedbox.tin.records import Kind, Origin, Treatment, Unit
from seedbox.tin.settings import set_setting
from seedbox.tin.sowings import SowingDraft, add_sowing
from seedbox.tin.storage import move
from seedbox.tin.stores import add_store
from seedbox.tin.swap_choices import set_swap_choice
from seedbox.tin.testing import TestPlan, start_test
from seedbox.tin.tests import record_test

TODAY = date(2027, 2, 20)
Planted = Callable[..., Tin]


def _only(tin: Tin, **more: Any) -> Spare:
    (one,) = spare_of(tin, TODAY, **more)
    return one


def _by_variety(tin: Tin) -> dict[str, Spare]:
    return {one.line.packet.variety: one for one in spare_of(tin, TODAY)}


def test_what_the_plan_uses_this_season_and_the_next_stays(planted: Planted) -> None:
    tin = planted({"crop_id": "leek", "variety": "Grey Mast"})
    free = _only(tin)
    set_plan(tin, "leek", 100)
    planned = _only(tin)
    assert planned.kept_back is not None and free.kept_back is not None
    assert planned.kept_back > 200  # two seasons of a hundred plants, and not every seed comes
    assert planned.portions < free.portions
    assert "by your plan" in planned.why and "this season" in planned.why
    assert "nothing is planned" in free.why


def test_more_seasons_keep_more_back(planted: Planted) -> None:
    tin = planted({"crop_id": "tomato", "variety": "Ferry Lamp"})
    set_plan(tin, "tomato", 12)
    kept = [_only(tin, seasons=seasons).kept_back for seasons in (1, 2, 4)]
    assert kept == sorted(kept) and len(set(kept)) == 3  # type: ignore[type-var]


def test_nothing_is_kept_for_a_season_in_which_it_is_no_longer_good(planted: Planted) -> None:
    """By the forecast, not by any date on the packet."""
    tin = planted({"crop_id": "leek", "sow_by": date(2035, 12, 31)})
    record_test(tin, tin.packets()[0], date(2027, 2, 1), 100, 72, today=TODAY)
    damp = add_store(tin, "Shelf", 20, relative_humidity=0.7)
    move(tin, tin.packets(), damp, today=TODAY)
    set_plan(tin, "leek", 20)
    one = _only(tin)
    assert one.line.forecast is not None and one.line.forecast.good_until is not None
    assert one.line.forecast.good_until < date(2028, 1, 1)
    assert one.stays.past >= {1} and 1 not in one.stays.by_season
    assert "when it is no longer good" in one.why


def test_a_plan_of_one_year_holds_in_that_year_alone(planted: Planted) -> None:
    """In the other season the crop has no plan, and what a household grows is kept."""
    tin = planted({"crop_id": "leek", "variety": "Grey Mast"})
    household = _only(tin).stays.by_season
    set_plan(tin, "leek", 60, year=2028)
    coming = _only(tin).stays
    assert coming.by_plan == {1}
    assert coming.by_season[0] == household[0] and coming.by_season[1] != household[1]


def test_seed_for_plants_on_the_way_is_not_kept_again(planted: Planted) -> None:
    """A plan that is met this season wants seed for the next alone."""
    tin = planted({"crop_id": "leek", "variety": "Grey Mast"})
    set_plan(tin, "leek", 40)
    before = _only(tin).stays.by_season
    place = add_place(tin, "Bed", PlaceKind.BED, coolest_c=4, warmest_c=18)
    add_sowing(tin, tin.packets()[0], place, SowingDraft(cells=160, per_cell=1), today=TODAY)
    after = _only(tin).stays.by_season
    assert set(before) == {0, 1} and set(after) == {1}


def test_a_succession_keeps_seed_for_every_sowing(planted: Planted) -> None:
    tin = planted({"crop_id": "lettuce", "variety": "Quiet Morning", "amount": 3000.0})
    set_plan(tin, "lettuce", 12)
    once = _only(tin).kept_back
    set_plan(tin, "lettuce", 12, again_days=14)
    often = _only(tin).kept_back
    assert once is not None and often is not None and often > 5 * once


def test_packets_of_one_plan_share_it_older_good_seed_first(planted: Planted) -> None:
    tin = planted(
        {"crop_id": "leek", "variety": "Grey Mast", "harvest_year": 2024},
        {"crop_id": "leek", "variety": "Long Hill", "harvest_year": 2026},
    )
    old, young = tin.packets()
    record_test(tin, old, date(2027, 2, 1), 100, 90, today=TODAY)
    set_plan(tin, "leek", 40)
    found = _by_variety(tin)
    assert found["Grey Mast"].line.advice in ("sow", "use up")
    assert found["Grey Mast"].stays.sown and not found["Long Hill"].stays.sown
    assert "no plan counts on it" in found["Long Hill"].why
    record_test(tin, old, date(2027, 2, 2), 100, 40, today=TODAY)
    record_test(tin, young, date(2027, 2, 2), 100, 90, today=TODAY)
    assert _by_variety(tin)["Long Hill"].stays.sown  # the older seed is no longer good


def test_a_plan_of_a_variety_is_served_by_that_variety_alone(planted: Planted) -> None:
    tin = planted(
        {"crop_id": "leek", "variety": "Grey Mast"}, {"crop_id": "leek", "variety": "Long Hill"}
    )
    set_plan(tin, "leek", 40, variety="long hill")
    found = _by_variety(tin)
    assert found["Long Hill"].kept_back and not found["Grey Mast"].kept_back


@pytest.mark.parametrize("origin", [Origin.SAVED, Origin.SWAPPED, Origin.GIFT])
def test_the_last_seed_of_a_variety_that_nobody_sells_is_never_spare(
    planted: Planted, origin: Origin
) -> None:
    tin = planted({"crop_id": "cabbage", "variety": "Drover", "origin": origin, "amount": 40.0})
    set_plan(tin, "cabbage", 2)
    one = _only(tin)
    assert (one.portions, one.kept_back) == (0, 40)
    assert "never spare" in one.why
    sold = planted({"crop_id": "cabbage", "variety": "Drover", "amount": 40.0})
    set_plan(sold, "cabbage", 2)
    assert _only(sold).kept_back != 40


def test_of_a_saved_variety_with_plenty_enough_stays_to_grow_it_again(planted: Planted) -> None:
    tin = planted({"crop_id": "cabbage", "variety": "Drover", "origin": Origin.SAVED})
    set_plan(tin, "cabbage", 2)
    one = _only(tin)
    assert one.portions > 0
    assert one.kept_back is not None and 50 < one.kept_back < 500
    assert "grow the variety again" in one.why


def test_seed_for_a_test_stays_and_doubtful_seed_waits_for_a_word(planted: Planted) -> None:
    tin = planted({"crop_id": "lettuce", "variety": "Salt", "harvest_year": 2018})
    one = _only(tin)
    assert one.line.advice == "test"
    assert one.line.forecast is not None
    assert one.kept_back is not None and one.kept_back >= (one.line.forecast.test_seeds or 0) > 0
    assert one.portions == 0 and one.could_give > 0
    assert "tested" in one.held
    assert any("Doubtful seed" in caution for caution in one.offer.cautions)
    set_swap_choice(tin, one.line.packet, SwapWord.OFFER)
    assert _only(tin).portions == one.could_give


def test_seed_in_a_running_test_is_counted_once(planted: Planted) -> None:
    """Seed that was laid has left the packet by its journal, unless it was not taken from there."""
    tin = planted({"crop_id": "leek", "variety": "Grey Mast", "amount": 300.0})
    before = _only(tin)
    packet = before.line.packet
    start_test(tin, packet, TestPlan(20), today=TODAY)
    taken = _only(tin)
    assert (taken.seeds, taken.kept_back) == (280, before.kept_back)
    start_test(tin, packet, TestPlan(30), today=TODAY, take_from_packet=False)
    assert before.kept_back is not None
    assert _only(tin).kept_back == before.kept_back + 30


def test_spent_seed_is_given_to_nobody(planted: Planted) -> None:
    tin = planted({"crop_id": "onion_bulb", "variety": "Old Cellar", "harvest_year": 2005})
    one = _only(tin)
    assert (one.portions, one.could_give, one.offer.seeds_per_portion) == (0, 0, None)
    assert "given to nobody" in one.why
    set_swap_choice(tin, one.line.packet, SwapWord.OFFER)
    assert _only(tin).portions == 0


def test_poor_seed_says_that_it_is_poor(planted: Planted) -> None:
    tin = planted({"crop_id": "lettuce", "variety": "Salt"})
    packet = tin.packets()[0]
    record_test(tin, packet, date(2027, 2, 1), 100, 52, today=TODAY)
    one = _only(tin)
    assert one.portions > 0
    assert any("Poor seed" in caution and "75 %" in caution for caution in one.offer.cautions)
    known = one.offer.germination
    assert (known.tested_on, known.tested_seeds, known.germinated) == (date(2027, 2, 1), 100, 52)
    assert known.low is not None and known.mean is not None and known.high is not None
    assert known.low <= known.mean <= known.high


def test_untested_seed_says_so_and_keeps_its_printed_figure(planted: Planted) -> None:
    tin = planted({"crop_id": "leek", "printed_germination": 0.88, "printed_on": date(2026, 8, 1)})
    known = _only(tin).offer.germination
    assert known.tested_on is None
    assert (known.printed, known.printed_on) == (0.88, date(2026, 8, 1))


def test_the_best_known_year_goes_with_the_seed(planted: Planted) -> None:
    """Without one the receiver would take old seed for new."""
    for year in ({"harvest_year": 2024, "packed_year": 2025}, {"packed_year": 2025},
                 {"bought_year": 2025}):  # fmt: skip
        offer = _only(planted({"crop_id": "leek", "harvest_year": None, **year})).offer
        assert offer.year == ("2024" if "harvest_year" in year else "packed 2025")


def test_a_test_of_somebody_else_is_not_passed_on_as_ones_own(planted: Planted) -> None:
    tin = planted({"crop_id": "leek"})
    packet = tin.packets()[0]
    record_test(tin, packet, date(2027, 2, 1), 50, 45, today=TODAY, take_from_packet=False,
                reported_by="Ida")  # fmt: skip
    told = _only(tin).offer
    assert told.germination.germinated == 45
    assert any("not by me" in caution for caution in told.cautions)
    assert not any("Ida" in caution for caution in told.cautions)
    record_test(tin, packet, date(2027, 1, 1), 20, 17, today=TODAY)
    own = _only(tin).offer
    assert own.germination.germinated == 17
    assert not any("not by me" in caution for caution in own.cautions)


def test_what_cannot_be_told_has_a_sentence(planted: Planted) -> None:
    tin = planted(
        {"crop_id": "leek", "variety": "uncounted", "amount": None, "unit": None},
        {"crop_id": "thyme", "variety": "unweighed", "amount": 5.0, "unit": Unit.GRAMS},
        {"crop_id": "shallot", "variety": "sets", "kind": Kind.STOCK, "amount": 30.0},
        {"crop_id": "leek", "variety": "empty", "amount": 0.0},
    )
    found = _by_variety(tin)
    assert found.keys() == {"uncounted", "unweighed", "sets"}
    assert {one.portions for one in found.values()} == {0}
    assert {one.kept_back for one in found.values()} == {None}
    assert "seedbox recount" in found["uncounted"].why
    assert "weigh 100 seeds" in found["unweighed"].why
    assert "Planting stock" in found["sets"].why


def test_grams_are_told_in_seeds_and_a_portion_in_grams(planted: Planted) -> None:
    tin = planted({"crop_id": "pea_garden", "amount": 200.0, "unit": Unit.GRAMS})
    one = _only(tin)
    assert one.seeds is not None and one.grams_per_portion is not None
    assert one.offer.seeds_per_portion is not None
    each = one.grams_per_portion / one.offer.seeds_per_portion
    assert each == pytest.approx(200.0 / one.seeds, rel=0.01)
    assert one.why.startswith("About ")


@pytest.mark.parametrize(
    ("packet", "word"),
    [
        ({"crop_id": "pea_garden", "treatment": Treatment.DRESSED}, "treated"),
        ({"crop_id": "leek", "variety": "Slate PBR"}, "protected"),
        ({"crop_id": "larkspur"}, "poisonous"),
        ({"crop_id": "cabbage", "variety": "Slate F1", "origin": Origin.SAVED}, "hybrid"),
    ],
)
def test_what_a_caution_holds_back_waits_for_a_word(
    planted: Planted, packet: dict[str, Any], word: str
) -> None:
    tin = planted({"amount": 2000.0, **packet})
    one = _only(tin)
    assert one.portions == 0 and one.could_give > 0
    assert word in one.held and word in one.why
    set_swap_choice(tin, one.line.packet, SwapWord.OFFER, portions=1)
    offered = _only(tin)
    assert offered.portions == 1
    assert offered.offer.cautions == one.offer.cautions != ()


def test_a_kept_packet_is_not_offered_and_the_word_is_judged_alone(planted: Planted) -> None:
    tin = planted({"crop_id": "leek", "variety": "Grey Mast"})
    one = _only(tin)
    set_swap_choice(tin, one.line.packet, SwapWord.KEEP)
    kept = _only(tin)
    assert (kept.portions, kept.could_give) == (0, one.could_give)
    assert "as you said" in kept.why
    word = SwapChoice(0, one.line.packet.id, SwapWord.OFFER, 2)
    assert judged_again(Desk(tin, TODAY), one, word).portions == 2


def test_a_bought_hybrid_is_offered_as_such(planted: Planted) -> None:
    tin = planted({"crop_id": "cabbage", "variety": "Slate F1"})
    one = _only(tin)
    assert one.portions > 0 and one.offer.hybrid
    assert any("does not come true" in caution for caution in one.offer.cautions)


def test_invasive_kinds_wait_where_they_spread_and_carry_a_caution_elsewhere(
    planted: Planted,
) -> None:
    tin = planted({"crop_id": "fennel_herb", "amount": 2000.0})
    elsewhere = _only(tin)
    assert elsewhere.portions > 0
    assert any("Spreads into the wild" in caution for caution in elsewhere.offer.cautions)
    set_setting(tin, "swap_law", "us")
    there = _only(tin)
    assert there.portions == 0 and "invasive" in there.held


def test_a_garden_that_was_not_described_still_knows_what_is_spare(planted: Planted) -> None:
    tin = planted({"crop_id": "leek", "variety": "Grey Mast"}, described=False)
    set_plan(tin, "leek", 40, again_days=60)
    one = _only(tin)
    assert one.kept_back is not None and one.kept_back > 2 * 4 * 40
    desk = Desk(tin, TODAY)
    assert [use.plants for use in uses(desk)] == [160, 160]
    assert next_sowing_day(desk) > TODAY


def test_seed_of_a_place_without_frost_and_in_the_south(planted: Planted) -> None:
    tin = planted({"crop_id": "leek", "variety": "Grey Mast"})
    for latitude, frost in (("-37", "10-05"), ("10", "none")):
        set_setting(tin, "latitude", latitude)
        set_setting(tin, "last_spring_frost", frost)
        set_setting(tin, "first_autumn_frost", frost if frost == "none" else "05-20")
        assert _only(tin).portions > 0


def test_the_demo_has_something_to_give_and_reasons_for_all(demo: Tin) -> None:
    found = spare_of(demo, TODAY)
    assert sum(one.portions for one in found) > 50
    assert len(offers(found)) > 15
    for one in found:
        assert one.why.endswith("."), one.why
        if one.portions:
            assert one.seeds is not None and one.kept_back is not None
            given_away = one.portions * (one.offer.seeds_per_portion or 0)
            assert given_away + one.kept_back <= one.seeds, one.why
            assert one.line.advice != "spent"


@settings(
    max_examples=8,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(
    st.lists(
        st.tuples(
            st.sampled_from(("leek", "tomato", "cabbage")),
            st.sampled_from(("", "Grey Mast", "Long Hill")),
            st.integers(0, 400),
            st.integers(2018, 2026),
            st.sampled_from((Origin.BOUGHT, Origin.SAVED)),
        ),
        min_size=1,
        max_size=4,
    ),
    st.lists(st.tuples(st.sampled_from(("leek", "tomato")), st.integers(1, 60)), max_size=2),
)
def test_no_seed_comes_from_nowhere(
    planted: Planted, packets: list[tuple[Any, ...]], plans: list[tuple[str, int]]
) -> None:
    """Kept, given and left over are what is in the packet, whatever the tin and the plans."""
    names = ("crop_id", "variety", "amount", "harvest_year", "origin")
    told = [dict(zip(names, one, strict=True)) for one in packets]
    tin = planted(*(one | {"amount": float(one["amount"])} for one in told))
    for crop, plants in plans:
        set_plan(tin, crop, plants)
    for one in spare_of(tin, TODAY):
        assert one.seeds is not None and one.kept_back is not None
        assert 0 <= one.kept_back <= one.seeds
        assert 0 <= one.portions <= one.could_give
        size = one.offer.seeds_per_portion or 0
        assert one.could_give * size + one.kept_back <= one.seeds


def test_giving_away_lowers_what_is_spare_by_just_that(planted: Planted) -> None:
    tin = planted({"crop_id": "leek", "variety": "Grey Mast"})
    one = _only(tin)
    size = one.offer.seeds_per_portion or 0
    take(tin, one.line.packet, 2.0 * size, today=TODAY)
    after = _only(tin)
    assert after.could_give == one.could_give - 2
    desk = Desk(tin, TODAY)
    assert spare(desk, tin)[0].offer == replace(after.offer)
