"""Packets by commands: in, put right, out, moved, tested, and every step taken back."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from seedbox.errors import ExitCode
from seedbox.tin.codes import shown

Type = Callable[..., Any]
Code = Callable[..., str]


@pytest.fixture(autouse=True)
def stores(type_in: Type) -> None:
    type_in("store", "add", "Drawer", "--coolest", "17", "--warmest", "23", "--humidity", "55")
    type_in("store", "add", "Jar", "--temperature", "5", "--sealed", "--moisture", "6")


def test_a_packet_is_added_with_all_that_is_known(type_in: Type) -> None:
    said = type_in(
        "add", "tomato", "Old Bargeman", "--harvest", "2024", "--sow-by", "2028-12",
        "--seeds", "40", "--origin", "swapped", "--from", "Maud", "--store", "drawer",
        "--treated", "none", "--germination", "85%", "--tested-on", "2025-01-10",
        "--note", "red and long", "--tag", "red", "--tag", "early", "--json",
    )  # fmt: skip
    shown_again = type_in("show", said.json["code"], "--json").json
    assert shown_again["crop_id"] == "tomato"
    assert shown_again["variety"] == "Old Bargeman"
    assert shown_again["harvest_year"] == 2024
    assert shown_again["sow_by"] == "2028-12-31"
    assert (shown_again["seeds"], shown_again["grams"]) == (40, None)
    assert (shown_again["origin"], shown_again["source"]) == ("swapped", "Maud")
    assert shown_again["store"] == "Drawer"
    assert shown_again["printed_germination"] == pytest.approx(0.85)
    assert shown_again["printed_on"] == "2025-01-10"
    assert shown_again["tags"] == ["red", "early"]


def test_the_sentence_after_an_add_has_code_quantity_and_germination(type_in: Type) -> None:
    lines = type_in("add", "leek", "Long Hill", "--harvest", "2026", "--grams", "2,5").lines
    assert lines[0].startswith("Added P")
    assert "leek, Long Hill, 2.5 g" in lines[0]
    assert "Germination now about" in lines[0]
    assert lines[1] == "Undo with: seedbox undo"


@pytest.mark.parametrize(
    ("words", "crop_id", "variety"),
    [
        (("broad bean", "Tall Lantern"), "bean_broad", "Tall Lantern"),
        (("broad", "bean", "Tall", "Lantern"), "bean_broad", "Tall Lantern"),
        (("fava", "bean"), "bean_broad", ""),
        (("eggplant",), "aubergine", ""),
        (("Aubergine", "Old Bess"), "aubergine", "Old Bess"),
    ],
)
def test_crops_are_known_by_any_name_and_without_quotation_marks(
    type_in: Type, words: tuple[str, ...], crop_id: str, variety: str
) -> None:
    added = type_in("add", *words, "--json").json
    assert (added["crop_id"], added["variety"]) == (crop_id, variety)


def test_no_name_and_an_endless_name_are_met_with_one_line(type_in: Type) -> None:
    assert "Say which crop" in type_in("add", " ", code=ExitCode.USAGE).err
    assert len(type_in("add", "x" * 5000, code=ExitCode.NOT_FOUND).err) < 1500


def test_a_clash_is_offered_and_a_near_miss_suggested(type_in: Type) -> None:
    clash = type_in("add", "marigold", "Sunny", code=ExitCode.NOT_FOUND)
    assert "pot marigold" in clash.err and "--own-crop" not in clash.err
    near = type_in("add", "tomatoe", "Sunny", code=ExitCode.NOT_FOUND)
    assert "tomato" in near.err
    assert "--own-crop" in near.err
    assert type_in("list").out.startswith("The tin is empty")


def test_planting_stock_of_an_unknown_kind_is_told_how_to_be_kept(type_in: Type) -> None:
    assert "--stock" in type_in("add", "garlic", "Shed Row", code=ExitCode.NOT_FOUND).err
    words = ("add", "garlic", "Shed Row", "--own-crop", "--stock", "--seeds", "8", "--json")
    assert type_in(*words).json["kind"] == "planting stock"


def test_sets_and_cloves_are_planting_stock_without_an_option(type_in: Type) -> None:
    said = type_in("add", "onion", "sets", "--seeds", "50").out
    assert "Taken for planting stock; if it is seed: seedbox edit" in said
    for words in (("onion", "Brown Sets"), ("garlic", "Shed Row", "--own-crop")):
        assert type_in("add", *words, "--json").json["kind"] == "planting stock"
    seed = (("onion", "sets", "--seed"), ("runner bean", "Long Runners"), ("onion", "Brown"))
    for words in (*seed, ("onion", "sets", "--germination", "80%", "--tested-on", "2026-10-01")):
        assert type_in("add", *words, "--json").json["kind"] == "seed", words


def test_a_poisonous_kind_outside_the_almanac_is_named_as_such(type_in: Type) -> None:
    for words in (("crop", "datura"), ("add", "datura", "Moon")):
        said = type_in(*words, code=ExitCode.NOT_FOUND).err
        assert "No crop is known" in said and "Poisonous: serious" in said


def test_an_own_crop_comes_with_its_packet_and_goes_with_one_undo(type_in: Type) -> None:
    added = type_in("add", "beckweed", "Blue", "--own-crop", "--family", "Rosaceae", "--json").json
    assert added["crop_id"].startswith("own:")
    assert added["germination"]["low"] < added["germination"]["high"]
    type_in("undo")
    type_in("add", "beckweed", "Blue", code=ExitCode.NOT_FOUND)


def test_a_clash_cannot_become_an_own_crop(type_in: Type) -> None:
    assert "pot marigold" in type_in("add", "marigold", "--own-crop", code=ExitCode.NOT_FOUND).err


@pytest.mark.parametrize(
    ("words", "code", "part"),
    [
        (("--seeds", "5", "--grams", "5"), ExitCode.USAGE, "not both"),
        (("--seeds", "2.5"), ExitCode.BAD_DATA, "whole numbers"),
        (("--seeds", "-3"), ExitCode.USAGE, "0 or more"),
        (("--seeds", "many"), ExitCode.USAGE, "not a number"),
        (("--harvest", "24"), ExitCode.USAGE, "four digits"),
        (("--harvest", "2099"), ExitCode.BAD_DATA, "2099"),
        (("--harvest", "2024", "--bought", "2020"), ExitCode.BAD_DATA, "before its harvest"),
        (("--sow-by", "03/04/2027"), ExitCode.USAGE, "2027-04-03"),
        (("--store", "attic"), ExitCode.NOT_FOUND, "Drawer, Jar"),
        (("--germination", "1"), ExitCode.USAGE, "1% or 100%"),
        (("--tested-on", "2024-01-01"), ExitCode.USAGE, "--germination"),
        (("--ean", "4006381333932"), ExitCode.BAD_DATA, "check digit"),
        (("--parent", "P0000000"), ExitCode.BAD_DATA, "check character"),
        (("--received", "2028-01-01"), ExitCode.BAD_DATA, "future"),
        (("--origin", "stolen"), ExitCode.USAGE, "bought, saved, swapped, gift"),
        (("--note", "bell\x07"), ExitCode.USAGE, "control character"),
        (("--code", "P4K7QMX3"), ExitCode.BAD_DATA, "check character"),
        (("--sealed",), ExitCode.USAGE, "--store"),
        (("--moisture", "6"), ExitCode.USAGE, "--store"),
    ],
)
def test_what_cannot_be_is_refused_in_words_and_adds_nothing(
    type_in: Type, words: tuple[str, ...], code: int, part: str
) -> None:
    said = type_in("add", "leek", "Long Hill", *words, code=code)
    assert part in said.err
    assert type_in("list", "--json").json == []


def test_taking_counts_down_and_says_what_is_left(type_in: Type, code_of: Code) -> None:
    code = code_of("leek", "Long Hill", "--seeds", "40")
    assert "28 seeds left" in type_in("take", code, "12").out
    assert "25 seeds left" in type_in("take", code, "3", "--given", "--note", "swap day").out
    refused = type_in("take", code, "26", code=ExitCode.BAD_DATA)
    assert "only 25 seeds left" in refused.err
    assert "changes nothing" in type_in("take", code, "0", code=ExitCode.USAGE).err
    assert "empty now" in type_in("take", code, "all", "--lost").out
    assert "empty already" in type_in("take", code, "all", code=ExitCode.BAD_DATA).err
    assert type_in("list", "--json").json == []
    assert len(type_in("list", "--empty", "--json").json) == 1
    journal = type_in("show", code, "--json").json["journal"]
    assert [(entry["kind"], entry["amount"]) for entry in journal] == [
        ("received", 40), ("sown", 12), ("given", 3), ("lost", 25),
    ]  # fmt: skip
    assert journal[2]["note"] == "swap day"


def test_codes_in_every_spelling(type_in: Type, code_of: Code) -> None:
    code = code_of("leek", "--seeds", "40")
    spellings = [
        (code,), (code.lower(),), (shown(code),), tuple(shown(code).split()),
        (f"{code[:4]}-{code[4:]}",), (code.replace("1", "l").replace("0", "o"),),
    ]  # fmt: skip
    for number, words in enumerate(spellings, 1):
        assert f"{40 - number} seeds left" in type_in("take", *words, "1").out


def test_a_wrong_code_says_why(type_in: Type, code_of: Code) -> None:
    code = code_of("leek", "--seeds", "40")
    other = "0" if code[-1] != "0" else "1"
    slip = type_in("take", code[:-1] + other, "1", code=ExitCode.BAD_DATA)
    assert "check character does not match" in slip.err
    type_in("remove", code)
    assert shown(code) in type_in("show", code, code=ExitCode.NOT_FOUND).err
    assert "amount" in type_in("take", code, code=ExitCode.USAGE).err
    assert "one code" in type_in("show", code, code, code=ExitCode.USAGE).err


def test_all_of_an_uncounted_packet_asks_for_a_count(type_in: Type, code_of: Code) -> None:
    code = code_of("leek")
    assert "recount" in type_in("take", code, "all", code=ExitCode.BAD_DATA).err
    assert "is not known" in type_in("take", code, "5").out
    assert type_in("take", code, "some", "--given").out.startswith("Some seed given")
    assert "before: not counted" in type_in("recount", code, "17").out
    assert type_in("list", "--json").json[0]["seeds"] == 17


def test_grams_stay_grams(type_in: Type, code_of: Code) -> None:
    code = code_of("leek", "--grams", "10")
    assert "7.5 g left" in type_in("take", code, "2.5g").out
    assert "kept in grams" in type_in("take", code, "5 seeds", code=ExitCode.BAD_DATA).err
    assert "now holds 6 g" in type_in("recount", code, "6", "--grams").out
    assert "--grams" in type_in(
        "test", "record", code, "--seeds", "20", "--germinated", "14", code=ExitCode.USAGE
    ).err  # fmt: skip


def test_moving_keeps_the_past_and_moves_several(type_in: Type, code_of: Code) -> None:
    old = code_of("leek", "--seeds", "4", "--store", "Drawer", "--received", "2025-03-01")
    new = code_of("onion", "--seeds", "4")
    assert type_in("move", old, new, "--to", "jar").lines[0] == "Moved 2 packets to Jar."
    storage = type_in("show", old, "--json").json["storage"]
    assert [(each["from"], each["store"]) for each in storage] == [
        ("2025-03-01", "Drawer"), ("2027-02-20", "Jar"),
    ]  # fmt: skip
    assert storage[1]["sealed"]
    assert storage[1]["moisture_percent"] == 6
    assert "already" in type_in("move", old, "--to", "jar").out
    early = type_in("move", old, "--to", "jar", "--on", "2024-01-01", code=ExitCode.BAD_DATA)
    assert "cannot be earlier" in early.err
    type_in("move", old, "--to", "Drawer", "--moisture", "6", code=ExitCode.USAGE)


def test_editing_changes_clears_and_tags(type_in: Type, code_of: Code) -> None:
    code = code_of("leek", "Long Hil", "--harvest", "2023", "--tag", "old", "--note", "x")
    said = type_in("edit", code, "--variety", "Long Hill", "--tag", "winter", "--clear", "note")
    assert "variety, note, tags changed" in said.out
    type_in("edit", code, "--untag", "OLD")
    packet = type_in("show", code, "--json").json
    assert (packet["variety"], packet["note"], packet["tags"]) == ("Long Hill", "", ["winter"])
    assert packet["harvest_year"] == 2023
    type_in("edit", code, "--crop", "onion")
    assert type_in("show", code, "--json").json["crop"] == "onion"
    assert "Nothing was different" in type_in("edit", code, "--variety", "Long Hill").out
    assert "Say what to change" in type_in("edit", code, code=ExitCode.USAGE).err
    assert "itself" in type_in("edit", code, "--parent", code, code=ExitCode.BAD_DATA).err


def test_more_of_the_same_lot_comes_in(type_in: Type, code_of: Code) -> None:
    code = code_of("leek", "--seeds", "40")
    said = type_in("receive", code, "10", "--note", "second bag")
    assert "it holds 50 seeds now" in said.out
    assert "kept in seeds" in type_in("receive", code, "2g", code=ExitCode.BAD_DATA).err
    type_in("undo")
    assert type_in("list", "--json").json[0]["seeds"] == 40


def test_the_code_of_a_test_shows_its_packet_and_strikes_it_out(
    type_in: Type, code_of: Code
) -> None:
    code = code_of("leek", "--seeds", "40")
    words = ("test", "record", code, "--seeds", "10", "--germinated", "6", "--json")
    test = type_in(*words).json["test"]
    assert type_in("show", test, "--json").json["code"] == code
    type_in("test", "remove", shown(test))
    assert type_in("test", "list", "--json").json == []
    assert type_in("list", "--json").json[0]["seeds"] == 30
    assert "no germination test" in type_in("test", "remove", test, code=ExitCode.NOT_FOUND).err
    assert "germination test" in type_in("show", test, code=ExitCode.NOT_FOUND).err


def test_planting_stock_has_a_shelf_date_and_no_forecast(type_in: Type, code_of: Code) -> None:
    code = code_of("onion", "Brown Sets", "--stock", "--bought", "2027")
    listed = type_in("list", "--json").json[0]
    assert listed["germination"] is None
    assert listed["advice"] is None
    assert listed["good_until"] > "2027-02-20"
    assert "planting stock" in type_in("list").out
    assert "No forecast: plant it by" in type_in("show", code).out


def test_a_test_moves_the_forecast_and_takes_its_seed(type_in: Type, code_of: Code) -> None:
    code = code_of(
        "parsnip", "Sexton", "--harvest", "2023", "--seeds", "50", "--received", "2024-01-10"
    )
    before = type_in("list", "--json").json[0]["germination"]["mean"]
    words = ("test", "record", code, "--seeds", "20")
    good = type_in(*words, "--germinated", "18", "--on", "yesterday", "--json").json
    assert good["germination"]["mean"] > before + 0.1
    listed = type_in("list", "--json").json[0]
    assert listed["seeds"] == 30
    assert "Tested 19 February 2027: 18 of 20." in listed["rests_on"]
    type_in(*words, "--germinated", "17", "--hard", "2", "--keep")
    assert type_in("list", "--json").json[0]["seeds"] == 30
    tests = type_in("test", "list", code, "--json").json
    assert [(test["germinated"], test["hard"]) for test in tests] == [(18, 0), (17, 2)]
    assert "90 %" in type_in("test", "list").out
    too_many = type_in(*words, "--germinated", "21", code=ExitCode.BAD_DATA)
    assert "more than the 20 seeds" in too_many.err


def test_an_old_test_can_be_entered_for_a_new_packet(type_in: Type, code_of: Code) -> None:
    code = code_of("parsnip", "--harvest", "2023", "--seeds", "50")
    words = ("test", "record", code, "--seeds", "20", "--germinated", "14", "--on", "2026-03-01")
    assert "No seed was taken off" in type_in(*words).out
    listed = type_in("list", "--json").json[0]
    assert listed["seeds"] == 50
    assert listed["rests_on"][0] == "Tested 1 March 2026: 14 of 20."


def test_every_change_is_undone_and_done_again_one_by_one(type_in: Type, code_of: Code) -> None:
    def whole() -> Any:
        return type_in("list", "--empty", "--json").json, type_in("test", "list", "--json").json

    states = [whole()]
    code = code_of("leek", "Long Hill", "--seeds", "40", "--store", "Drawer")
    steps = [
        ("take", code, "10"), ("recount", code, "29"), ("move", code, "--to", "jar"),
        ("test", "record", code, "--seeds", "10", "--germinated", "6"),
        ("edit", code, "--variety", "Short Hill"), ("crop", "leek", "--set", "storage_years=4"),
        ("settings", "region", "us"), ("remove", code),
    ]  # fmt: skip
    states.append(whole())
    for words in steps:
        type_in(*words)
        states.append(whole())
    for state in reversed(states[:-1]):
        type_in("undo")
        assert whole() == state
    for state in states[1:]:
        type_in("redo")
        assert whole() == state
    assert "nothing to do again" in type_in("redo", code=ExitCode.NOT_DONE).err


def test_a_parent_is_shown_and_cannot_be_removed(type_in: Type, code_of: Code) -> None:
    mother = code_of("kale", "Rookery", "--seeds", "9")
    child = code_of("kale", "Rookery", "--origin", "saved", "--parent", mother)
    assert f"grown from:      {shown(mother)}" in type_in("show", child).out
    assert shown(child) in type_in("remove", mother, code=ExitCode.BAD_DATA).err
