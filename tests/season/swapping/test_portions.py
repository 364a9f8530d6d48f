"""How much a swap portion is: against the binomial distribution and published plant numbers."""

from __future__ import annotations

import pytest
from scipy.stats import binom

from seedbox import almanac
from seedbox.science.chances import Chances
from seedbox.science.lattice import LOWEST, PER_PROBIT, POINTS
from seedbox.season.sowing.desk import few_nodes
from seedbox.season.sowing.how_many import chances_here
from seedbox.season.swapping.portions import (
    HOUSEHOLD_PLANTS,
    MOST_PLANTS,
    MOST_SEEDS,
    MOST_SEEDS_A_PLANT,
    least_plants,
    portion,
    portion_plants,
)
from seedbox.season.testing.wanted import plants_wanted
from seedbox.tin.preferences import Settings


def _lot(probits: float) -> Chances:
    """A lot whose germination is known, in a place of which nothing is."""
    masses = [0.0] * POINTS
    masses[round((probits - LOWEST) * PER_PROBIT)] = 1.0
    return few_nodes(chances_here(masses))


@pytest.mark.parametrize(
    ("crop", "plants"),
    [
        # From the seed-saving chart that the almanac names as its source, seen.
        ("radish", 50),
        ("pea_garden", 25),
        ("tomato", 10),
        ("cucumber", 10),
        # From memory: the usual numbers of handbooks on seed saving.
        ("leek", 20),
        ("carrot", 40),
    ],
)
def test_a_portion_gives_as_many_plants_as_seed_is_saved_from(crop: str, plants: int) -> None:
    assert portion_plants(crop).plants == plants
    assert least_plants(crop) == plants


def test_a_portion_is_for_one_household_and_its_reason_says_so_beyond() -> None:
    # Sweetcorn is saved from 100 plants or more (the same chart, seen): two portions.
    maize = portion_plants("sweet_corn")
    assert maize.plants == MOST_PLANTS
    assert "take 2 portions" in maize.why
    assert least_plants("sweet_corn") == 100


def test_every_crop_has_a_portion_with_a_source_within_the_caps() -> None:
    for crop in almanac.crops():
        one = portion_plants(crop.id)
        home = plants_wanted(crop.id, Settings(), {})
        assert min(home, HOUSEHOLD_PLANTS) <= one.plants <= MOST_PLANTS, crop.id
        assert one.source and one.why, crop.id


def test_a_crop_that_nobody_knows_gets_a_household_portion() -> None:
    assert portion_plants("own:skirret").plants == 12  # common practice, no source


def test_seeds_are_at_least_what_the_binomial_asks_and_can_be_counted_out() -> None:
    """Even where every seed that germinates came up, fewer seeds would not be sure enough."""
    germination = 0.8413  # one probit above the middle (tables of the normal distribution)
    found = portion("leek", _lot(1.0), 0.9)
    sure = next(n for n in range(20, 200) if binom.sf(19, n, germination) >= 0.9)
    assert sure <= found.seeds <= MOST_SEEDS_A_PLANT * 20
    assert found.seeds % 5 == 0
    assert "90 % sure" in found.why and "20 plants" in found.why


def test_poorer_seed_makes_a_larger_portion_up_to_the_cap() -> None:
    sizes = [portion("kale", _lot(probits), 0.9).seeds for probits in (2.0, 1.0, 0.0, -1.0)]
    assert sizes == sorted(sizes) and sizes[0] < sizes[-1]
    assert sizes[-1] == MOST_SEEDS_A_PLANT * 50
    assert "likely, not sure" in portion("kale", _lot(-1.0), 0.9).why
    assert max(portion(c.id, _lot(-1.0), 0.9).seeds for c in almanac.crops()[::9]) <= MOST_SEEDS
