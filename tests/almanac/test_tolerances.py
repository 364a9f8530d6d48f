"""Stored tolerances, read back beside single figures of the published tables."""

from __future__ import annotations

import pytest

from seedbox.almanac.marks import Mark
from seedbox.almanac.tables import rows
from seedbox.almanac.tolerances import replicate_tolerance, two_test_tolerance


@pytest.mark.parametrize(
    ("average", "replicates", "points"),
    [(99, 4, 5), (86, 4, 14), (75, 4, 17), (2, 4, 5), (97, 2, 6), (89, 2, 10), (71, 2, 14)],
)
def test_replicates(average: float, replicates: int, points: int) -> None:
    """7 CFR 201.55(a)."""
    found = replicate_tolerance(average, replicates)
    assert found is not None
    assert (found.points, found.mark) == (points, Mark.SEEN)
    assert "201.55" in found.source


@pytest.mark.parametrize(("average", "points"), [(99, 2), (88, 6), (76, 8), (55, 11), (45, 11)])
def test_two_tests(average: float, points: int) -> None:
    """Louisiana Administrative Code 7:XIII-139(B), as recognised by 7 CFR 201.63."""
    found = two_test_tolerance(average)
    assert found is not None
    assert found.points == points
    assert "201.63" in found.source


def test_what_is_from_memory_says_so() -> None:
    for average in range(51, 71):
        found = replicate_tolerance(average, 4)
        assert found is not None
        assert found.mark is Mark.MEMORY
        assert "from memory" in found.source


def test_no_figure_beyond_the_table() -> None:
    assert replicate_tolerance(100, 4) is None
    assert replicate_tolerance(1, 4) is None
    assert replicate_tolerance(60, 2) is None
    assert replicate_tolerance(90, 3) is None
    assert two_test_tolerance(99.6) is None
    assert two_test_tolerance(1.4) is None


def test_every_average_has_one_figure() -> None:
    """The rows of both sides meet without a gap and without naming an average twice."""
    four = [row for row in rows("replicate_tolerance") if row["replicates"] == "4"]
    averages = [int(row[side]) for row in four for side in ("average_percent", "mirror_percent")]
    assert sorted(averages) == list(range(2, 100))
    assert all(int(row["average_percent"]) + int(row["mirror_percent"]) == 101 for row in four)
    assert all(two_test_tolerance(average) for average in range(2, 100))


def test_tolerances_grow_towards_the_middle() -> None:
    for replicates, lowest in ((4, 51), (2, 71)):
        points = [replicate_tolerance(average, replicates) for average in range(97, lowest - 1, -1)]
        values = [found.points for found in points if found]
        assert values == sorted(values)
        assert len(values) == 98 - lowest


def test_averages_are_rounded_halves_up() -> None:
    assert replicate_tolerance(88.5, 4) == replicate_tolerance(89, 4)
    assert replicate_tolerance(88.49, 4) == replicate_tolerance(88, 4)
