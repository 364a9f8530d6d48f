"""`python -m tests.bench` prints the speed table; with the name of a report, that report."""

from __future__ import annotations

import sys
from importlib import import_module

REPORTS = {
    "accuracy": "how good forecasts, tests and emergence are",
    "labels": "how often labels are read after mud, fading, bending and bad light",
    "printing": "every design on every sheet from outside, memory and bytes of large jobs",
    "scanning": "how much of composed photos is read back",
    "swap": "exchanges among 2 to 40 people: seconds, gap to the bound, who gains over pairs",
}
USAGE = f"usage: python -m tests.bench [{' | '.join(REPORTS)}]"


def main(arguments: list[str]) -> int:
    """Run what is asked for; nothing here asserts."""
    if not arguments:
        from tests.bench.speed import print_table

        print_table()
    elif len(arguments) == 1 and arguments[0] in REPORTS:
        import_module(f"tests.bench.{arguments[0]}").print_report()
    else:
        print(USAGE, file=sys.stderr)
        return 2
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
