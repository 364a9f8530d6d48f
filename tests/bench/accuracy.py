"""How good the forecasts are: observed ageing, calibration, emergence, a simulated decade."""

from __future__ import annotations

import sys
import time
from importlib import import_module

PARTS = (
    ("observed ageing", "accuracy_observed"),
    ("calibration", "calibration"),
    ("days to emergence", "emergence"),
    ("simulated decade", "accuracy_decade"),
)


def print_report() -> None:
    """The four parts, in plain lines; every number is computed now. Progress goes to stderr."""
    start = time.perf_counter()
    for number, (name, module) in enumerate(PARTS, 1):
        _tell(f"[{number} of {len(PARTS)}] {name} ...")
        for line in import_module(f"tests.bench.{module}").report():
            print(line, flush=True)
        print()
        _tell(f"[{number} of {len(PARTS)}] {name}: {time.perf_counter() - start:.0f} s so far")


def _tell(line: str) -> None:
    print(line, file=sys.stderr, flush=True)
