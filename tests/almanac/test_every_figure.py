"""Every figure of every crop has a source and a mark, and lies in a plausible range."""

from __future__ import annotations

import csv
import re
from collections import Counter
from itertools import pairwise
from pathlib import Path

import pytest

from seedbox import almanac
from seedbox.almanac.tables import DATA, rows

CROPS = almanac.crops()
ALL = [(crop.id, figure) for crop in CROPS for figure in almanac.figures(crop.id)]
NUMBER = re.compile(r"(?<![\d.])-?\d+(?:\.\d+)?")

# Ranges a gardener would call possible, by name and unit; common practice, no source.
# Wide enough for castor bean and begonia, narrow enough to catch a slipped unit or digit.
RANGES = {
    ("depth", "mm"): (0, 60),
    ("plant spacing", "cm"): (1, 200),
    ("row spacing", "cm"): (10, 250),
    ("sowing to planting out", "weeks"): (1, 20),
    ("days to maturity", "days"): (5, 400),
    ("sow indoors before the last spring frost", "weeks"): (1, 24),
    ("sow indoors", "the last spring frost"): (0, 26),
    ("sow outdoors", "the last spring frost"): (0, 26),
    ("plant out", "the last spring frost"): (0, 26),
    ("sow again after", "days"): (5, 60),
    ("least pot depth", "cm"): (2, 30),
    ("days to emerge", "days"): (1, 200),
    ("temperature for germination", "C"): (5, 35),
    ("least soil temperature", "C"): (0, 20),
    ("best soil temperatures", "C"): (4, 41),
    ("best soil temperature", "C"): (10, 36),
    ("highest soil temperature", "C"): (20, 41),
    ("came up in the field, of what germinated in the laboratory", "%"): (1, 100),
    ("thousand-seed weight", "g"): (0.005, 2500),
    ("thousand-seed weight, from seeds per gram", "g"): (0.005, 2500),
    ("seeds per gram", "seeds"): (0.4, 100_000),
    ("oil in the dry seed", "%"): (0.5, 60),
    ("oil in the dry seed, of its family", "%"): (0.5, 60),
    ("oil in the dry seed, of all crops", "%"): (0.5, 60),
    ("highest moisture in a sealed packet", "% of fresh weight"): (4, 9),
    ("years that seed keeps", "years"): (0.5, 12),
    ("years that seed keeps, of its family", "years"): (0.5, 12),
    ("years that seed keeps, of all crops", "years"): (0.5, 12),
    ("years, by one list", "years"): (0.5, 12),
    ("years to half viability", "years"): (2, 40),
    ("minimum germination, European Union", "%"): (40, 90),
    ("minimum germination, United States", "%"): (25, 90),
    ("first count, United States rules", "day"): (2, 14),
    ("final count, United States rules", "day"): (4, 42),
    ("first count, international rules", "day"): (2, 14),
    ("final count, international rules", "day"): (4, 42),
    ("isolation distance", "m"): (0, 5000),
    ("plants to save from", "plants"): (1, 250),
}
MOISTURE = re.compile(r"moisture at (\d+) % humidity")
TEST_TEMPERATURE = re.compile(r"temperature, (United States|international) rules")


def _range_of(figure: almanac.Figure) -> tuple[float, float]:
    if MOISTURE.fullmatch(figure.name):
        return (1.5, 20)
    if TEST_TEMPERATURE.fullmatch(figure.name):
        return (5, 35)
    return RANGES[figure.name, figure.unit]


def test_all_crops_are_there() -> None:
    """The list that the figures were gathered for: 214 crops, 100 of them grown to be eaten."""
    assert len(CROPS) == len({crop.id for crop in CROPS}) == 214
    assert set(Counter(crop.category for crop in CROPS)) == {"veg", "herb", "flower"}
    assert all(crop.family.endswith("aceae") for crop in CROPS)
    assert all(re.fullmatch("[a-z]+(_[a-z]+)*", crop.id) for crop in CROPS)


def test_every_figure_has_a_source_and_a_mark() -> None:
    for crop_id, figure in ALL:
        where = (crop_id, figure)
        assert figure.source.strip(), where
        assert figure.mark in set(almanac.Mark) - {almanac.Mark.YOURS}, where
        assert figure.section in almanac.SECTIONS, where
        assert figure.name, where
        assert figure.value.strip(), where


def test_a_figure_from_memory_is_never_dressed_up() -> None:
    for crop_id, figure in ALL:
        if "from memory" in figure.source and ";" not in figure.source:
            assert figure.mark is not almanac.Mark.SEEN, (crop_id, figure)


def test_every_figure_with_a_unit_is_plausible() -> None:
    for crop_id, figure in ALL:
        if figure.unit:
            low, high = _range_of(figure)
            text = figure.value.replace("-", " ") if figure.unit == "C" else figure.value
            numbers = [float(n) for n in NUMBER.findall(text)]
            assert numbers or "week of" in figure.value, (crop_id, figure)
            assert all(low <= n <= high for n in numbers), (crop_id, figure)


def test_a_figure_without_a_unit_is_said_in_words() -> None:
    """Bare numbers belong to a unit; what is left without one reads as a sentence."""
    assert not [(c, f) for c, f in ALL if not f.unit and re.fullmatch(r"[\d. to-]+", f.value)]


def test_every_range_runs_upwards() -> None:
    for crop in CROPS:
        known = (*almanac.growing(crop.id).values(), *almanac.seed_saving(crop.id).values())
        for fact in known:
            assert (fact.low is None) == (fact.high is None)
            assert fact.low is None or fact.high is None or fact.low <= fact.high, (crop.id, fact)


def test_every_crop_is_known_well_enough_to_sow() -> None:
    for crop in CROPS:
        known = almanac.growing(crop.id)
        assert {"depth_mm", "row_spacing_cm", "emerge_days", "hardiness", "light"} <= known.keys()


@pytest.mark.parametrize("path", sorted(DATA.glob("*.csv")), ids=lambda path: path.stem)
def test_each_table_is_whole(path: Path) -> None:
    """Rows as long as the header, crops that exist, marks and sources in every data row."""
    with path.open(newline="", encoding="utf-8") as file:
        header, *lines = list(csv.reader(file))
    assert lines
    assert all(len(line) == len(header) for line in lines)
    ids = {crop.id for crop in CROPS} | {""}
    keys = {row["source"] for row in rows("sources")}
    for line in lines:
        row = dict(zip(header, line, strict=True))
        assert row.get("crop", "") in ids, row
        if "mark" in row:
            assert row["mark"] in {"seen", "from memory", "computed"}, row
            assert set(row["source"].split(";")) <= keys, row


def test_every_source_is_used() -> None:
    keys = {row["source"] for row in rows("sources")}
    tables = [path.stem for path in DATA.glob("*.csv") if path.stem != "sources"]
    used = {k for t in tables for row in rows(t) for k in row.get("source", "").split(";")}
    assert keys == used - {""}


def test_emergence_runs_from_cold_to_warm_and_keeps_gaps_open() -> None:
    for crop in CROPS:
        cells = almanac.emergence(crop.id)
        assert all(a.temperature_c < b.temperature_c for a, b in pairwise(cells))
        for cell in cells:
            measured = cell.outcome is almanac.Outcome.MEASURED
            assert measured == (cell.days is not None), (crop.id, cell)
            assert cell.normal is None or 0 <= cell.normal <= 1
            if cell.days is not None:
                assert 1 <= cell.days <= 180, (crop.id, cell)


def test_heat_sums_are_plausible() -> None:
    """Base temperatures as published lie below 15 C; fits to few points may go below zero."""
    for crop in CROPS:
        for each in almanac.thermal_time(crop.id):
            assert -10 <= each.base_c <= 15, (crop.id, each)
            assert each.degree_days is None or 10 <= each.degree_days <= 500, (crop.id, each)


def test_own_figures_stand_first_and_are_marked() -> None:
    own = [("depth_mm", "5-8", ""), ("standard", "0.7", "my rule"), ("storage_years", "many", "")]
    shown = almanac.figures("lettuce", own)
    yours = [f for f in shown if f.mark is almanac.Mark.YOURS]
    assert [(f.name, f.value, f.unit) for f in yours] == [
        ("depth", "5 to 8", "mm"),
        ("years that seed keeps", "many", "years"),
        ("minimum germination", "70", "%"),
    ]
    assert yours[2].source == "your own figure: my rule"
    assert len(shown) == 3 + len(almanac.figures("lettuce"))


def test_an_own_crop_has_a_page_too() -> None:
    shown = almanac.figures("own:datura", name="Datura, white", family="Solanaceae")
    assert {f.section for f in shown} >= {"Seed", "Storage life", "Cautions"}
    assert any("tropane" in f.value for f in shown)
