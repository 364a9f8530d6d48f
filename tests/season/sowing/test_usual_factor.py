"""Emergence in the open ground against the published ratios to the laboratory."""

from __future__ import annotations

import pytest

from seedbox import almanac
from seedbox.science.chances import certain, with_shares
from seedbox.science.emergence_factor import prior_factor
from seedbox.season.sowing.how_many import row
from seedbox.season.sowing.spans import Method
from seedbox.season.sowing.usual_factor import usual_factor

# Bralewski & Holubowicz 2008, Notulae Botanicae Horti Agrobotanici 36(1), abstract: mean ratio of
# emergence in the field to germination in the laboratory, and its range over the years.
PUBLISHED = [
    ("radish", 0.823, 0.671, 0.958),
    ("cabbage", 0.812, 0.652, 0.972),
    ("carrot", 0.446, 0.216, 0.990),
    ("lettuce", 0.451, 0.199, 0.673),
]


@pytest.mark.parametrize(("crop", "mean", "low", "high"), PUBLISHED)
def test_measured_kinds_keep_their_mean_and_most_of_their_range(
    crop: str, mean: float, low: float, high: float
) -> None:
    found = usual_factor(crop, Method.OUTDOORS)
    assert found.mean() == pytest.approx(mean, abs=0.01)
    inside = sum(weight for share, weight in found.nodes() if low <= share <= high)
    assert inside > 0.85


def test_onions_have_a_range_without_a_mean() -> None:
    # Same abstract: 5.3 to 87.7 %.
    assert usual_factor("onion_bulb", Method.OUTDOORS).mean() == pytest.approx(0.465, abs=0.01)


def test_other_kinds_outdoors_are_uncertain_and_trays_are_not_beds() -> None:
    bed, shelf = (usual_factor("parsnip", m) for m in (Method.OUTDOORS, Method.INDOORS))
    assert shelf == prior_factor()
    assert bed.mean() < shelf.mean()
    assert bed.quantile(0.05) < 0.35
    assert bed.quantile(0.95) > 0.9


def test_every_crop_has_a_factor() -> None:
    for crop in almanac.crops():
        for method in Method:
            factor = usual_factor(crop.id, method)
            assert sum(factor.weights) == pytest.approx(1.0)


def test_a_row_outdoors_takes_more_seed_than_the_same_in_trays() -> None:
    rows = {
        method: row(with_shares(certain(0.85), usual_factor("carrot", method).nodes()), 3.0, 5.0)
        for method in (Method.OUTDOORS, Method.INDOORS)
    }
    assert rows[Method.OUTDOORS].seeds > 1.5 * rows[Method.INDOORS].seeds
