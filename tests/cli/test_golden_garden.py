"""The plain text of the garden's commands, word for word, on a described garden that never changes.

Regression values, as in `test_golden`: they hold the words still and prove no figure. To take new
ones run `SEEDBOX_WRITE_GOLDEN=1 python -m pytest tests/cli/test_golden_garden.py` and read the
difference.
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
    "garden": ("garden",),
    "place_list": ("place", "list"),
    "plan_list": ("plan", "list"),
    "now": ("now", "--left-out"),
    "now_march": ("now", "--today", "2027-03-14", "--all"),
    "sowings": ("sowings", "list", "--all"),
    "sowing": ("sowings", "{leek}"),
    "today_garden": ("today", "--ahead", "14"),
    "year": ("year",),
    "buy": ("buy",),
    "save_seed": ("save-seed",),
}
# A new sowing draws its code afresh each time, so it is set apart before the words are compared.
CHANGES = {
    "sow": ("sow", "{kale}", "--plants", "12", "--place", "sill"),
    "sow_row": ("sow", "{parsnip}", "--seeds", "90", "--row", "3", "--place", "bed"),
    "resow": ("resow", "{sweet pea}", "--place", "sill"),
    "done_count": ("done", "{leek}-count", "--count", "70"),
    "put_off": ("put-off", "{leek}-count", "--until", "2027-02-27"),
    "save_seed_packet": ("save-seed", "{broad bean}", "--grams", "80", "--store", "tin"),
}


def _check(name: str, said: str) -> None:
    kept = HERE / f"{name}.txt"
    if os.environ.get("SEEDBOX_WRITE_GOLDEN"):
        kept.write_text(said, encoding="utf-8")
    assert said == kept.read_text(encoding="utf-8")
    assert not any(line != line.rstrip() for line in said.splitlines())


@pytest.mark.parametrize("name", OUTPUTS)
def test_the_words_are_as_they_were(type_in: Type, plot: Any, name: str) -> None:
    words = [word.format(**plot.sowings) for word in OUTPUTS[name]]
    _check(name, type_in(*words).out)


@pytest.mark.parametrize("name", CHANGES)
def test_the_words_after_a_change_are_as_they_were(type_in: Type, plot: Any, name: str) -> None:
    known = {**plot.packets, **plot.sowings}
    said = type_in(*(word.format(**known) for word in CHANGES[name])).out
    lists = (("sowings", "--all", "--json"), ("list", "--json"))
    codes = {one["code"] for words in lists for one in type_in(*words).json}
    for code in codes - {*plot.packets.values(), *plot.sowings.values()}:
        said = said.replace(code, f"{code[0]}0000000")
        said = said.replace(f"{code[:4]} {code[4:]}", f"{code[0]}000 0000")
    _check(name, said)


def test_a_terminal_of_eighty_cells_is_never_overrun(
    type_in: Type, plot: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    from seedbox.cli import tables
    from seedbox.cli.commands import buy, place, plan
    from seedbox.cli.commands.sowings import list_sowings

    for module in (tables, buy, place, plan, list_sowings):
        monkeypatch.setattr(module, "room", lambda: 80)
    for name, words in OUTPUTS.items():
        for line in type_in(*(word.format(**plot.sowings) for word in words)).out.splitlines():
            # A command to type is one line, so that it can be copied.
            if not line.strip().startswith("seedbox "):
                assert tables.cells(line) <= 80, (name, line)
