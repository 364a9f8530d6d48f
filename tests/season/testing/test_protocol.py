"""The protocol of a test, and starting one with it."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from seedbox import almanac
from seedbox.errors import BadDataError
from seedbox.season.testing.protocol import (
    GLOVES,
    NO_SPROUTS,
    NOT_FOOD,
    Protocol,
    Subject,
    Wishes,
    protocol,
    usual_replicates,
)
from seedbox.season.testing.starting import grams_for, protocol_of, seeds_in, start
from seedbox.tin.file import Tin
from seedbox.tin.own import add_own_crop, set_own_figure
from seedbox.tin.packets import PacketDraft, add_packet
from seedbox.tin.quantity import left
from seedbox.tin.records import Kind, Packet, Substrate, TestState, Treatment, Unit

DAY = date(2027, 2, 1)


def of(crop_id: str, treatment: Treatment = Treatment.NONE, **wishes: object) -> Protocol:
    packet = Packet(1, "P7EBJADP", crop_id, treatment=treatment)
    crop = almanac.crop(crop_id)
    asked = Wishes(**{"seeds": 20, **wishes})  # type: ignore[arg-type]
    return protocol(Subject(packet, crop.name_gb, crop.family, {}), "eu", asked, DAY)


def said(found: Protocol, title: str = "") -> str:
    wanted = [each for each in found.sections if not title or each.title == title]
    return " ".join(sentence for each in wanted for sentence in each.sentences)


def test_counts_have_days_and_dates() -> None:
    found = of("tomato")
    assert found.counts[0] == (5, date(2027, 2, 6))
    assert found.counts[-1] == (14, date(2027, 2, 15))
    assert (found.first_count, found.final_count) == (date(2027, 2, 6), date(2027, 2, 15))
    assert "day 5, 6 February" in said(found, "Count")
    assert "15 February" in said(found, "Stop")


def test_the_plan_is_what_the_protocol_says() -> None:
    plan = of("tomato", seeds=50).plan
    assert (plan.seeds, plan.replicates, plan.substrate) == (50, 2, Substrate.PAPER)
    assert (plan.temperature_c, plan.night_c) == (30, 20)
    assert (plan.first_count_day, plan.final_count_day) == (5, 14)


def test_seed_that_needs_light_is_not_folded_in() -> None:
    assert "daylight" in said(of("celery"), "Lay")
    assert "fold" not in said(of("celery"), "Lay")
    assert "fold" in said(of("radish"), "Lay")


def test_replicates_are_told_and_hold_all_seeds() -> None:
    assert "2 replicates of 22 or 23" in said(of("radish", seeds=45), "Lay")
    assert "replicates" not in said(of("radish", seeds=20), "Lay")
    assert [usual_replicates(seeds) for seeds in (10, 40, 100, 400)] == [1, 2, 4, 4]


def test_sand_and_mix_have_their_own_words() -> None:
    assert "sand" in said(of("pea_garden", substrate=Substrate.SAND), "Lay")
    assert "seed mix" in said(of("pea_garden", substrate=Substrate.MIX), "Lay")


def test_another_warmth_is_taken_and_what_it_does_is_said() -> None:
    found = of("lettuce", temperature_c=30.0)
    assert (found.plan.temperature_c, found.plan.night_c) == (30, None)
    assert "The usual is 20 °C" in said(found, "Keep")
    assert "badly in such warmth" in said(found, "Keep")
    assert "later" in said(of("tomato", temperature_c=15.0), "Keep")
    assert "The usual" not in said(of("lettuce"), "Keep")


def test_treated_seed_wants_gloves_and_is_never_eaten() -> None:
    found = of("pea_garden", Treatment.DRESSED)
    assert GLOVES in found.cautions
    assert found.cautions[0].startswith("Treated seed: not for eating")
    assert NOT_FOOD in found.cautions
    assert GLOVES not in of("pea_garden").cautions


def test_poisonous_kinds_and_raw_beans_have_their_caution() -> None:
    assert any(each.startswith("Poisonous") for each in of("foxglove").cautions)
    assert NO_SPROUTS in of("foxglove").cautions
    assert any("raw" in each for each in of("bean_runner").cautions)
    assert NO_SPROUTS not in of("carrot").cautions


@pytest.mark.parametrize("crop_id", [crop.id for crop in almanac.crops()])
def test_every_crop_has_a_whole_protocol(crop_id: str) -> None:
    titles = [section.title for section in of(crop_id).sections]
    assert [t for t in titles if t != "Before"] == [
        "Lay", "Keep", "Count", "Germinated", "Apart", "Stop", "Rests on",
    ]  # fmt: skip


def test_starting_takes_the_seeds_and_writes_the_protocol_down(
    tin: Tin, doubtful: Packet, today: date
) -> None:
    found = start(tin, doubtful.code, Wishes(25, note="top shelf"), today=today)
    assert (found.test.state, found.test.seeds) == (TestState.RUNNING, 25)
    assert (found.test.first_count_day, found.test.final_count_day) == (7, 14)
    assert found.test.note == "top shelf"
    assert left(tin, doubtful) == 875
    assert len(tin.history()) == 3  # store, packet, test


def test_too_few_seeds(tin: Tin, today: date) -> None:
    packet = add_packet(tin, PacketDraft("leek", amount=12), today=today)
    with pytest.raises(BadDataError, match="has only 12 seeds left"):
        start(tin, packet.code, Wishes(20), today=today)


def test_grams_follow_from_the_thousand_seed_weight(tin: Tin, today: date) -> None:
    packet = add_packet(tin, PacketDraft("leek", amount=5, unit=Unit.GRAMS), today=today)
    weight = almanac.thousand_seed_weight_g("leek")
    assert weight is not None
    found = start(tin, packet.code, Wishes(50), today=today)
    assert found.grams == pytest.approx(0.05 * weight.grams)
    assert left(tin, packet) == pytest.approx(5 - 0.05 * weight.grams, abs=1e-6)
    assert seeds_in(tin, packet, 0.05 * weight.grams) == pytest.approx(50)
    set_own_figure(tin, "leek", "thousand_seed_weight_g", "4")
    assert grams_for(tin, packet, 50) == pytest.approx(0.2)
    assert start(tin, packet.code, Wishes(50), today=today, grams=0.3).grams == 0.3
    with pytest.raises(BadDataError, match="left"):
        start(tin, packet.code, Wishes(50), today=today, grams=30)


def test_grams_of_a_crop_without_a_weight(tin: Tin, today: date) -> None:
    own = add_own_crop(tin, "Sea kale", family="Brassicaceae")
    packet = add_packet(tin, PacketDraft(own.id, amount=5, unit=Unit.GRAMS), today=today)
    with pytest.raises(BadDataError, match="nobody knows what a thousand"):
        start(tin, packet.code, Wishes(50), today=today)
    assert tin.tests(state=None) == []
    assert start(tin, packet.code, Wishes(50), today=today, grams=1).test.final_count_day == 10


def test_planting_stock_has_no_protocol(tin: Tin, today: date) -> None:
    sets = add_packet(tin, PacketDraft("shallot", kind=Kind.STOCK), today=today)
    with pytest.raises(BadDataError, match="planting stock"):
        protocol_of(tin, sets, Wishes(10), today + timedelta(days=0))
