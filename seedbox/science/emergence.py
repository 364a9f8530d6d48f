"""Days to emergence at a temperature, by a table of trials or by a heat sum, never guessed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from math import exp

from seedbox.science.emergence_constants import INTERVAL_Z
from seedbox.science.errors import OutOfRangeError, require_inside


class Trial(StrEnum):
    """What a trial says of one temperature. Not tested is not the same as none came up."""

    MEASURED = "measured"
    NONE = "no germination"
    NOT_TESTED = "not tested"


class Reach(StrEnum):
    """Whether a temperature lies where seedlings were seen."""

    KNOWN = "known"
    TOO_COLD = "too cold"
    TOO_WARM = "too warm"
    UNTESTED = "not tested"


@dataclass(frozen=True, slots=True)
class Cell:
    """One temperature of a trial: days to emergence, and the fraction of normal seedlings."""

    temperature_c: float
    trial: Trial
    days: float | None = None
    normal: float | None = None


@dataclass(frozen=True, slots=True)
class Reading:
    """What a table says at a temperature. `rate` [per day] is None unless `reach` is known."""

    reach: Reach
    rate: float | None = None
    normal: float | None = None


@dataclass(frozen=True, slots=True)
class Days:
    """Days from sowing to emergence: the middle, and a 90 % interval."""

    low: float
    mid: float
    high: float


def read_table(cells: Sequence[Cell], temperature_c: float) -> Reading:
    """Rate of emergence between neighbouring measured cells of a table of trials.

    ``1 / t(T) = (1 - f) / t1 + f / t2``, ``f = (T - T1) / (T2 - T1)``, T1 <= T <= T2 neighbours

    Parameters: cells, by rising temperature; temperature_c T [C].
    Returns: Reading. Beside a cell in which nothing came up, and beyond it, the answer is too
    cold or too warm; across or beside a cell that was not tested, and beyond the last measured
    one, it is `not tested`. Nothing is ever extrapolated.
    Raises: OutOfRangeError when the cells do not rise or a measured one has no days.

    >>> tomato = [Cell(5, Trial.NONE), Cell(10, Trial.MEASURED, 43), Cell(15, Trial.MEASURED, 14)]
    >>> round(1 / read_table(tomato, 12.5).rate, 1)
    21.1
    >>> read_table(tomato, 7.5).reach.value, read_table(tomato, 16.0).reach.value
    ('too cold', 'not tested')

    Source: linear rates between trials follow from the heat-sum model, Bierhuizen & Wagenvoort
    1974, Scientia Horticulturae 2:213-219; the table is Harrington & Minges 1954.
    """
    _check(cells)
    exact = next((cell for cell in cells if cell.temperature_c == temperature_c), None)
    if exact is not None and exact.days is not None:
        return Reading(Reach.KNOWN, 1.0 / exact.days, exact.normal)
    below = [cell for cell in cells if cell.temperature_c < temperature_c]
    above = [cell for cell in cells if cell.temperature_c > temperature_c]
    if exact is None and below and above:
        between = _between(below[-1], above[0], temperature_c)
        if between is not None:
            return between
    return Reading(_closed(cells, temperature_c))


def _check(cells: Sequence[Cell]) -> None:
    for before, after in pairwise(cells):
        require_inside("next temperature", after.temperature_c, before.temperature_c, float("inf"))
    for cell in cells:
        if cell.trial is Trial.MEASURED:
            require_inside("days to emergence", cell.days or 0.0, 0.0, float("inf"), "days")


def _between(cold: Cell, warm: Cell, temperature_c: float) -> Reading | None:
    if cold.days is None or warm.days is None:
        return None
    part = (temperature_c - cold.temperature_c) / (warm.temperature_c - cold.temperature_c)
    rate = (1.0 - part) / cold.days + part / warm.days
    if cold.normal is None or warm.normal is None:
        return Reading(Reach.KNOWN, rate)
    return Reading(Reach.KNOWN, rate, (1.0 - part) * cold.normal + part * warm.normal)


def _closed(cells: Sequence[Cell], temperature_c: float) -> Reach:
    """Closed by a cell in which nothing came up, with no untested one on the way to it."""
    measured = [cell.temperature_c for cell in cells if cell.trial is Trial.MEASURED]
    if not measured:
        return Reach.UNTESTED
    if temperature_c < measured[0]:
        colder = [cell for cell in cells if cell.temperature_c < measured[0]]
        return Reach.TOO_COLD if _shut(list(reversed(colder)), temperature_c) else Reach.UNTESTED
    warmer = [cell for cell in cells if cell.temperature_c > measured[-1]]
    return Reach.TOO_WARM if _shut(warmer, temperature_c) else Reach.UNTESTED


def _shut(outward: Sequence[Cell], temperature_c: float) -> bool:
    """Cells outward from the measured ones: closed beside or beyond one in which none came up."""
    if not outward:
        return False
    if outward[0].trial is Trial.NONE:
        return True
    edge = outward[0].temperature_c
    none = [cell.temperature_c for cell in outward if cell.trial is Trial.NONE]
    if not none:
        return False
    return abs(temperature_c - edge) >= abs(none[0] - edge) and (
        (temperature_c - edge) * (none[0] - edge) >= 0
    )


def best_temperature(cells: Sequence[Cell]) -> Cell:
    """The measured cell that is quickest among those with nearly the most normal seedlings.

    Cells within a tenth of the highest share count as equal. A cell without a share is passed
    over while others have one.

    Parameters: cells of a table, one or more measured.
    Returns: Cell.
    Raises: OutOfRangeError when nothing was measured.

    >>> lettuce = [Cell(20, Trial.MEASURED, 3, 0.99), Cell(25, Trial.MEASURED, 2, 0.99),
    ...            Cell(30, Trial.MEASURED, 1.9, 0.12)]
    >>> best_temperature(lettuce).temperature_c
    25

    Source: Seedbox's own rule over the table of Harrington & Minges 1954.
    """
    measured = [cell for cell in cells if cell.days is not None]
    if not measured:
        raise OutOfRangeError("measured cells", 0, 1, float("inf"))
    shares = [cell.normal for cell in measured if cell.normal is not None]
    enough = 0.9 * max(shares, default=0.0)
    good = [c for c in measured if c.normal is not None and c.normal >= enough] or measured
    return min(good, key=lambda cell: (cell.days or 0.0, cell.temperature_c))


def share_kept(cells: Sequence[Cell], normal: float | None) -> float | None:
    """Normal seedlings at a temperature as a share of the most that the crop gave anywhere.

    >>> lettuce = [Cell(25, Trial.MEASURED, 2, 0.99), Cell(30, Trial.MEASURED, 3, 0.12)]
    >>> round(share_kept(lettuce, 0.12), 2)
    0.12
    """
    shares = [cell.normal for cell in cells if cell.normal is not None]
    most = max(shares, default=0.0)
    return None if normal is None or most == 0.0 else min(normal / most, 1.0)


def days_to_progress(
    rate: Callable[[float], float | None], temperatures: Iterable[float], progress: float = 1.0
) -> float | None:
    """Days until the rates of successive days add up to a given progress.

    ``sum of rate(T(day)) = progress``, within the last day in proportion

    Parameters: rate [per day] of a temperature [C], None where nothing is known to grow: such a
    day adds nothing; temperatures [C], one a day from sowing; progress [-], above 0.
    Returns: days [d], or None when the temperatures end first.
    Raises: OutOfRangeError.

    >>> days_to_progress(lambda t: t / 100, [10.0] * 30)
    10.0
    >>> days_to_progress(lambda t: t / 100, [5.0] * 4 + [20.0] * 30)
    8.0
    >>> days_to_progress(lambda t: None, [5.0] * 40) is None
    True

    Source: heat summed over days, as Bierhuizen & Wagenvoort 1974, Scientia Horticulturae
    2:213-219, with the rate at each temperature from the table.
    """
    require_inside("progress", progress, 0.0, float("inf"))
    gained = 0.0
    for day, temperature_c in enumerate(temperatures):
        step = rate(temperature_c) or 0.0
        if gained + step >= progress - 1e-12:
            return day + max(progress - gained, 0.0) / step
        gained += step
    return None


def emergence_interval(
    rate: Callable[[float], float | None], temperatures: Sequence[float], ln_sd: float
) -> Days | None:
    """Days to emergence with a 90 % interval, through a course of temperatures.

    ``progress = exp(-z s), 1, exp(z s)``, z = 1.645: at a constant temperature the interval is
    t / exp(z s) to t exp(z s); a course that warms shortens its upper part.

    Parameters: rate [per day] of a temperature [C] or None; temperatures [C], one a day;
    ln_sd s [-], spread of ln days between trials, 0 or more.
    Returns: Days, or None when emergence does not come within the course. When only the upper
    end lies beyond the course, it is the course's length.

    >>> found = emergence_interval(lambda t: t / 100, [10.0] * 60, 0.25)
    >>> round(found.low, 1), round(found.mid, 1), round(found.high, 1)
    (6.6, 10.0, 15.1)

    Source: log-normal spread; its size in ``emergence_constants``.
    """
    reach = exp(INTERVAL_Z * ln_sd)
    mid = days_to_progress(rate, temperatures)
    if mid is None:
        return None
    low = days_to_progress(rate, temperatures, 1.0 / reach)
    high = days_to_progress(rate, temperatures, reach)
    return Days(mid if low is None else low, mid, len(temperatures) if high is None else high)
