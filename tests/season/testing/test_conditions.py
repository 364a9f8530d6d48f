"""Conditions of a test: the rules where they name the crop, and what stands in where not."""

from __future__ import annotations

from math import ceil

import pytest

from seedbox import almanac
from seedbox.season.testing.conditions import conditions
from seedbox.season.testing.directions import handling
from seedbox.season.testing.seedlings import HARD, normal_seedling, other_categories
from seedbox.season.testing.warmth import Warmth, keeping_sentences, parse_warmth, place_words

CROPS = [crop.id for crop in almanac.crops()]


# Lettuce: 7 CFR 201.58, from memory: 20 C, last count on day 7. Tomato and carrot: ISTA Rules
# table 5A, from memory: 20-30 C, counts on 5 and 14, 7 and 14.
@pytest.mark.parametrize(
    ("crop", "region", "warmth", "first", "final"),
    [
        ("lettuce", "us", Warmth(20), 2, 7),
        ("lettuce", "eu", Warmth(20), 4, 7),
        ("tomato", "eu", Warmth(30, 20), 5, 14),
        ("carrot", "eu", Warmth(30, 20), 7, 14),
    ],
)
def test_the_rules_of_the_region_come_first(
    crop: str, region: str, warmth: Warmth, first: int, final: int
) -> None:
    found = conditions(crop, "", region)
    assert found.warmth[0] == warmth
    assert (found.first_count_day, found.final_count_day) == (first, final)
    assert "rules for testing" in found.basis or "international rules" in found.basis
    assert found.basis.count("from memory") == 1


def test_without_rules_the_days_to_emerge_stand_in_and_it_is_said() -> None:
    emergence = almanac.growing("cosmos")["emerge_days"]
    found = conditions("cosmos", "Asteraceae", "eu")
    assert found.first_count_day == emergence.low
    assert found.final_count_day == ceil(1.5 * (emergence.high or 0))
    assert "No rules name this crop" in found.basis
    assert emergence.value in found.basis


def test_a_person_s_own_days_go_first() -> None:
    found = conditions("cosmos", "Asteraceae", "eu", {"emerge_days": "8-20"})
    assert (found.first_count_day, found.final_count_day) == (8, 30)
    assert "your own figure" in found.basis


def test_an_own_crop_rests_on_its_family_and_says_so() -> None:
    found = conditions("own:sea-kale", "Brassicaceae", "eu")
    assert (found.first_count_day, found.final_count_day) == (5, 10)  # as nearly all of it
    assert "its family, Brassicaceae" in found.basis


def test_of_an_unknown_crop_nothing_is_pretended() -> None:
    found = conditions("own:thing", "", "eu")
    assert "Nothing is known" in found.basis


@pytest.mark.parametrize("region", ["eu", "us"])
def test_every_crop_has_conditions_that_a_test_can_keep(region: str) -> None:
    for crop_id in CROPS:
        found = conditions(crop_id, almanac.crop(crop_id).family, region)
        assert 1 <= found.first_count_day < found.final_count_day <= 120, crop_id
        assert all(5 <= each.mean_c <= 33 for each in found.warmth), crop_id
        assert found.basis.endswith("."), crop_id


def test_every_direction_of_the_rules_is_put_into_words_or_is_for_a_laboratory() -> None:
    for crop_id in CROPS:
        for rules in almanac.test_conditions(crop_id):
            handled = handling(crop_id, rules.directions)
            said = " ".join((*handled.before, *handled.during))
            for word, answer in (("chill", "half year"), ("soak", "Soak"), ("wash", "Rinse")):
                assert word not in rules.directions or answer in said, (crop_id, rules.directions)
            assert "dry side" not in rules.directions or "only just damp" in said
            assert handled.light is True or "light" not in rules.directions


def test_coated_seed_is_not_soaked() -> None:
    assert any(
        "Soak" in each for each in handling("beetroot", "presoak/rinse seed balls 2 h").before
    )
    coated = handling("beetroot", "presoak/rinse seed balls 2 h", may_soak=False).before
    assert not any(each.startswith("Soak") for each in coated)
    assert any("coated" in each for each in coated)


def test_alternating_warmth_is_explained_for_a_home() -> None:
    first, steady = parse_warmth("20-30; 25")
    said = " ".join(keeping_sentences(first, (steady,)))
    assert "30 °C by day and 20 °C by night" in said
    assert "steady 25 °C" in said
    # 8 warm hours of 24: the mean of 30 and twice 20.
    assert first.mean_c == pytest.approx((30 + 2 * 20) / 3)
    assert place_words(20) != place_words(30)


def test_a_beet_cluster_counts_once() -> None:
    """7 CFR 201.56-1: a cluster with one normal seedling is one normal."""
    assert any("cluster counts once" in each for each in normal_seedling("beetroot"))
    assert not any("cluster" in each for each in normal_seedling("spinach"))
    assert not any("cluster" in each for each in normal_seedling("tomato"))


def test_hard_seed_is_told_where_it_is_usual() -> None:
    assert HARD in other_categories(almanac.crop("pea_garden").family)
    assert HARD not in other_categories(almanac.crop("tomato").family)
    assert HARD in other_categories("")  # an own crop of no known family


@pytest.mark.parametrize("crop_id", CROPS)
def test_a_normal_seedling_is_described_for_every_crop(crop_id: str) -> None:
    said = normal_seedling(crop_id)
    groups = [rule for rule in almanac.seedling_rules(crop_id) if rule.group != "general"]
    assert len(said) >= (3 if groups else 2)
    assert all(sentence.count("from memory") <= 1 for sentence in said)
