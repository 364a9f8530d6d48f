"""`test`: germination tests from the plan to the result, one module a command."""

from __future__ import annotations

from seedbox.cli.command import LazyFamily

command = LazyFamily(
    "test",
    package=__name__,
    modules={
        "plan": "plan",
        "start": "start",
        "slip": "slip",
        "count": "count",
        "show": "show",
        "list": "list_tests",
        "finish": "finish",
        "reopen": "reopen",
        "drop": "drop",
        "record": "record",
        "remove": "remove",
        "tray": "tray",
    },
    help=(
        "Germination tests: which packets to test, how, when to count, and what it means.\n\n"
        "A test is started, counted on its days and finished; each step can be undone. A test that "
        "was made without Seedbox is written down with record."
    ),
)
