"""A sample of figures against the numbers as they were published, written out here."""

from __future__ import annotations

import doctest

import pytest

from seedbox import almanac

# 7 CFR 201.31, germination standards for vegetable seed (59 FR 64491, Dec. 14, 1994).
US = {
    "artichoke_globe": 60,
    "asparagus": 70,
    "bean_french_dwarf": 70,
    "bean_french_climbing": 70,
    "bean_yardlong": 75,
    "beetroot": 65,
    "carrot": 55,
    "celery": 55,
    "collards": 80,
    "cucumber": 80,
    "aubergine": 60,
    "komatsuna": 75,
    "leek": 60,
    "lettuce": 80,
    "okra": 50,
    "onion_bulb": 70,
    "parsnip": 60,
    "pea_garden": 80,
    "pepper_chilli": 55,
    "spinach": 60,
    "spinach_nz": 40,
    "swede": 75,
    "sweet_corn": 75,
    "tomato": 75,
    "turnip": 80,
    "watercress": 40,
    "watermelon": 70,
}

# Council Directive 2002/55/EC, Annex II, point 3(a).
EU = {
    "onion_bulb": 70,
    "leek": 65,
    "chervil": 70,
    "celery": 70,
    "beetroot": 50,
    "chard": 70,
    "spinach_beet": 70,
    "cauliflower": 70,
    "cabbage": 75,
    "kale": 75,
    "turnip": 80,
    "pepper_sweet": 65,
    "endive": 65,
    "watermelon": 75,
    "cucumber": 80,
    "squash_winter": 80,
    "courgette": 75,
    "carrot": 65,
    "lettuce": 75,
    "tomato": 75,
    "bean_runner": 80,
    "bean_french_dwarf": 75,
    "pea_garden": 80,
    "radish": 70,
    "scorzonera": 70,
}


@pytest.mark.parametrize(("region", "published"), [("us", US), ("eu", EU)])
def test_minimum_standards(region: str, published: dict[str, int]) -> None:
    for crop_id, percent in published.items():
        found = almanac.standard(crop_id, region)
        assert found is not None
        assert found.fraction == pytest.approx(percent / 100), crop_id
        assert found.mark is almanac.Mark.SEEN


def test_states_add_herbs_and_flowers_but_never_overrule_federal_law() -> None:
    """N.H. Admin. Code Agr 2203.01 (rosemary 30, sage 60); Ohio Admin. Code 901:5-27-08."""
    for crop_id, percent, where in (
        ("rosemary", 30, "N.H."),
        ("coriander", 70, "N.H."),
        ("calendula", 65, "Ohio"),
        ("balsam", 70, "Ohio"),
        ("aquilegia", 50, "Virginia"),
        ("sage", 60, "7 CFR 201.31"),
        ("sorrel", 65, "7 CFR 201.31"),
    ):
        found = almanac.standard(crop_id, "us")
        assert found is not None
        assert found.fraction == pytest.approx(percent / 100)
        assert where in found.source


def test_no_law_is_no_standard() -> None:
    """Rules for kinds that no list names are shown by themselves, and settle no crop."""
    assert almanac.standard("zinnia", "us") is None
    assert almanac.standard("basil", "eu") is None
    assert almanac.standard("own:oca", "eu") is None
    assert {each.fraction for each in almanac.residual_standards()} == {0.5}


# Harrington & Minges 1954: crop, temperature C, days to emergence, % normal seedlings.
EMERGENCE = [
    ("lettuce", 25, 2, 99),
    ("lettuce", 30, 3, 12),
    ("lettuce", 0, 49, 98),
    ("spinach", 15, 7, 82),
    ("spinach", 25, 5, 28),
    ("parsnip", 0, 172, 82),
    ("onion_bulb", 10, 13, 98),
    ("asparagus", 10, 53, 61),
    ("beetroot", 5, 42, 53),
]


@pytest.mark.parametrize(("crop_id", "celsius", "days", "percent"), EMERGENCE)
def test_emergence_table(crop_id: str, celsius: int, days: float, percent: float) -> None:
    cell = next(c for c in almanac.emergence(crop_id) if c.temperature_c == celsius)
    assert cell.days == days
    assert cell.normal == pytest.approx(percent / 100)


def test_not_tested_is_not_the_same_as_none_came_up() -> None:
    """Harrington & Minges 1954: cabbage at 0 C was not tested, asparagus at 0 C came not up."""
    assert almanac.emergence("cabbage")[0].outcome is almanac.Outcome.NOT_TESTED
    assert almanac.emergence("asparagus")[0].outcome is almanac.Outcome.NONE


# Royal Botanic Gardens Kew, Seed Information Database: thousand-seed weight, g.
KEW = {
    "tomato": 1.97,
    "bean_broad": 921,
    "leek": 2.7,
    "nasturtium": 146.7,
    "begonia_wax": 0.00948,
    "lettuce": 1.0,
    "parsley": 1.6,
    "castor_bean": 295.6,
}


def test_seed_weights() -> None:
    for crop_id, grams in KEW.items():
        found = almanac.thousand_seed_weight_g(crop_id)
        assert found is not None
        assert found.grams == grams
        assert found.mark is almanac.Mark.SEEN


def test_seed_weight_from_seeds_per_gram() -> None:
    """7 CFR 201.46 (from memory): broccoli 315 seeds per gram, swede 430."""
    for crop_id, per_gram in (("broccoli_calabrese", 315), ("swede", 430)):
        found = almanac.thousand_seed_weight_g(crop_id)
        assert found is not None
        assert found.grams == pytest.approx(1000 / per_gram)
        assert found.mark is almanac.Mark.MEMORY


def test_weights_that_look_wrong_are_not_used() -> None:
    """Kew's 1.4 g for thyme and 28.74 g for statice: too heavy, or fruit clusters."""
    assert almanac.thousand_seed_weight_g("thyme") is None
    assert almanac.thousand_seed_weight_g("statice") is None
    shown = [f for f in almanac.figures("thyme") if f.name == "thousand-seed weight"]
    assert shown[0].note.startswith("not used")


def test_clusters_are_called_clusters() -> None:
    found = almanac.thousand_seed_weight_g("beetroot")
    assert found is not None
    assert "cluster" in found.note


def test_moisture_in_sealed_packets() -> None:
    """7 CFR 201.36c."""
    published = {"onion_bulb": 6.5, "pea_garden": 7, "pepper_sweet": 4.5, "sweet_corn": 8}
    for crop_id, percent in published.items():
        found = almanac.sealed_packet_moisture(crop_id)
        assert found is not None
        assert found.percent == percent
    assert almanac.sealed_packet_moisture("zinnia") is None


@pytest.mark.parametrize(
    ("initial", "below"),
    [(1.0, 0.85), (0.99, 0.84), (0.95, 0.81), (0.90, 0.77), (0.88, 0.75), (0.85, 0.72)],
)
def test_regeneration(initial: float, below: float) -> None:
    """Rao et al. 2006, Manual of Seed Handling in Genebanks, Table 8.2."""
    assert almanac.regeneration_threshold(initial) == pytest.approx(below)


def test_regeneration_below_the_table() -> None:
    """The rule behind the table: 85 % of the initial value."""
    assert almanac.regeneration_threshold(0.6) == pytest.approx(0.51)


def test_soil_temperatures() -> None:
    """Harrington, as given by Oregon State University Extension (2013): 50, 60-85, 85, 95 F."""
    found = almanac.soil_temperature("tomato")
    assert found is not None
    fahrenheit = (50, 60, 85, 85, 95)
    celsius = tuple((f - 32) / 1.8 for f in fahrenheit)
    assert (
        found.minimum_c,
        found.optimum_low_c,
        found.optimum_high_c,
        found.optimum_c,
        found.maximum_c,
    ) == pytest.approx(celsius, abs=0.06)


def test_heat_sums_prefer_the_fit_to_the_measured_table() -> None:
    """Bierhuizen & Wagenvoort 1974 (from memory): carrot 1.3 C, 170 C days; purslane 11, 48."""
    carrot = almanac.thermal_time("carrot")
    assert [each.mark for each in carrot] == [almanac.Mark.COMPUTED, almanac.Mark.MEMORY]
    assert (carrot[1].base_c, carrot[1].degree_days) == (1.3, 170)
    purslane = almanac.thermal_time("purslane")
    assert (purslane[0].base_c, purslane[0].degree_days) == (11.0, 48)


def test_test_conditions_of_the_region_come_first() -> None:
    """7 CFR 201.58 Table 2: lettuce 20 C, final count day 7; parsnip 6 and 28 (from memory)."""
    american = almanac.test_conditions("parsnip", "us")
    assert [each.rules for each in american] == ["us", "eu"]
    assert (american[0].first_count_day, american[0].final_count_day) == (6, 28)
    assert almanac.test_conditions("parsnip", "eu")[0].rules == "eu"
    lettuce = almanac.test_conditions("lettuce", "us")[0]
    assert (lettuce.temperature_c, lettuce.first_count_day, lettuce.final_count_day) == (
        "20",
        None,
        7,
    )


def test_growing_figures_keep_their_own_marks() -> None:
    """Colorado State GardenNotes 720: kohlrabi 13 mm; Iowa State: lisianthus 14 weeks."""
    kohlrabi, lisianthus = almanac.growing("kohlrabi"), almanac.growing("lisianthus")
    assert (kohlrabi["depth_mm"].low, kohlrabi["depth_mm"].mark) == (13, almanac.Mark.SEEN)
    assert kohlrabi["row_spacing_cm"].mark is almanac.Mark.MEMORY
    assert lisianthus["weeks_to_transplant"].high == 14
    assert lisianthus["indoor_sow_week"].mark is almanac.Mark.COMPUTED
    assert lisianthus["weeks_to_transplant"].mark is almanac.Mark.SEEN


def test_seed_saving() -> None:
    """UC ANR: beans 6 m; 7 CFR 201.76: buckwheat 660 ft."""
    assert almanac.seed_saving("bean_french_dwarf")["isolation_m"].low == 6
    buckwheat = almanac.seed_saving("buckwheat")
    assert buckwheat["isolation_m"].low == pytest.approx(660 * 0.3048, abs=0.5)
    assert buckwheat["isolation_m"].mark is almanac.Mark.SEEN
    assert buckwheat["mating"].mark is almanac.Mark.MEMORY


def test_examples_in_the_code_hold() -> None:
    from seedbox.almanac import testing

    outcome = doctest.testmod(testing)
    assert outcome.attempted
    assert not outcome.failed
