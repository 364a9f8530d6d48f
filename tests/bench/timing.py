"""Two ways of doing the same thing, timed in turn, so that a busy machine slows both alike."""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable
from typing import NamedTuple


class Measured(NamedTuple):
    """Median seconds of ours and of the bare way, and the ratio that we want to stay within."""

    name: str
    ours_seconds: float
    bare_seconds: float
    reach: float

    @property
    def ratio(self) -> float:
        return self.ours_seconds / self.bare_seconds


def side_by_side(
    ours: Callable[[], object], bare: Callable[[], object], runs: int = 7
) -> tuple[float, float]:
    """Median seconds of each over `runs` turns, after one turn each to warm the file cache."""
    ours()
    bare()
    times: tuple[list[float], list[float]] = ([], [])
    for _ in range(runs):
        for way, kept in zip((ours, bare), times, strict=True):
            start = time.perf_counter()
            way()
            kept.append(time.perf_counter() - start)
    return statistics.median(times[0]), statistics.median(times[1])
