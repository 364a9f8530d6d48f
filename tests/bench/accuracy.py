"""How good the forecasts are: observed ageing, calibration, and a simulated decade of sowing."""

from __future__ import annotations

from tests.bench import accuracy_calibration, accuracy_decade, accuracy_observed


def print_report() -> None:
    """The three parts, in plain lines; every number is computed now."""
    for part in (accuracy_observed, accuracy_calibration, accuracy_decade):
        for line in part.report():
            print(line, flush=True)
        print()
