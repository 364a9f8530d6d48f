"""The examples in the command line's own docstrings."""

from __future__ import annotations

import doctest
from importlib import import_module

import pytest


@pytest.mark.parametrize(
    "name",
    [
        "amounts",
        "codes",
        "commands.list_packets",
        "dates",
        "edge",
        "output",
        "params",
        "storage_words",
        "tables",
        "words",
    ],
)
def test_examples_hold(name: str) -> None:
    outcome = doctest.testmod(import_module(f"seedbox.cli.{name}"))
    assert outcome.attempted > 0
    assert outcome.failed == 0
