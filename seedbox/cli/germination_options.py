"""The argument that names a germination test, the same for every command."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import click

from seedbox.cli import completing
from seedbox.cli.codes import one_code


def test_argument(function: Callable[..., Any]) -> Callable[..., Any]:
    """The code of one test, in one word or two. The command receives it as `test`."""
    return click.argument(
        "test",
        nargs=-1,
        required=True,
        metavar="TEST",
        callback=one_code,
        shell_complete=completing.tests,
    )(function)
