"""The table of numbers to reach: each of ours beside the bare way of doing the same, in one run."""

from __future__ import annotations

from importlib import import_module

# Each module's `measure()` gives its rows; a slow one comes last.
MODULES = ("listing", "label_drawing", "importing", "forecasts", "screens")


def print_table() -> None:
    """Measure everything and print a line a row, as it comes."""
    print(f"{'what':<52}{'ours ms':>10}{'bare ms':>10}{'ratio':>8}{'reach':>8}")
    for name in MODULES:
        for row in import_module(f"tests.bench.{name}").measure():
            print(
                f"{row[0]:<52}{row[1] * 1000:>10.1f}{row[2] * 1000:>10.1f}"
                f"{row[1] / row[2]:>8.2f}{row[3]:>8.2f}",
                flush=True,
            )
