"""`python -m tests.bench` prints the speed table; with `accuracy`, how good forecasts are."""

from __future__ import annotations

import sys

USAGE = "usage: python -m tests.bench [accuracy]"


def main(arguments: list[str]) -> int:
    """Run what is asked for; nothing here asserts."""
    if arguments == ["accuracy"]:
        from tests.bench.accuracy import print_report

        print_report()
    elif not arguments:
        from tests.bench.speed import print_table

        print_table()
    else:
        print(USAGE, file=sys.stderr)
        return 2
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
