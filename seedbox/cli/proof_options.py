"""The options --dpi and --no-proof of the commands that print codes."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

import click

from seedbox.cli.params import Whole

F = TypeVar("F", bound=Callable[..., Any])


def no_proof_option(function: F) -> F:
    """The command receives it as `no_proof`."""
    words = "Do not read the codes back (faster)."
    return click.option("--no-proof", is_flag=True, help=words)(function)


def proof_options(function: F) -> F:
    """The command receives them as `dpi` and `no_proof`."""
    dots = Whole("number", 200, 2400)
    option = click.option("--dpi", type=dots, help="Dots per inch you print at.")
    return option(no_proof_option(function))
