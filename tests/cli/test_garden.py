"""The garden, its places and its plans: shown, set, put right, refused."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from seedbox.errors import ExitCode

Type = Callable[..., Any]


def test_a_new_garden_says_what_to_type(type_in: Type) -> None:
    said = type_in("garden", "--name", "Mill Lane").out
    assert "last frost of spring:   not said yet" in said
    assert "seedbox garden --last-frost 04-25 --first-frost 10-25 --latitude 52" in said
    assert "seedbox place add" in said


@pytest.mark.parametrize("last", ["04-25", "25 April", "April 25", "25th Apr", "4-25"])
def test_frosts_in_any_usual_spelling(type_in: Type, last: str) -> None:
    type_in("garden", "--last-frost", last, "--first-frost", "25 October", "--latitude", "52")
    facts = type_in("garden", "--json").json
    assert (facts["last_spring_frost"], facts["first_autumn_frost"]) == ("04-25", "10-25")
    assert facts["latitude"] == 52.0
    assert "183 days" in type_in("garden").out  # 25 April to 25 October by the calendar


def test_a_garden_without_frost_and_one_in_the_south(type_in: Type) -> None:
    said = type_in("garden", "--last-frost", "none", "--latitude", "-12.5").out
    assert said.count("none: frost never comes") == 2
    assert "12.5° south" in said
    assert type_in("garden", "--json").json["first_autumn_frost"] == "none"


def test_one_undo_takes_a_whole_description_back(type_in: Type) -> None:
    type_in("garden", "--name", "First")
    type_in("garden", "--name", "Second", "--latitude", "50", "--cell-depth", "9")
    type_in("undo")
    facts = type_in("garden", "--json").json
    assert (facts["name"], facts["latitude"], facts["cell_depth_cm"]) == ("First", None, 5)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--last-frost", "30 February"), "is not a day of every year"),
        (("--last-frost", "soon"), "Write month and day as 04-25"),
        (("--last-frost", "none", "--first-frost", "10-25"), "or neither"),
        (("--last-frost", "04-25", "--first-frost", "04-25", "--latitude", "50"), "the same day"),
        (("--latitude", "95"), "from -90 to 90"),
        (("--region", "moon"), "eu or us"),
        (("--tray-cells", "many"), "tray_cells takes"),
    ],
)
def test_what_makes_no_sense_is_refused_and_nothing_kept(
    type_in: Type, words: tuple[str, ...], told: str
) -> None:
    type_in("garden", "--name", "Kept")
    before = type_in("garden", "--json").json
    said = type_in("garden", *words, code=None)
    assert said.code in (ExitCode.USAGE, ExitCode.BAD_DATA)
    assert told in said.err
    assert type_in("garden", "--json").json == before


def test_places_are_added_listed_changed_and_removed(type_in: Type) -> None:
    type_in("place", "add", "Sill", "--kind", "wind", "--temperature", "18", "--light", "100",
            "--hours", "10")  # fmt: skip
    bed = "4 4 6 9 13 16 18 18 15 11 7 5"
    type_in("place", "add", "Bed", "--kind", "bed", "--months", bed)
    type_in("place", "add", "House", "--kind", "greenhouse", "--coolest", "5", "--warmest", "22")
    found = {place["name"]: place for place in type_in("place", "list", "--json").json}
    assert {name: place["method"] for name, place in found.items()} == {
        "Sill": "indoors", "Bed": "outdoors", "House": "under cover"}  # fmt: skip
    # Daily light integral by definition: 100 µmol/m²s for 10 h are 3.6 mol/m².
    assert found["Sill"]["daily_light"].startswith("3.6 mol/m² a day")
    assert found["Bed"]["months_c"] == [float(mean) for mean in bed.split()]
    assert "4 to 18 °C, month by month" in type_in("place", "list").out
    assert "20 °C" in type_in("place", "edit", "sill", "--temperature", "20").out
    type_in("place", "edit", "House", "--name", "Cold house", "--kind", "cold frame")
    type_in("place", "remove", "cold")
    assert [place["name"] for place in type_in("place", "list", "--json").json] == ["Bed", "Sill"]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("add", "X", "--kind", "bed"), "How warm is it there?"),
        (("add", "X", "--kind", "bed", "--coolest", "4"), "How warm is it there?"),
        (("add", "X", "--kind", "cellar", "--temperature", "4"), "is none of: windowsill"),
        (("add", "X", "--temperature", "4"), "--kind"),
        (("add", "X", "--kind", "bed", "--months", "1 2 3"), "twelve temperatures"),
        (("add", "X", "--kind", "bed", "--months", "a b"), "is not a number"),
        (("add", "X", "--kind", "bed", "--temperature", "4", "--coolest", "3"), "only one"),
        (("add", "X", "--kind", "bed", "--temperature", "90"), "from -40 to 50"),
        (("add", "X", "--kind", "bed", "--temperature", "9", "--light", "90"), "how many hours"),
        (("add", "bed", "--kind", "bed", "--temperature", "9"), "a place “Bed” already"),
        (("edit", "Bed"), "Say what to change"),
        (("edit", "Attic", "--temperature", "9"), "no place called “Attic”"),
        (("remove", "Bed"), "Sowings stood in Bed"),
    ],
)
@pytest.mark.usefixtures("plot")
def test_places_that_cannot_be(type_in: Type, words: tuple[str, ...], told: str) -> None:
    before = type_in("place", "list", "--json").json
    said = type_in("place", *words, code=None)
    assert said.code in (ExitCode.USAGE, ExitCode.BAD_DATA, ExitCode.NOT_FOUND)
    assert told in said.err
    assert type_in("place", "list", "--json").json == before


def test_plans_are_added_listed_changed_and_removed(type_in: Type, code_of: Any) -> None:
    code_of("tomato", "Ferry Lamp", "--seeds", "20")
    type_in("plan", "add", "broad", "bean", "--plants", "40")
    type_in("plan", "add", "tomato", "Ferry Lamp", "--plants", "6", "--year", "2027")
    said = type_in("plan", "edit", "broad bean", "--again", "21", "--plants", "20").out
    assert "20 plants of broad bean, sown again every 21 days" in said
    found = type_in("plan", "list", "--json").json
    assert [(plan["crop"], plan["variety"], plan["plants"], plan["again_days"], plan["year"])
            for plan in found] == [("broad bean", "", 20, 21, None),
                                   ("tomato", "Ferry Lamp", 6, None, 2027)]  # fmt: skip
    type_in("plan", "edit", "broad bean", "--again", "0")
    assert type_in("plan", "list", "--json").json[0]["again_days"] is None
    type_in("plan", "remove", "tomato", "ferry lamp", "--year", "2027")
    assert [plan["crop"] for plan in type_in("plan", "list", "--json").json] == ["broad bean"]
    type_in("undo")
    assert len(type_in("plan", "list", "--json").json) == 2


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("add", "kale", "--plants", "5"), "planned already"),
        (("add", "moonwort", "--plants", "5"), "moonwort"),
        (("add", "kale", "Tall Lantern", "--plants", "0"), "1 or more"),
        (("add", "chard"), "--plants"),
        (("edit", "kale"), "Say what to change"),
        (("edit", "chard", "--plants", "3"), "There is no plan of chard"),
        (("remove", "kale", "--year", "2030"), "no plan of kale for 2030"),
    ],
)
@pytest.mark.usefixtures("plot")
def test_plans_that_cannot_be(type_in: Type, words: tuple[str, ...], told: str) -> None:
    before = type_in("plan", "list", "--json").json
    said = type_in("plan", *words, code=None)
    assert said.code in (ExitCode.USAGE, ExitCode.BAD_DATA, ExitCode.NOT_FOUND)
    assert told in said.err
    assert type_in("plan", "list", "--json").json == before
