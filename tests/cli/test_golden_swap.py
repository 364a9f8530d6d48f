"""The words and files of the swap, to the letter, on a described garden that never changes.

Regression values, as in `test_golden_garden`: they hold the words still and prove no figure. To
take new ones run `SEEDBOX_WRITE_GOLDEN=1 python -m pytest tests/cli/test_golden_swap.py` and read
the difference.
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
    "swap_spare": ("swap", "spare"),
    "swap_spare_why": ("swap", "spare", "--all", "--why"),
    "swap_want": ("swap", "want"),
    "swap_list": ("swap", "list", "--name", "Maud"),
    "swap_match": ("swap", "match", "tin", "{hall}/iestyn.csv", "{hall}/renee.csv"),
    "swap_match_json": (
        "swap",
        "match",
        "tin",
        "{hall}/iestyn.csv",
        "{hall}/renee.csv",
        "--json",
    ),
    "swap_give": ("swap", "give", "{kale}", "--to", "Ida"),
}


def _check(name: str, said: str) -> None:
    kept = HERE / name
    if os.environ.get("SEEDBOX_WRITE_GOLDEN"):
        kept.write_text(said, encoding="utf-8")
    assert said == kept.read_text(encoding="utf-8")


def _filled(words: tuple[str, ...], plot: Any) -> list[str]:
    return [word.format(**plot.packets, hall=HERE / "swap_hall") for word in words]


@pytest.fixture
def swapping(type_in: Type, plot: Any) -> Any:
    """The garden of the goldens with two wants, and packets that are poor, hybrid or held back."""
    type_in("swap", "want", "courgette", "Awning", "--portions", "2", "--worth", "4")
    type_in("swap", "want", "pea")
    tin = ("--store", "tin", "--received", "2026-09-01")
    type_in("add", "swede", "Cart Wheel", "--grams", "9", "--harvest", "2024", "--code",
            "PYB4AN6J", "--origin", "saved", *tin)  # fmt: skip
    type_in("test", "record", "PYB4AN6J", "--seeds", "50", "--germinated", "28", "--on",
            "2027-02-01", "--grams", "0.1")  # fmt: skip
    type_in("add", "cabbage", "Slate F1", "--seeds", "400", "--packed", "2026", "--code",
            "PF3AVNAZ", *tin)  # fmt: skip
    type_in("add", "larkspur", "Bell", "--grams", "2", "--harvest", "2026", "--code",
            "P0TEEHGP", *tin)  # fmt: skip
    type_in("add", "shallot", "Red Sets", "--seeds", "30", "--stock", "--code", "PERB1RG8", *tin)
    type_in("settings", "swap_law", "gb")
    return plot


def test_the_words_and_files_are_as_they_were(type_in: Type, swapping: Any, tmp_path: Path) -> None:
    for kind in ("csv", "json"):
        file = tmp_path / f"list.{kind}"
        type_in("swap", "list", str(file), "--name", "Maud", "--town", "Hobbin Beck")
        _check(f"swap_list.{kind}", file.read_bytes().decode("utf-8").replace("\r\n", "\n"))
    for name, words in OUTPUTS.items():
        _check(f"{name}.txt", type_in(*_filled(words, swapping)).out)


def test_a_terminal_of_eighty_cells_is_never_overrun(
    type_in: Type, swapping: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    from seedbox.cli import tables
    from seedbox.cli.commands.swap import list_to_give, match, spare, want

    for module in (tables, spare, want, list_to_give, match):
        monkeypatch.setattr(module, "room", lambda: 80)
    for name, words in OUTPUTS.items():
        if name.endswith("json"):
            continue
        for line in type_in(*_filled(words, swapping)).out.splitlines():
            # A command to type is one line, so that it can be copied.
            if not line.strip().startswith("seedbox "):
                assert tables.cells(line) <= 80, (name, line)
