"""The plain text of the reading commands, word for word, on a small tin that never changes.

These are regression values: they hold the look and the words still. Whether the figures are right
is tested in the science and season rooms. To take new ones after a change of the model, run
`SEEDBOX_WRITE_GOLDEN=1 python -m pytest tests/cli/test_golden.py` and read the difference.
"""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Type = Callable[..., Any]
HERE = Path(__file__).parent / "golden"
OUTPUTS = {
    "list": ("list",),
    "list_advice": ("list", "--sort", "germination", "--store", "jar"),
    "show_tested": ("show", "{tomato}"),
    "show_treated": ("show", "{parsnip}"),
    "show_poisonous": ("show", "{castor oil plant}"),
    "show_stock": ("show", "{onion}"),
    "store_list": ("store", "list"),
    "test_list": ("test", "list"),
    "test_start": ("test", "start", "{leek}", "--seeds", "20", "--dry-run"),
    "test_start_treated": ("test", "start", "{parsnip}", "--seeds", "20", "--dry-run"),
    "test_start_poisonous": ("test", "start", "{castor oil plant}", "--seeds", "5", "--dry-run"),
    "forecast": (
        "forecast", "onion", "--germination", "0.97", "--tested", "200", "--temperature", "26.7",
        "--humidity", "44", "--days", "250", "--then", "temperature=4,moisture=6,years=3",
    ),
}  # fmt: skip


@pytest.fixture
def codes(type_in: Type) -> dict[str, str]:
    type_in("import", str(HERE / "tin"))
    return {packet["crop"]: packet["code"] for packet in type_in("list", "--json").json}


@pytest.mark.parametrize("name", OUTPUTS)
def test_the_words_are_as_they_were(type_in: Type, codes: dict[str, str], name: str) -> None:
    words = [word.format(**codes) if word.startswith("{") else word for word in OUTPUTS[name]]
    said = type_in(*words).out
    kept = HERE / f"{name}.txt"
    if os.environ.get("SEEDBOX_WRITE_GOLDEN"):
        kept.write_text(said, encoding="utf-8")
    assert said == kept.read_text(encoding="utf-8")
    assert said.endswith("\n")
    assert not any(line != line.rstrip() for line in said.splitlines())


TESTING = {
    "test_plan": ("test", "plan", "--all"),
    "test_running": ("test", "show", "{test}", "--today", "2027-02-28"),
    "test_counted": (
        "test", "count", "{test}", "--normal", "7", "--dead", "1", "--today", "2027-02-28",
    ),
    "test_list_running": ("test", "list", "--today", "2027-02-28"),
    "today": ("today", "--today", "2027-03-04"),
    "test_finished": ("test", "finish", "{test}", "--today", "2027-03-06"),
    "show_after_test": ("show", "{leek}", "--today", "2027-03-06"),
}  # fmt: skip


@pytest.fixture
def testing(type_in: Type, codes: dict[str, str]) -> dict[str, str]:
    """A running test of leek, counted once, and its code among the others."""
    test = type_in("test", "start", codes["leek"], "--seeds", "20", "--json").json["code"]
    type_in("test", "count", test, "--normal", "5", "--today", "2027-02-26")
    return codes | {"test": test}


@pytest.mark.parametrize("name", TESTING)
def test_the_words_of_a_test_are_as_they_were(
    type_in: Type, testing: dict[str, str], name: str
) -> None:
    """A test draws its code afresh each time, so it is set apart before the words are compared."""
    if name in {"test_finished", "show_after_test"}:
        type_in("test", "count", testing["test"], "--normal", "9", "--today", "2027-03-06")
    if name == "show_after_test":
        type_in("test", "finish", testing["test"], "--today", "2027-03-06")
    words = [word.format(**testing) if word.startswith("{") else word for word in TESTING[name]]
    said = type_in(*words).out
    said = re.sub(rf"{testing['test'][:4]} ?{testing['test'][4:]}", _masked, said)
    kept = HERE / f"{name}.txt"
    if os.environ.get("SEEDBOX_WRITE_GOLDEN"):
        kept.write_text(said, encoding="utf-8")
    assert said == kept.read_text(encoding="utf-8")


def _masked(found: re.Match[str]) -> str:
    return "T000 0000" if " " in found[0] else "T0000000"


def test_a_terminal_of_eighty_cells_is_never_overrun(
    type_in: Type, codes: dict[str, str], monkeypatch: pytest.MonkeyPatch
) -> None:
    from seedbox.cli import germination_page, packet_page, tables
    from seedbox.cli.commands import list_packets
    from seedbox.cli.commands.germination_test import list_tests

    for module in (tables, packet_page, list_packets, list_tests, germination_page):
        monkeypatch.setattr(module, "room", lambda: 80)
    for name in (
        "list", "show_tested", "show_treated", "show_poisonous", "test_list", "test_start_treated",
    ):  # fmt: skip
        words = [word.format(**codes) if word.startswith("{") else word for word in OUTPUTS[name]]
        for line in type_in(*words).out.splitlines():
            assert tables.cells(line) <= 80, line
