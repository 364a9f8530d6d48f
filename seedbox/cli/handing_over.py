"""The options --open and --print of the commands that write a page."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import click

from seedbox.cli.output import warn
from seedbox.errors import UsageError

F = TypeVar("F", bound=Callable[..., Any])


def opening_option(function: F) -> F:
    """The option for a picture, which is not printed; the command receives it as `opened`."""
    option = click.option(
        "--open", "opened", is_flag=True, help="Show the finished file on screen."
    )
    return option(function)


def handing_over_options(function: F) -> F:
    """The command receives them as `opened` and `sent`."""
    option = click.option(
        "--print", "sent", is_flag=True, help="Send the finished file to the usual printer."
    )
    return opening_option(option(function))


def refuse_nothing(path: Path | None, option: str, *, opened: bool, sent: bool) -> None:
    """Before anything is done: what is not written can be neither shown nor printed."""
    if path is None and (opened or sent):
        raise UsageError(f"--open and --print need a page: name it with {option} FILE.pdf.")


def hand_over(path: Path | None, *, opened: bool, sent: bool = False) -> None:
    """Opens the file, prints it, or neither. What was done is said beside the answer."""
    if path is None or not (opened or sent):
        return
    from seedbox.printing.handing_over import open_file, print_file

    if sent:
        print_file(path)
        warn(f"{path} went to the printer.")
    if opened:
        open_file(path)
