"""Reading the almanac's own CSV files. Each is read once, and only when first asked for."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path

Row = Mapping[str, str]

DATA = Path(__file__).resolve().parent / "data"


def rows(table: str) -> Iterator[Row]:
    """Rows of `data/<table>.csv` as mappings from column name to text."""
    with (DATA / f"{table}.csv").open(newline="", encoding="utf-8") as file:
        lines = csv.reader(file)
        header = next(lines)
        for line in lines:
            yield dict(zip(header, line, strict=True))


@cache
def by_crop(table: str) -> Mapping[str, tuple[Row, ...]]:
    """Rows of a table for each crop. Rows for kinds outside the almanac lie under ''."""
    found: dict[str, list[Row]] = {}
    for row in rows(table):
        found.setdefault(row["crop"], []).append(row)
    return {crop_id: tuple(group) for crop_id, group in found.items()}


def of_crop(table: str, crop_id: str) -> tuple[Row, ...]:
    """Rows of a table for one crop; none when the table does not name it."""
    return by_crop(table).get(crop_id, ()) if crop_id else ()


def number(text: str) -> float | None:
    """A cell as a number; an empty cell is unknown, never zero."""
    return float(text) if text else None


def median(values: list[float]) -> float:
    """Middle value, or the mean of the two middle ones. `values` must not be empty."""
    ordered = sorted(values)
    half = len(ordered) // 2
    return ordered[half] if len(ordered) % 2 else (ordered[half - 1] + ordered[half]) / 2


def span(low: float | str, high: float | str) -> str:
    """Two ends of a range in words: `13 to 25`, or `13` when they agree."""
    first, last = _plain(low), _plain(high)
    if first == last or not last:
        return first
    return f"{first} to {last}" if first else f"up to {last}"


def _plain(value: float | str) -> str:
    return value if isinstance(value, str) else f"{value:.6g}"
