"""A person's own figures: understood, checked, and used before the almanac's."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox import almanac
from seedbox.errors import BadDataError


@pytest.mark.parametrize(
    ("name", "text", "expected"),
    [
        ("storage_years", "4", (4, 4)),
        ("storage_years", " 4.5 years ", (4.5, 4.5)),
        ("storage_years", "4,5", (4.5, 4.5)),
        ("standard", "70", (0.7, 0.7)),
        ("standard", "70 %", (0.7, 0.7)),
        ("standard", "70%", (0.7, 0.7)),
        ("standard", "0.7", (0.7, 0.7)),
        ("oil_fraction", "22", (0.22, 0.22)),
        ("depth_mm", "10-20", (10, 20)),
        ("depth_mm", "10 to 20 mm", (10, 20)),
        ("depth_mm", "10 – 20 mm", (10, 20)),
        ("depth_mm", "15", (15, 15)),
        ("indoor_weeks_before_last_frost", "-2", (-2, -2)),
        ("thousand_seed_weight_g", "0.01", (0.01, 0.01)),
    ],
)
def test_what_is_understood(name: str, text: str, expected: tuple[float, float]) -> None:
    assert almanac.parse_override(name, text) == pytest.approx(expected)


@pytest.mark.parametrize(
    ("name", "text", "sentence"),
    [
        ("storage_years", "long", "“long” is not a number: a storage life is given in years."),
        (
            "storage_years",
            "500",
            "500 years is not plausible for a storage life: give 0.2 to 100 years.",
        ),
        ("standard", "1 %", "1 % is not plausible for a least germination: give 10 to 100 %."),
        ("depth_mm", "20-10", "“20-10”: the first number is larger than the second."),
        ("depth_mm", "-5", "-5 mm is not plausible for a sowing depth: give 0 to 200 mm."),
        ("storage_years", "nan", "“nan” is not a number: a storage life is given in years."),
        ("depth_mm", "1e1", "“1e1” is not a number: a sowing depth is given in mm."),
        ("depth_mm", "--5", "“--5” is not a number: a sowing depth is given in mm."),
        ("colour", "red", "“colour” is not a figure that can be set."),
    ],
)
def test_what_is_refused(name: str, text: str, sentence: str) -> None:
    with pytest.raises(BadDataError) as caught:
        almanac.parse_override(name, text)
    assert caught.value.sentence == sentence


def test_an_unknown_figure_lists_the_known_ones() -> None:
    with pytest.raises(BadDataError) as caught:
        almanac.parse_override("colour", "red")
    assert all(name in caught.value.hint for name in almanac.OVERRIDABLE)


@given(st.sampled_from(list(almanac.OVERRIDABLE)), st.text(max_size=30))
def test_any_text_gives_numbers_in_range_or_a_sentence(name: str, text: str) -> None:
    rule = almanac.OVERRIDABLE[name]
    scale = 100 if rule.percent else 1
    try:
        low, high = almanac.parse_override(name, text)
    except BadDataError as refused:
        assert refused.sentence
    else:
        assert rule.low <= low * scale <= high * scale <= rule.high + 1e-9


@given(
    st.sampled_from([n for n, rule in almanac.OVERRIDABLE.items() if not rule.percent]),
    st.floats(0, 1),
)
def test_every_number_in_range_is_taken(name: str, share: float) -> None:
    rule = almanac.OVERRIDABLE[name]
    value = rule.low + share * (rule.high - rule.low)
    low, high = almanac.parse_override(name, f"{value:.6f}")
    assert low == high == pytest.approx(value, abs=1e-6)


def test_own_figures_come_first() -> None:
    own = {"storage_years": "2", "oil_fraction": "30 %", "standard": "60", "depth_mm": "5-9"}
    yours = almanac.Mark.YOURS
    life = almanac.storage_life("lettuce", own=own)
    assert (life.years, life.basis, life.mark) == (2, almanac.Basis.YOURS, yours)
    oil = almanac.oil_fraction("lettuce", own=own)
    assert (oil.fraction, oil.mark) == (0.3, yours)
    found = almanac.standard("lettuce", "eu", own)
    assert found is not None
    assert (found.fraction, found.mark) == (0.6, yours)
    depth = almanac.growing("lettuce", own)["depth_mm"]
    assert (depth.low, depth.high, depth.mark) == (5, 9, yours)
    weight = almanac.thousand_seed_weight_g("thyme", {"thousand_seed_weight_g": "0.25"})
    assert weight is not None
    assert weight.grams == 0.25


def test_own_figures_serve_own_crops() -> None:
    own = {"standard": "55", "depth_mm": "20"}
    found = almanac.standard("own:oca", "us", own)
    assert found is not None
    assert found.fraction == 0.55
    assert almanac.growing("own:oca", own)["depth_mm"].low == 20


def test_every_settable_figure_has_a_place_where_it_is_shown() -> None:
    keys = {f.key for crop in almanac.crops() for f in almanac.figures(crop.id) if f.key}
    assert keys == set(almanac.OVERRIDABLE)
