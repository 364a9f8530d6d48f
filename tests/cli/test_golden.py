"""The plain text of the reading commands, word for word, on a small tin that never changes.

These are regression values: they hold the look and the words still. Whether the figures are right
is tested in the science and season rooms. To take new ones after a change of the model, run
`SEEDBOX_WRITE_GOLDEN=1 python -m pytest tests/cli/test_golden.py` and read the difference.
"""

from __future__ import annotations

import os
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


def test_a_terminal_of_eighty_cells_is_never_overrun(
    type_in: Type, codes: dict[str, str], monkeypatch: pytest.MonkeyPatch
) -> None:
    from seedbox.cli import packet_page, tables
    from seedbox.cli.commands import list_packets

    for module in (tables, packet_page, list_packets):
        monkeypatch.setattr(module, "room", lambda: 80)
    for name in ("list", "show_tested", "show_treated", "show_poisonous"):
        words = [word.format(**codes) if word.startswith("{") else word for word in OUTPUTS[name]]
        for line in type_in(*words).out.splitlines():
            assert tables.cells(line) <= 80, line
