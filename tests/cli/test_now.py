"""What this tin can sow now: order, reasons, what was left out, and the shape of the JSON."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

import pytest

from seedbox.errors import ExitCode

Type = Callable[..., Any]
Code = Callable[..., str]
# What other programs may rely on; more keys may stand beside them.
KEYS = {"code", "crop", "variety", "method", "place", "emergence_days", "depth_mm", "cells",
        "seeds_per_cell", "seeds", "plants", "assurance", "window_closes", "reason"}  # fmt: skip


def test_a_garden_without_frosts_says_which_command_to_type(type_in: Type, code_of: Code) -> None:
    code_of("kale", "Tall Lantern", "--seeds", "90")
    said = type_in("now")
    assert "  seedbox garden --last-frost 04-25 --first-frost 10-25 --latitude 52\n" in said.out
    assert '  seedbox place add "kitchen windowsill" --kind windowsill' in said.out
    bare = type_in("now", "--json")
    assert bare.json == []
    assert "last spring frost" in bare.err


def test_what_it_says_to_type_leads_to_an_answer(type_in: Type, code_of: Code) -> None:
    """A grower who never saw the program types the indented lines as they stand."""
    import shlex

    code_of("kale", "Tall Lantern", "--seeds", "90")
    for line in type_in("now").lines:
        if line.startswith("  seedbox "):
            type_in(*shlex.split(line)[1:])
    said = type_in("now").lines
    assert "1 packet to sow from" in said[0]
    command = next(line for line in said if line.strip().startswith("seedbox sow"))
    assert "Sown S" in type_in(*shlex.split(command)[1:]).out


def test_json_has_what_was_promised(type_in: Type, plot: Any) -> None:
    found = type_in("now", "--json").json
    assert found
    for offer in found:
        assert offer.keys() >= KEYS
        assert offer["method"] in ("indoors", "under cover", "outdoors")
        assert offer["emergence_days"].keys() == {"low", "mid", "high"}
        days = offer["emergence_days"]
        assert 0 < days["low"] <= days["mid"] <= days["high"]
        assert 0.9 <= offer["assurance"] <= 1
        assert date.fromisoformat(offer["window_closes"]) >= date(2027, 2, 20)
        if offer["cells"] is not None:
            assert offer["seeds"] == offer["cells"] * offer["seeds_per_cell"]
        assert offer["plants"] <= offer["seeds"]
    kale = next(offer for offer in found if offer["crop"] == "kale")
    assert (kale["code"], kale["plants"]) == (plot.packets["kale"], 12)
    assert kale["depth_mm"] == pytest.approx(10, abs=4)  # about 10 mm: common practice, no source


@pytest.mark.usefixtures("plot")
def test_plans_not_met_come_before_what_nobody_planned(type_in: Type) -> None:
    found = type_in("now", "--json").json
    unmet = [at for at, offer in enumerate(found) if "none sown yet" in offer["reason"]]
    others = [at for at, offer in enumerate(found) if "plan of" not in offer["reason"]]
    assert unmet and others
    assert max(unmet) < min(others)


@pytest.mark.usefixtures("plot")
def test_what_is_left_out_has_its_reason(type_in: Type) -> None:
    said = type_in("now", "--left-out").out
    left_out = said[said.index("Left out:") :]
    assert "tomato Ferry Lamp" in left_out
    assert "too early: opens 7 March, 7 weeks before the last frost (indoors)" in left_out
    assert "the packet is spent" in left_out
    assert "4 packets left out; why: seedbox now --left-out" in type_in("now").out


@pytest.mark.usefixtures("plot")
def test_one_crop_and_one_place(type_in: Type) -> None:
    crops = {offer["crop"] for offer in type_in("now", "--crop", "lettuce", "--json").json}
    assert crops == {"lettuce"}
    said = type_in("now", "--crop", "tomato").out
    assert "nothing to sow that fits" in said
    assert "opens 7 March" in said
    inside = type_in("now", "--place", "greenhouse", "--json").json
    assert {offer["place"] for offer in inside} == {"Cold greenhouse"}


@pytest.mark.usefixtures("plot")
def test_fewest_cells_takes_no_more_cells(type_in: Type) -> None:
    saving = {one["code"]: one for one in type_in("now", "--json").json}
    dense = {one["code"]: one for one in type_in("now", "--fewest-cells", "--json").json}
    pairs = [(saving[code], dense[code]) for code in saving.keys() & dense.keys()]
    tried = [(one, two) for one, two in pairs if one["cells"] and two["plants"] == one["plants"]]
    assert tried
    assert all(two["cells"] <= one["cells"] for one, two in tried)
    assert any(two["cells"] < one["cells"] for one, two in tried)


@pytest.mark.usefixtures("plot")
def test_as_usual_cells_are_few_where_seed_is_plenty(type_in: Type, code_of: Code) -> None:
    code = code_of("kale", "Short Lantern", "--seeds", "400", "--packed", "2026")
    usual, saving = (
        type_in("sow", code, "--plants", "12", *aim, "--dry-run", "--json").json
        for aim in ((), ("--fewest-seeds",))
    )
    assert (usual["seeds_per_cell"], saving["seeds_per_cell"]) == (3, 1)
    assert usual["cells"] < 0.7 * saving["cells"]
    assert usual["seeds"] <= 100
    said = type_in("now", "--crop", "kale", "--fewest-seeds").out
    assert '--place "Kitchen windowsill" --fewest-seeds' in said
    dense = type_in("sow", code, "--plants", "12", "--fewest-cells", "--json").json
    assert dense["cells"] <= usual["cells"]
    both = ("sow", code, "--fewest-cells", "--fewest-seeds")
    assert "not both" in type_in(*both, code=ExitCode.USAGE).err
    settled = ("sow", code, "--cells", "6", "--fewest-cells")
    assert "the numbers are yours" in type_in(*settled, code=ExitCode.USAGE).err


@pytest.mark.usefixtures("plot")
def test_the_same_garden_in_the_south_says_the_same_half_a_year_later(type_in: Type) -> None:
    """Frosts mirrored by half a year and the place constant: no month is special."""
    type_in("place", "remove", "Cold greenhouse", code=None)
    north = type_in("now", "--place", "windowsill", "--json", "--today", "2027-03-15").json
    type_in("garden", "--last-frost", "10-25", "--first-frost", "04-25", "--latitude", "-52")
    south = type_in("now", "--place", "windowsill", "--json", "--today", "2027-09-14").json
    assert {one["crop"] for one in north} == {one["crop"] for one in south}


def test_wrong_names_and_no_tin(type_in: Type, code_of: Code) -> None:
    assert "There is no tin" in type_in("now", code=ExitCode.TIN).err
    code_of("kale", "Tall Lantern", "--seeds", "90")
    assert "moonwort" in type_in("now", "--crop", "moonwort", code=ExitCode.NOT_FOUND).err
    assert "no place called" in type_in("now", "--place", "attic", code=ExitCode.NOT_FOUND).err
