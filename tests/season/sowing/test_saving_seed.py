"""Seed saving: what comes true, drying by the balance of matter, a packet with a parent."""

from __future__ import annotations

import doctest
from collections.abc import Callable
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox.errors import BadDataError
from seedbox.science import drying as science
from seedbox.season.sowing.desk import Desk
from seedbox.season.sowing.new_seed import DRYING_CAUTIONS, drying, save_seed
from seedbox.season.sowing.saving_seed import ComesTrue, SavingAdvice, saving_advice
from seedbox.season.sowing.sow import Wish, sow
from seedbox.tin.file import Tin
from seedbox.tin.plans import set_plan
from seedbox.tin.records import Origin

Planted = Callable[..., Tin]
DAY = date(2027, 3, 1)


def advice(tin: Tin) -> dict[tuple[str, str], SavingAdvice]:
    return {(one.crop_id, one.variety): one for one in saving_advice(Desk(tin, DAY))}


def test_selfing_crops_come_true_and_crossing_ones_need_care(planted: Planted) -> None:
    tin = planted()
    for crop, plants in (("lettuce", 12), ("carrot", 120), ("bean_french_dwarf", 4)):
        set_plan(tin, crop, plants)
    found = advice(tin)
    assert found["lettuce", ""].verdict is ComesTrue.YES
    assert found["carrot", ""].verdict is ComesTrue.WITH_CARE
    assert (found["lettuce", ""].year, found["carrot", ""].year) == (2027, 2028)
    assert found["lettuce", ""].enough_plants
    assert not found["bean_french_dwarf", ""].enough_plants  # ten are wanted
    assert found["carrot", ""].ripe


def test_crops_of_one_species_cross_whatever_they_are_called(planted: Planted) -> None:
    tin = planted()
    for crop in ("beetroot", "chard", "kale", "cabbage", "swede"):
        set_plan(tin, crop, 60)
    found = advice(tin)
    assert found["beetroot", ""].verdict is ComesTrue.NO
    assert found["beetroot", ""].crosses_with == ("chard",)
    assert found["kale", ""].crosses_with == ("cabbage",)
    assert found["swede", ""].verdict is ComesTrue.WITH_CARE


def test_two_varieties_of_a_crossing_crop_are_told_even_when_only_sown(planted: Planted) -> None:
    tin = planted(crops=("kale",))
    set_plan(tin, "kale", 60, variety="Rook")
    assert advice(tin)["kale", "Rook"].verdict is ComesTrue.WITH_CARE
    sow(tin, tin.packets()[0].code, "Windowsill", Wish(plants=5), today=DAY)
    assert advice(tin)["kale", "Rook"].verdict is ComesTrue.NO


def test_new_seed_is_linked_to_its_parent_packet(planted: Planted) -> None:
    tin = planted(crops=("lettuce",))
    parent = tin.packets()[0]
    made = sow(tin, parent.code, "Windowsill", Wish(plants=12), today=DAY)
    autumn = date(2027, 9, 20)
    child = save_seed(tin, made.sowing.code, today=autumn, amount=900, store="Jar")
    assert (child.parent_id, child.crop_id, child.origin) == (parent.id, "lettuce", Origin.SAVED)
    assert (child.harvest_year, child.received_on) == (2027, autumn)
    assert made.sowing.code[:4] in child.note
    assert tin.dossier(child.code).left == 900
    other = save_seed(tin, parent.code, today=autumn, variety="Weir cross")
    assert (other.parent_id, other.variety) == (parent.id, "Weir cross")
    with pytest.raises(BadDataError, match="still to come"):
        save_seed(tin, parent.code, today=autumn, harvest_year=2031)


# --- Drying --------------------------------------------------------------------------------------
def test_examples() -> None:
    result = doctest.testmod(science)
    assert result.attempted > 0
    assert result.failed == 0


def test_water_against_a_worked_balance() -> None:
    # Worked by hand: 100 g at 14 % hold 86 g of dry matter; at 5 % that weighs 86 / 0.95 = 90.53 g.
    assert science.water_to_remove(100, 14, 5) == pytest.approx(100 - 86 / 0.95)


@given(seed=st.floats(0, 5000), moisture=st.floats(0, 60), target=st.floats(0, 40))
def test_dry_matter_stays(seed: float, moisture: float, target: float) -> None:
    water = science.water_to_remove(seed, moisture, target)
    assert 0 <= water <= seed
    if moisture > target:
        dry = seed * (1 - moisture / 100)
        assert (seed - water) * (1 - target / 100) == pytest.approx(dry)


def test_the_target_is_that_of_sealed_packets_and_gel_comes_with_cautions() -> None:
    lettuce = drying("lettuce", 20.0)
    # 7 CFR 201.36c: lettuce may be sealed at 5.5 % at most.
    assert lettuce.target == 5.5
    assert lettuce.gel_g == pytest.approx(lettuce.water_g / science.GEL_HOLDS)
    assert "7 CFR" in lettuce.source
    assert lettuce.cautions == DRYING_CAUTIONS
    text = " ".join(lettuce.cautions)
    for word in ("dust", "cobalt", "children", "warmed"):
        assert word in text
    unknown = drying("own:skirret", 20.0)
    assert "no source" in unknown.source
