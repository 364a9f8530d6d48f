"""Examples in the docstrings of the sowing season are run."""

from __future__ import annotations

import doctest
from importlib import import_module

import pytest


@pytest.mark.parametrize("name", ["climate", "where"])
def test_examples(name: str) -> None:
    result = doctest.testmod(import_module(f"seedbox.season.sowing.{name}"))
    assert result.attempted > 0
    assert result.failed == 0
