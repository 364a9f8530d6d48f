"""Lists written by one tin and read by another; hostile and foreign lists; the published schema."""

from __future__ import annotations

import csv
import json
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from io import StringIO
from pathlib import Path
from typing import Any

import jsonschema
import openpyxl
import pytest
from hypothesis import HealthCheck, assume, example, given, settings
from hypothesis import strategies as st

from seedbox.errors import BadDataError, NotFoundError
from seedbox.season.crops import CropBook
from seedbox.season.swapping.list_fields import MEANINGS, Col
from seedbox.season.swapping.list_reading import ReadList, read_list
from seedbox.season.swapping.list_writing import HEADER, csv_text, document, json_text, schema_text
from seedbox.season.swapping.own_list import own_list
from seedbox.season.swapping.records import Germination, Offer, SwapList, Wish
from seedbox.tin.exchange.outcome import SPREADSHEET_ERRORS
from seedbox.tin.file import Tin
from seedbox.tin.preferences import Settings
from seedbox.tin.records import Treatment
from seedbox.tin.text import clean_line, clean_note
from seedbox.tin.wants import add_want

TODAY = date(2027, 2, 20)
SCHEMA = json.loads(schema_text())
Planted = Callable[..., Tin]

LINE = (
    st.text(st.characters(exclude_categories=("C", "Z"), exclude_characters="|"), max_size=30)
    .map(clean_line)
    .filter(lambda text: text not in SPREADSHEET_ERRORS)
)
SHARE = st.integers(0, 1000).map(lambda tenths: tenths / 1000)
DAYS = st.dates(date(1990, 1, 1), TODAY)


@st.composite
def _germination(draw: st.DrawFn) -> Germination:
    low, mean, high = sorted(draw(st.tuples(SHARE, SHARE, SHARE)))
    tested = draw(st.none() | st.tuples(DAYS, st.integers(1, 400)))
    printed = draw(st.none() | SHARE)
    return Germination(
        *draw(st.sampled_from(((mean, low, high), (None, None, None)))),
        tested_on=tested[0] if tested else None,
        tested_seeds=tested[1] if tested else None,
        germinated=draw(st.integers(0, tested[1])) if tested else None,
        printed=printed,
        printed_on=draw(st.none() | DAYS) if printed is not None else None,
    )


NAMES = st.sampled_from(
    [("tomato", "tomato"), ("courgette", "courgette"), ("=Sea kale", ""), ("Achocha", "")]
)


@st.composite
def _lists(draw: st.DrawFn) -> SwapList:
    offers = [
        Offer(
            code=draw(st.sampled_from(("", "P1G1D22F", "A 12"))),
            crop=crop,
            crop_id=crop_id,
            variety=draw(LINE),
            portions=draw(st.integers(1, 1000)),
            seeds_per_portion=draw(st.none() | st.integers(1, 5000)),
            germination=draw(_germination()),
            harvest_year=draw(st.none() | st.integers(1990, 2027)),
            treatment=draw(st.sampled_from(Treatment)),
            hybrid=draw(st.booleans()),
            cautions=tuple(dict.fromkeys(draw(st.lists(LINE.filter(bool), max_size=3)))),
            packed_year=draw(st.none() | st.integers(1990, 2027)),
            note=clean_note("\n".join(draw(st.lists(LINE, max_size=2)))),
        )
        for crop, crop_id in draw(st.lists(NAMES, max_size=4))
    ]
    wishes = [
        Wish(crop, crop_id, draw(LINE), draw(st.integers(1, 99)), draw(st.integers(1, 5)))
        for crop, crop_id in draw(st.lists(NAMES, max_size=3))
    ]
    return SwapList("Maud", tuple(offers), tuple(wishes), draw(DAYS), draw(LINE))


def _read(path: Path, text: str | bytes, **more: Any) -> ReadList:
    path.write_bytes(text if isinstance(text, bytes) else text.encode("utf-8"))
    return read_list(path, CropBook(Settings()), TODAY, **more)


@settings(
    max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(_lists())
def test_a_list_comes_back_as_it_was_written(tmp_path: Path, listed: SwapList) -> None:
    """As CSV and as JSON, whatever is in it; and the JSON is as the schema says (jsonschema)."""
    jsonschema.validate(document(listed), SCHEMA, cls=jsonschema.Draft202012Validator)
    for name, text in (("l.csv", csv_text(listed)), ("l.json", json_text(listed))):
        if not (listed.offers or listed.wishes) and name == "l.csv":
            continue  # a table without a row says nothing of whose it is
        found = _read(tmp_path / name, text)
        assert found.problems == ()
        assert found.swap_list == listed


def test_every_column_is_documented_and_in_the_header() -> None:
    assert tuple(column.value for column in MEANINGS) == HEADER == tuple(Col)
    assert set(SCHEMA["$defs"]["offer"]["properties"]) >= {"crop", "germination", "cautions"}


def test_the_schema_itself_is_sound_and_refuses_what_the_reader_refuses() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    sound = document(SwapList("", (Offer("", "leek", "leek", "", 1, 40),), ()))
    for path, wrong in (
        (("portions",), 0),
        (("germination", "mean"), 1.4),
        (("treatment",), "dipped"),
        (("seeds_per_portion",), "many"),
        (("price",), 3),
    ):
        broken = json.loads(json.dumps(sound))
        target = broken["offers"][0]
        for key in path[:-1]:
            target = target[key]
        target[path[-1]] = wrong
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate(broken, SCHEMA)


def test_nothing_private_leaves_in_a_list(planted: Planted) -> None:
    """Not the price paid, the note, the source, the store, the tags; not who or where one is."""
    secrets = {
        "note": "paid 3.50 at 12 Weir Street",
        "source": "Nettlebarrow Seeds",
        "tags": ("hidden",),
        "ean": "2133993799915",
    }
    tin = planted({"crop_id": "leek", "variety": "Grey Mast", **secrets})
    add_want(tin, "tomato", note="for Aunt Ida")
    listed = own_list(tin, TODAY)
    assert listed.offers and listed.wishes
    for text in (csv_text(listed), json_text(listed)):
        for word in ("3.50", "Weir", "Nettlebarrow", "hidden", "2133993799915", "Ida", "Jar"):
            assert word not in text
    assert (listed.name, listed.town) == ("", "")
    assert own_list(tin, TODAY, name="Maud", town="Hobbin Beck").town == "Hobbin Beck"
    noted = own_list(tin, TODAY, notes=True)  # asked for: the note, and nothing besides
    for text in (csv_text(noted), json_text(noted)):
        assert secrets["note"] in text
        for word in ("Nettlebarrow", "hidden", "2133993799915", "Ida", "Jar"):
            assert word not in text
    assert replace(noted, offers=tuple(replace(one, note="") for one in noted.offers)) == listed


@settings(
    max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(note=st.text(max_size=60).map(clean_note).filter(bool))
@example(note="=cmd, a wall\nand sun")
def test_a_list_that_was_not_asked_for_notes_has_no_place_for_one(
    planted: Planted, note: str
) -> None:
    tin = planted({"crop_id": "leek", "variety": "Grey Mast", "note": f"~{note}"})
    listed = own_list(tin, TODAY)
    assume(listed.offers)  # a note with the sign of a protected variety holds the seed back
    assert [one.note for one in listed.offers] == [""]
    assert "note" not in csv_text(listed).splitlines()[0].split(",")
    assert "note" not in document(listed)["offers"][0]
    (offer,) = own_list(tin, TODAY, notes=True).offers
    assert offer.note == tin.packets()[0].note
    jsonschema.validate(document(own_list(tin, TODAY, notes=True)), SCHEMA)


def test_another_tin_reads_the_list_with_its_own_crop_names(
    planted: Planted, tmp_path: Path
) -> None:
    tin = planted({"crop_id": "courgette", "variety": "Awning"})
    path = tmp_path / "maud.csv"
    path.write_text(csv_text(own_list(tin, TODAY)), encoding="utf-8")
    american = CropBook(replace(Settings(), names="american"))
    found = read_list(path, american, TODAY).swap_list
    assert [(one.crop, one.crop_id) for one in found.offers] == [("zucchini", "courgette")]
    assert found.name == "maud"  # it does not say whose it is: the name of the file


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_lists_that_people_keep_in_spreadsheets(
    tmp_path: Path, encoding: str, delimiter: str
) -> None:
    rows = (
        ("Vegetable", "Variety", "How many", "Seeds each", "Germination", "Year", "Harvested"),
        ("Zucchini", "Früher Kahn", "3 packets", "12", "85%", "", "2025"),
        ("runner bean", "", "2", "", "", "", "autumn 2024"),
    )
    text = "\r\n".join(delimiter.join(row) for row in rows)
    found = _read(tmp_path / "renée.csv", text.encode(encoding))
    assert found.problems == ()
    first, second = found.swap_list.offers
    assert (first.crop_id, first.variety, first.portions) == ("courgette", "Früher Kahn", 3)
    assert (first.seeds_per_portion, first.germination.mean) == (12, 0.85)
    assert (second.crop_id, second.portions, second.harvest_year) == ("bean_runner", 2, 2024)
    assert second.seeds_per_portion is None and second.germination.tested_on is None


def test_an_unknown_crop_keeps_its_own_words_and_says_so(tmp_path: Path) -> None:
    found = _read(tmp_path / "a.csv", "crop,portions\nSea kale,2\nmarigold,1\n")
    assert [one.crop_id for one in found.swap_list.offers] == ["", ""]
    assert [one.crop for one in found.swap_list.offers] == ["Sea kale", "marigold"]
    assert len(found.notes) == 2 and "equal words" in found.notes[0]


@pytest.mark.parametrize(
    ("row", "heading", "words"),
    [
        ("offer,leek,,none at all,,", "portions", "no whole number of portions"),
        ("offer,leek,,0,,", "portions", "No portion"),
        ("offer,leek,,1001,,", "portions", "1,000, the most"),
        ("offer,leek,,2,140,", "germination_percent", "not between 0 and 100"),
        ("want,leek,,2,,9", "worth", "“9” is no worth: 1 (nice to have)"),
        ("offer,,,2,,", "crop", "The crop is empty."),
        ("offer,123,,2,,", "crop", "is no crop"),
        ("offer,leek,,2,80,,extra", "", "more cells than the header"),
        (f"offer,leek,{'x' * 300},2,,", "variety", "300 characters"),
        ("offer,leek,,#REF!,,", "portions", "spreadsheet's error"),
    ],
)
def test_a_bad_row_is_named_and_the_others_are_read(
    tmp_path: Path, row: str, heading: str, words: str
) -> None:
    head = "what,crop,variety,portions,germination_percent,worth"
    text = f"{head}\noffer,leek,Good,1,80,\n{row}\noffer,kale,Good too,1,,\n"
    found = _read(tmp_path / "bad.csv", text)
    (problem,) = found.problems
    assert (problem.row, problem.field) == (3, heading)
    assert words in problem.sentence
    assert [one.variety for one in found.swap_list.offers] == ["Good", "Good too"]


def test_one_bad_word_does_not_turn_wants_into_offers(tmp_path: Path) -> None:
    text = "what,crop,portions\noffer,leek,2\nwant,kale,1\nlend,pea,1\n"
    found = _read(tmp_path / "u.csv", text)
    assert [one.crop for one in found.swap_list.offers] == ["leek"]
    assert [one.crop for one in found.swap_list.wishes] == ["kale"]
    (problem,) = found.problems
    assert (problem.row, problem.field) == (4, "what")
    assert "neither offer nor want" in problem.sentence
    plain = _read(tmp_path / "k.csv", "kind,crop,portions\nseed,leek,2\n")
    assert (plain.problems, len(plain.swap_list.offers)) == ((), 1)


def test_a_column_called_what_may_hold_the_crop(tmp_path: Path) -> None:
    found = _read(tmp_path / "w.csv", "What,Sort,How many\nleek,Grey Mast,2\noffer,,1\n")
    assert [one.crop_id for one in found.swap_list.offers] == ["leek", ""]
    said = _read(tmp_path / "v.csv", "what,crop,portions\nhave,leek,2\nlooking for,kale,1\n")
    assert (len(said.swap_list.offers), len(said.swap_list.wishes)) == (1, 1)


def test_figures_that_contradict_each_other_are_a_fault_of_the_row(tmp_path: Path) -> None:
    head = "crop,germination_percent,low_percent,high_percent,tested_seeds,tested_germinated"
    found = _read(tmp_path / "b.csv", f"{head}\nleek,50,60,70,,\nleek,80,60,90,20,21\nleek,,,,,5\n")
    assert [problem.row for problem in found.problems] == [2, 3, 4]
    assert "rise in that order" in found.problems[0].sentence
    assert "More seeds germinated" in found.problems[1].sentence


def test_no_cell_of_a_list_runs_as_a_formula() -> None:
    nasty = Offer("", "=cmd|'/c calc'!A0", "", "+1+1", 1, 10, cautions=("@SUM(A1)",))
    (row,) = list(csv.reader(StringIO(csv_text(SwapList("-2", (nasty,))))))[1:]
    assert not any(cell[:1] in "=+-@" for cell in row if cell)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "is empty"),
        ("just some words\n", "No column names the crop"),
        ("portions,worth\n1,2\n", "No column names the crop"),
        ("{", "is no JSON"),
        ("[1, 2]", "is no swap list"),
        ('{"format": "other"}', "is no swap list"),
        ('{"format": "seedbox-swap-list", "version": 2}', "newer Seedbox"),
        ('{"format": "seedbox-swap-list", "version": 1, "offers": 3}', "list in brackets"),
        ('{"format": "seedbox-swap-list", "version": 1, "offers": [NaN]}', "NaN is no number"),
        ('{"a":' * 100_000, "JSON"),
        ("%PDF-1.7", "a PDF document"),
    ],
)
def test_what_is_no_list_is_refused_with_a_sentence(tmp_path: Path, text: str, words: str) -> None:
    with pytest.raises(BadDataError) as told:
        _read(tmp_path / "x.dat", text)
    assert words in told.value.sentence
    assert "x.dat" in told.value.sentence  # of several lists, which one


def test_a_list_of_several_people_or_of_nothing_says_so(tmp_path: Path) -> None:
    text = "crop,grower\nleek,Ida\nkale,Ida\npea,Renée\n"
    found = _read(tmp_path / "hall.csv", text)
    assert (found.swap_list.name, len(found.swap_list.offers)) == ("Ida", 3)
    (said,) = found.notes
    assert "name 2 people" in said and "“Ida”" in said
    assert _read(tmp_path / "ida.csv", text.replace("Renée", "Ida")).notes == ()
    for name, empty in (
        ("e.csv", "crop,portions\n"),
        ("e.json", '{"format": "seedbox-swap-list", "version": 1}'),
    ):
        assert _read(tmp_path / name, empty).notes == ("It holds neither offers nor wants.",)


def test_a_folder_is_no_list(tmp_path: Path) -> None:
    with pytest.raises(BadDataError, match="is a folder, not a file"):
        read_list(tmp_path, CropBook(Settings()), TODAY)


def test_where_it_is_tomorrow_already_a_list_is_made_and_read(tmp_path: Path) -> None:
    text = "crop,tested_on,made_on\nleek,2027-02-21,2027-02-23\nkale,2027-02-22,2027-02-23\n"
    found = _read(tmp_path / "t.csv", text)
    assert [one.crop for one in found.swap_list.offers] == ["leek"]
    assert [problem.field for problem in found.problems] == ["tested_on"]
    assert found.swap_list.made_on == date(2027, 2, 23)


def test_a_workbook_is_a_list_too(tmp_path: Path) -> None:
    workbook = openpyxl.Workbook()
    page = workbook.active
    page.append(["Our spare seed"])
    page.append(["Crop", "Variety", "Packets", "Tested"])
    page.append(["leek", "Grey Mast", 3, date(2027, 1, 30)])
    workbook.save(tmp_path / "ida.xlsx")
    found = read_list(tmp_path / "ida.xlsx", CropBook(Settings()), TODAY)
    (offer,) = found.swap_list.offers
    assert (offer.variety, offer.portions) == ("Grey Mast", 3)
    assert offer.germination.tested_on == date(2027, 1, 30)
    assert "Passed over above the header" in found.notes[0]


def test_a_list_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(NotFoundError):
        read_list(tmp_path / "nobody.csv", CropBook(Settings()), TODAY)


def test_hostile_json_entries_are_named_one_by_one(tmp_path: Path) -> None:
    offers: list[Any] = [
        {"crop": "leek", "portions": 2},
        "leek",
        {"crop": ["leek"], "portions": 1},
        {"crop": "leek", "portions": True},
        {"crop": "leek", "portions": 1e300},
        {"crop": "leek", "portions": 1, "germination": 0.8},
        {"crop": "leek", "portions": 1, "germination": {"mean": "most"}},
        {"crop": "leek", "portions": 1, "cautions": "beware"},
        {"crop": "kale\u202e", "portions": 1, "unknown": {"deep": [1]}},
    ]
    text = json.dumps({"format": "seedbox-swap-list", "version": 1, "offers": offers, "wants": []})
    found = _read(tmp_path / "j.json", text)
    assert [one.crop for one in found.swap_list.offers] == ["leek", "kale"]
    assert {problem.row for problem in found.problems} == {2, 3, 4, 5, 6, 7, 8}
    assert {problem.where for problem in found.problems} == {"offers"}
