"""Cautions when seed is passed on: by setting, never advice, and always with the local law."""

from __future__ import annotations

import pytest

from seedbox import almanac
from seedbox.almanac import Mark, PassingRule
from seedbox.season.swapping.cautions import (
    CHECK,
    HYBRID,
    SMALL_LOT_GRAMS,
    SMALL_LOT_SEEDS,
    law_cautions,
    passing,
    small_lot_caution,
)
from seedbox.tin.preferences import parse_setting
from seedbox.tin.records import Origin, Packet, Treatment

LAWS = ("eu", "gb", "us", "other")


@pytest.mark.parametrize("law", LAWS)
def test_every_law_that_the_setting_knows_ends_in_ones_own_law(law: str) -> None:
    assert parse_setting("swap_law", law) == law
    said = law_cautions(law)
    assert said[-1] == CHECK and "no legal advice" in CHECK
    assert any("border" in sentence for sentence in said)
    assert any("leave" in sentence for sentence in said)


def test_the_american_rules_are_those_that_were_read() -> None:
    """USDA APHIS 2006: small lots of at most 50 seeds or 10 g; West Virginia Code 19-16-5a."""
    assert (SMALL_LOT_SEEDS, SMALL_LOT_GRAMS) == (50, 10.0)
    said = " ".join(law_cautions("us"))
    assert "50 seeds or 10 g" in said and "APHIS 2006" in said
    label = ("variety", "treated or not", "reference number", "name and town", "month and year")
    assert all(word in said for word in label) and "19-16-5a" in said


@pytest.mark.parametrize(
    ("seeds", "grams", "told"),
    [(50, 100.0, False), (51, 9.9, False), (51, 10.1, True), (60, None, True)],
)
def test_a_small_lot_is_at_most_fifty_seeds_or_ten_grams(
    seeds: int, grams: float | None, told: bool
) -> None:
    assert bool(small_lot_caution("us", seeds, grams)) is told
    assert small_lot_caution("eu", seeds, grams) == ""


def test_plant_passports_are_told_where_they_are_asked_for() -> None:
    def told(law: str) -> bool:
        said = passing(Packet(1, "", "tomato"), "tomato", law).cautions
        return any("passport" in sentence for sentence in said)

    assert told("gb") and told("eu") and not told("us") and not told("other")


@pytest.mark.parametrize("treatment", [Treatment.DRESSED, Treatment.PELLETED, Treatment.PRIMED])
def test_what_was_done_to_seed_is_said_first(treatment: Treatment) -> None:
    found = passing(Packet(1, "", "leek", treatment=treatment), "leek", "other")
    first = {"dressed": "Treated", "pelleted": "Pelleted", "primed": "Primed"}[treatment.value]
    assert found.cautions[0].startswith(f"{first} seed")
    assert bool(found.held) is (treatment is Treatment.DRESSED)


@pytest.mark.parametrize(
    ("variety", "note", "hybrid"),
    [
        ("Slate F1", "", True),
        ("Slate", "an F1 hybrid", True),
        ("F1 Slate", "", True),
        ("Slate", "not a hybrid, open pollinated", False),
        ("Slate F10", "", False),
        ("Slate", "", False),
    ],
)
def test_hybrids_are_known_by_the_words_on_the_packet(
    variety: str, note: str, hybrid: bool
) -> None:
    packet = Packet(1, "", "cabbage", variety, note=note, origin=Origin.BOUGHT)
    assert (HYBRID in passing(packet, "cabbage", "other").cautions) is hybrid


def test_grave_poison_is_held_back_and_beans_are_not() -> None:
    assert passing(Packet(1, "", "castor_bean"), "castor oil plant", "eu").held
    beans = passing(Packet(1, "", "bean_runner"), "runner bean", "eu")
    assert not beans.held and any("raw" in one.casefold() for one in beans.cautions)


def test_the_lists_make_cautions_and_never_an_all_clear() -> None:
    """Every entry is from memory, and says so where it is told."""
    for crop in almanac.crops():
        for entry in almanac.passing_on(crop.id):
            assert entry.law in LAWS and entry.mark is Mark.MEMORY and entry.source
            said = passing(Packet(1, "", crop.id), crop.name("eu"), entry.law).cautions
            assert any("from memory" in sentence for sentence in said), crop.id
            if entry.rule is PassingRule.INVASIVE:
                assert entry.where and passing(Packet(1, "", crop.id), "", entry.law).held
