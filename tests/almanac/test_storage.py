"""Storage life: a table often copied counts once, and a borrowed figure says so and is wider."""

from __future__ import annotations

from collections import defaultdict
from math import log, sqrt
from statistics import median, stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from seedbox import almanac
from seedbox.almanac import storage
from seedbox.almanac.tables import of_crop, rows

IDS = [crop.id for crop in almanac.crops()]


def test_copies_of_one_table_count_once() -> None:
    """Lettuce: three lists copy 6 years, two copy 5; Madison 5, Oregon 3, Watts 4, and half
    viability after 7 years at 20.3 C and 50.5 % RH (Nagel & Boerner 2010)."""
    half = 7 * (norm.ppf(0.9) - norm.ppf(0.6)) / norm.ppf(0.97)
    lineages = [6, 5, 5, 3, 4, half]
    found = almanac.storage_life("lettuce")
    assert found.years == pytest.approx(median(lineages), abs=1e-3)
    assert found.sd_ln == pytest.approx(stdev(log(y) for y in lineages), abs=1e-3)
    assert (found.lineages, found.basis) == (6, almanac.Basis.CROP)
    assert found.mark is almanac.Mark.COMPUTED
    by_rows = median(float(r["years"]) for r in of_crop("storage_life", "lettuce") if r["years"])
    assert found.years != by_rows


# Years by list: Knott's Handbook 2nd ed. and its copies, Iowa State, Madison, Oregon State, Watts.
SETTLED = {"parsnip": 1, "cucumber": 5, "beetroot": 4, "okra": 2, "tomato": 4, "onion_bulb": 1}


@pytest.mark.parametrize(("crop_id", "years"), SETTLED.items())
def test_what_most_lists_agree_on(crop_id: str, years: float) -> None:
    assert almanac.storage_life(crop_id).years == years


def test_half_viability_is_turned_into_the_fall_from_90_to_60_percent() -> None:
    """scipy's normal quantiles; a straight line in probits goes through all three points."""
    expected = (norm.ppf(0.9) - norm.ppf(0.6)) / (norm.ppf(0.97) - norm.ppf(0.5))
    assert pytest.approx(expected, abs=1e-4) == storage.YEARS_PER_HALF_VIABILITY


def test_weak_lists_serve_only_where_nothing_better_is_known() -> None:
    """Popcorn rests on an unsigned page and on memory alone; sweet corn does not."""
    weak = almanac.storage_life("popcorn")
    assert weak.years == 2
    assert weak.mark is almanac.Mark.MEMORY
    assert weak.sd_ln > storage.typical_spread()
    assert "author unknown" in weak.source
    assert "author unknown" not in almanac.storage_life("sweet_corn").source


def test_an_average_of_lists_is_not_counted_beside_them() -> None:
    """The four-list average names Oregon; mizuna is in both, basil only in the average."""
    assert almanac.storage_life("mizuna").lineages == 1
    assert "Oregon" in almanac.storage_life("mizuna").source
    assert "four US extension lists" in almanac.storage_life("basil").source


def test_ranks_of_crops_give_no_years() -> None:
    """Walters et al. 2005 call dill short-lived and give no years: it borrows from its family."""
    dill = almanac.storage_life("dill")
    assert dill.basis is almanac.Basis.FAMILY
    assert storage.storage_class("dill") is not None
    assert "class" in {f.name for f in almanac.figures("dill")}


def test_borrowed_figures_are_wider_and_say_so() -> None:
    family = almanac.storage_life("thyme")
    everything = almanac.storage_life("statice")
    assert (family.basis, everything.basis) == (almanac.Basis.FAMILY, almanac.Basis.ALL)
    assert "Lamiaceae" in family.source
    assert everything.sd_ln > family.sd_ln > storage.typical_spread()
    own = almanac.storage_life("own:hyssop", "lamiaceae ")
    assert (own.years, own.basis) == (family.years, almanac.Basis.FAMILY)
    assert almanac.storage_life("own:thing").basis is almanac.Basis.ALL


def test_a_family_figure_is_the_median_over_its_crops() -> None:
    relatives = defaultdict(list)
    for crop in almanac.crops():
        life = almanac.storage_life(crop.id)
        if life.basis is almanac.Basis.CROP:
            relatives[crop.family].append(life.years)
    assert almanac.storage_life("thyme").years == median(relatives["Lamiaceae"])


def test_spread_never_falls_below_the_rounding_of_whole_years() -> None:
    """A figure rounded to whole years is uncertain by 1/sqrt(12) of a year."""
    for crop_id in IDS:
        found = almanac.storage_life(crop_id)
        assert found.sd_ln >= 1 / sqrt(12) / found.years - 1e-12
        assert 0.05 < found.sd_ln < 1.5


def test_marks_say_what_a_figure_rests_on() -> None:
    """Angelica: one list as printed. Dandelion: memory alone. Carrot: a median of lists."""
    marks = {i: almanac.storage_life(i).mark for i in ("angelica", "dandelion", "carrot")}
    assert marks == {
        "angelica": almanac.Mark.SEEN,
        "dandelion": almanac.Mark.MEMORY,
        "carrot": almanac.Mark.COMPUTED,
    }


def test_no_figure_that_rests_on_memory_claims_to_be_read() -> None:
    for crop_id in IDS:
        found = almanac.storage_life(crop_id)
        assert "handbook figure" not in found.source or found.mark is almanac.Mark.MEMORY


@given(st.sampled_from(IDS) | st.text(max_size=20), st.text(max_size=20))
def test_there_is_always_an_answer(crop_id: str, family: str) -> None:
    life, oil = almanac.storage_life(crop_id, family), almanac.oil_fraction(crop_id, family)
    assert 0.5 <= life.years <= 12
    assert life.source
    assert 0 < oil.fraction < 0.6
    assert oil.source


def test_oil_is_the_middle_of_the_published_range() -> None:
    """From memory: sesame 48 to 52 %, common bean 1 to 2 %, lettuce 33 to 38 %."""
    for crop_id, low, high in (
        ("sesame", 48, 52),
        ("bean_french_dwarf", 1, 2),
        ("lettuce", 33, 38),
    ):
        found = almanac.oil_fraction(crop_id)
        assert found.fraction == pytest.approx((low + high) / 200)
        assert (found.basis, found.mark) == (almanac.Basis.CROP, almanac.Mark.MEMORY)


def test_borrowed_oil_is_marked() -> None:
    runner, statice = almanac.oil_fraction("bean_runner"), almanac.oil_fraction("statice")
    assert (runner.basis, runner.mark) == (almanac.Basis.FAMILY, almanac.Mark.MEMORY)
    assert runner.fraction < 0.05
    assert statice.basis is almanac.Basis.ALL


def test_every_lineage_is_ranked() -> None:
    ranked = {row["lineage"] for row in rows("lineages")}
    assert {row["lineage"] for row in rows("storage_life")} == ranked
