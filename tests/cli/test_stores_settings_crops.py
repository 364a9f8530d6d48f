"""Stores, settings, crops, history, backup, completion."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from seedbox.errors import ExitCode

Type = Callable[..., Any]


def test_stores_are_added_edited_listed_and_removed(type_in: Type) -> None:
    type_in("store", "add", "Shed", "--coolest", "3", "--warmest", "18", "--humidity", "65")
    type_in("store", "add", "Jar", "--temperature", "4", "--sealed", "--moisture", "6,5")
    listed = type_in("store", "list", "--json").json
    assert listed[1] == {
        "name": "Shed", "coolest_c": 3, "warmest_c": 18, "relative_humidity": 0.65,
        "sealed": False, "sealed_moisture_percent": None, "note": "", "packets": 0,
    }  # fmt: skip
    assert "3 to 18 °C over the year, 65 % humidity" in type_in("store", "list").out
    type_in("store", "edit", "shed", "--humidity", "60", "--name", "Cold shed")
    assert type_in("store", "list", "--json").json[0]["relative_humidity"] == pytest.approx(0.6)
    type_in("store", "remove", "cold")
    assert [store["name"] for store in type_in("store", "list", "--json").json] == ["Jar"]
    type_in("undo")
    assert len(type_in("store", "list", "--json").json) == 2


@pytest.mark.parametrize(
    ("words", "code", "part"),
    [
        (("--humidity", "50"), ExitCode.USAGE, "How warm"),
        (("--coolest", "5", "--humidity", "50"), ExitCode.USAGE, "--warmest"),
        (("--temperature", "18"), ExitCode.USAGE, "How damp"),
        (("--temperature", "18", "--warmest", "20", "--sealed"), ExitCode.USAGE, "not all"),
        (("--temperature", "99", "--sealed"), ExitCode.USAGE, "-40 to 60"),
        (("--temperature", "18", "--humidity", "140"), ExitCode.USAGE, "0 to 100"),
        (("--coolest", "20", "--warmest", "5", "--sealed"), ExitCode.BAD_DATA, "colder"),
    ],
)
def test_a_store_that_cannot_be_is_refused(
    type_in: Type, words: tuple[str, ...], code: int, part: str
) -> None:
    assert part in type_in("store", "add", "x", *words, code=code).err


def test_a_store_in_use_stays(type_in: Type) -> None:
    type_in("store", "add", "Shed", "--temperature", "9", "--humidity", "60")
    type_in("add", "leek", "--store", "Shed")
    assert "stays" in type_in("store", "remove", "Shed", code=ExitCode.BAD_DATA).err
    assert "already" in type_in(
        "store", "add", "shed", "--temperature", "9", "--sealed", code=ExitCode.BAD_DATA
    ).err  # fmt: skip


def test_a_store_is_found_by_a_part_of_its_name_that_is_its_own(type_in: Type) -> None:
    for name in ("Kitchen drawer", "Cold shed", "Old shed"):
        type_in("store", "add", name, "--temperature", "9", "--humidity", "60")
    assert type_in("add", "leek", "--store", "drawer", "--json").json["store"] == "Kitchen drawer"
    two = type_in("add", "leek", "--store", "shed", code=ExitCode.NOT_FOUND).err
    assert "Cold shed or Old shed" in two


def test_settings_are_shown_set_and_refused(type_in: Type, tin_path: Path) -> None:
    assert type_in("settings", "--json").json["region"] == "eu"
    assert not tin_path.exists(), "reading the settings must not make a tin"
    assert type_in("settings", "region", "us").lines[0] == "region is now us."
    assert type_in("settings", "region", "--json").json == {"region": "us"}
    type_in("settings", "label-offset-x-mm", "-1.5")
    assert type_in("settings", "--json").json["label_offset_x_mm"] == -1.5
    assert "eu or us" in type_in("settings", "region", "mars", code=ExitCode.BAD_DATA).err
    assert "region" in type_in("settings", "regoin", code=ExitCode.NOT_FOUND).err
    wrong_sheet = type_in("settings", "label_sheet", "a4-24-64x34", code=ExitCode.NOT_FOUND)
    assert "a4-24-64x34-gap" in wrong_sheet.err
    type_in("undo")
    type_in("undo")
    assert type_in("settings", "region").out.startswith("region is eu.")
    type_in("settings", "floor", "0.5")
    assert type_in("settings", "floor", "--reset", "--json").json["floor"] == 0.35
    type_in("settings", "--reset", code=ExitCode.USAGE)


def test_names_follow_the_setting(type_in: Type) -> None:
    type_in("add", "aubergine")
    assert type_in("list", "--json").json[0]["crop"] == "aubergine"
    type_in("settings", "names", "american")
    assert type_in("list", "--json").json[0]["crop"] == "eggplant"


def test_a_crop_page_has_a_source_and_a_mark_for_every_figure(type_in: Type) -> None:
    page = type_in("crop", "leek", "--json").json
    assert page["crop_id"] == "leek"
    assert len(page["figures"]) > 20
    for figure in page["figures"]:
        assert figure["source"], figure
        assert figure["mark"] in {"seen", "from memory", "computed"}, figure
    lines = type_in("crop", "leek").lines
    assert lines[0] == "leek"
    assert any(line.startswith("  [1] ") for line in lines)


def test_cautions_stand_first_on_the_page_of_a_poisonous_crop(type_in: Type) -> None:
    lines = type_in("crop", "foxglove").lines
    assert lines[2] == "Cautions"
    assert "poisonous" in lines[3]


def test_an_own_figure_is_shown_as_ones_own_used_and_cleared(type_in: Type) -> None:
    type_in("add", "leek", "--harvest", "2020", "--origin", "bought")
    before = type_in("list", "--json").json[0]["germination"]["mean"]
    type_in("crop", "leek", "--set", "storage_years=12", "--note", "our cellar")
    assert type_in("list", "--json").json[0]["germination"]["mean"] > before + 0.1
    own = [f for f in type_in("crop", "leek", "--json").json["figures"] if f["mark"] == "yours"]
    assert [(figure["key"], figure["value"]) for figure in own] == [("storage_years", "12")]
    assert "our cellar" in own[0]["source"]
    type_in("crop", "leek", "--clear", "storage_years")
    assert type_in("list", "--json").json[0]["germination"]["mean"] == before


@pytest.mark.parametrize(
    ("words", "code", "part"),
    [
        (("leek", "--set", "depth=20"), ExitCode.USAGE, "depth_mm"),
        (("leek", "--set", "depth_mm"), ExitCode.USAGE, "--set depth_mm=20"),
        (("leek", "--set", "depth_mm=deep"), ExitCode.BAD_DATA, "not a number"),
        (("leek", "--set", "depth_mm=9000"), ExitCode.BAD_DATA, "plausible"),
        (("leek", "--clear", "depth_mm"), ExitCode.NOT_FOUND, "no figure of your own"),
        (("--set", "depth_mm=20"), ExitCode.USAGE, "which crop"),
        (("leeek",), ExitCode.NOT_FOUND, "leek"),
        (("marigold",), ExitCode.NOT_FOUND, "pot marigold"),
    ],
)
def test_figures_that_make_no_sense_are_refused(
    type_in: Type, words: tuple[str, ...], code: int, part: str
) -> None:
    assert part in type_in("crop", *words, code=code).err


def test_an_own_crop_is_removed_when_no_packet_is_of_it(type_in: Type) -> None:
    code = type_in("add", "beckweed", "Blue", "--own-crop", "--json").json["code"]
    assert "stays" in type_in("crop", "beckweed", "--remove", code=ExitCode.BAD_DATA).err
    type_in("remove", code)
    assert "Removed your own crop beckweed" in type_in("crop", "beckweed", "--remove").out
    type_in("crop", "beckweed", code=ExitCode.NOT_FOUND)
    assert "no crop of your own" in type_in("crop", "leek", "--remove", code=ExitCode.NOT_FOUND).err


def test_all_crops_are_listed_without_a_name(type_in: Type, tin_path: Path) -> None:
    assert len(type_in("crop", "--json").json) == 214  # names.csv of the reference figures
    assert not tin_path.exists()


def test_history_shows_newest_first_and_says_when_there_is_more(type_in: Type) -> None:
    for crop in ("leek", "onion", "kale"):
        type_in("add", crop)
    said = type_in("history", "--limit", "2")
    assert "Add kale" in said.lines[1]
    assert "--limit" in said.lines[-1]
    type_in("undo")
    changes = type_in("history", "--json").json
    assert [(change["label"], change["state"]) for change in changes] == [
        ("Add kale", "undone"), ("Add onion", "done"), ("Add leek", "done"),
    ]  # fmt: skip
    assert changes[0]["made_at"].startswith("2027-02-20")


def test_a_backup_is_a_tin_and_never_overwrites(type_in: Type, tmp_path: Path) -> None:
    type_in("add", "leek", "Long Hill")
    copy = tmp_path / "copy.tin"
    type_in("backup", str(copy))
    type_in("undo")
    assert type_in("list", "--tin", str(copy), "--json").json[0]["variety"] == "Long Hill"
    assert "left as it is" in type_in("backup", str(copy), code=ExitCode.TIN).err


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_completion_prints_a_script(type_in: Type, shell: str) -> None:
    said = type_in("completion", shell)
    assert "_SEEDBOX_COMPLETE" in said.out
    assert said.lines[0].startswith("#")


def test_global_options_stand_before_or_after_the_command(type_in: Type, tmp_path: Path) -> None:
    other = str(tmp_path / "other.tin")
    type_in("--tin", other, "--today", "2026-05-01", "add", "leek")
    assert type_in("list", "--tin", other, "--json").json[0]["crop"] == "leek"
    assert type_in("history", "--tin", other, "--json").json[0]["made_at"].startswith("2026-05-01")
    assert "no tin" in type_in("list", code=ExitCode.TIN).err


def test_wrong_commands_and_options_are_met_with_the_nearest(type_in: Type) -> None:
    assert "Did you mean list" in type_in("lst", code=ExitCode.USAGE).err
    assert "--sort" in type_in("list", "--sotr", "year", code=ExitCode.USAGE).err
    assert type_in("--version").out.startswith("seedbox ")


def test_alone_and_without_a_terminal_it_explains_itself(type_in: Type) -> None:
    said = type_in(code=ExitCode.USAGE)
    assert "need a terminal" in said.err
    assert "Commands" in said.err or "list" in said.err
