"""The year, the calendar, what to buy and seed saving: lines, files and their readers."""

from __future__ import annotations

import csv
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import icalendar
import pypdfium2
import pytest
import vobject

from seedbox.errors import ExitCode

Type = Callable[..., Any]
Code = Callable[..., str]


def _words(pdf: Path) -> str:
    document = pypdfium2.PdfDocument(pdf)
    words = "\n".join(page.get_textpage().get_text_range() for page in document)
    document.close()
    return words


def test_strips_have_a_letter_for_each_week(type_in: Type, plot: Any) -> None:
    lines = type_in("year").lines
    strips = [line for line in lines[5:] if line[-52:].strip(".IiCcOoPH") == ""]
    assert len(strips) > 20
    assert all(len(line) <= 79 for line in lines[3:])
    assert lines[4].index("v") == 26 + date(2027, 2, 20).isocalendar().week - 1
    crops = type_in("year", "--json").json
    assert {crop["crop"] for crop in crops} == set(plot.packets)
    for crop in crops:
        assert {len(weeks) for weeks in crop["weeks"].values()} == {52}  # 2027 has 52 ISO weeks
        for stretch in crop["stretches"]:
            assert stretch["first"] <= stretch["last"]


@pytest.mark.usefixtures("plot")
def test_another_year_one_crop_and_the_planned_ones(type_in: Type) -> None:
    (leek,) = type_in("year", "--crop", "leek", "--year", "2026", "--json").json
    assert {len(weeks) for weeks in leek["weeks"].values()} == {53}  # 2026 has 53 (ISO 8601)
    planned = {crop["crop"] for crop in type_in("year", "--planned", "--json").json}
    assert planned == {"kale", "leek", "lettuce", "onion", "parsnip", "tomato"}
    assert "No crop in the tin" in type_in("year", "--crop", "okra", code=ExitCode.NOT_FOUND).err


@pytest.mark.usefixtures("plot")
def test_the_page_for_the_shed_door_names_every_crop(type_in: Type, tmp_path: Path) -> None:
    file = tmp_path / "door.pdf"
    assert "Wrote the year of 9 crops on 1 page" in type_in("year", "--pdf", str(file)).out
    words = _words(file)
    assert "Mill Lane plot, 2027" in words
    for word in ("kale", "sweet pea", "last frost, 25 April", "first frost, 25 October", "Jan"):
        assert word in words
    other = tmp_path / "mine.txt"
    other.write_text("mine", encoding="utf-8")
    assert "is no PDF" in type_in("year", "--pdf", str(other), code=ExitCode.USAGE).err
    assert other.read_text(encoding="utf-8") == "mine"


def test_a_calendar_by_two_parsers(type_in: Type, plot: Any, tmp_path: Path) -> None:
    """RFC 5545: read by `icalendar` and by `vobject`, which know nothing of each other."""
    file = tmp_path / "garden.ics"
    type_in("test", "start", plot.packets["kale"], "--seeds", "20")
    told = type_in("calendar", str(file), "--json").json
    data = file.read_bytes()
    assert b"\n" not in data.replace(b"\r\n", b"")  # 3.1: lines end with CRLF
    assert all(len(line) <= 75 for line in data.split(b"\r\n"))  # 3.1: folded at 75 octets
    calendar = icalendar.Calendar.from_ical(data)
    events = list(calendar.walk("VEVENT"))
    assert len(events) == told["events"] > 20
    uids = [str(event["UID"]) for event in events]
    assert len(set(uids)) == len(uids)  # 3.8.4.7: globally unique
    other = vobject.readOne(data.decode("utf-8"))
    other.validate(raiseException=True)
    assert sorted(one.uid.value for one in other.vevent_list) == sorted(uids)
    by_uid = {one.uid.value: one for one in other.vevent_list}
    for event in events:
        first, after = event.decoded("DTSTART"), event.decoded("DTEND")
        assert after > first
        assert by_uid[str(event["UID"])].dtstart.value == first
        assert by_uid[str(event["UID"])].dtend.value == after
        assert by_uid[str(event["UID"])].summary.value == str(event["SUMMARY"])
    jobs = type_in("today", "--ahead", "365", "--json").json
    for job in jobs:
        (event,) = [one for one in events if str(one["UID"]).startswith(f"{job['job']}@")]
        assert event.decoded("DTSTART") == date.fromisoformat(job["due"])
        assert event.decoded("DTEND") - event.decoded("DTSTART") == timedelta(days=1)


def test_importing_again_adds_nothing_and_moves_what_moved(
    type_in: Type, plot: Any, tmp_path: Path
) -> None:
    def events() -> dict[str, date]:
        file = tmp_path / "garden.ics"
        type_in("calendar", str(file))
        found = icalendar.Calendar.from_ical(file.read_bytes()).walk("VEVENT")
        return {str(one["UID"]): one.decoded("DTSTART") for one in found}

    before = events()
    written = (tmp_path / "garden.ics").read_bytes()
    assert events() == before
    assert (tmp_path / "garden.ics").read_bytes() == written
    leek = plot.sowings["leek"]
    type_in("put-off", f"{leek}-plant-out", "--until", "2027-05-20")
    after = events()
    assert after.keys() == before.keys()
    assert {uid for uid in before if before[uid] != after[uid]} == {
        f"{leek}-plant-out@seedbox.invalid"
    }


@pytest.mark.usefixtures("plot")
def test_calendars_that_cannot_be(type_in: Type, tmp_path: Path) -> None:
    other = tmp_path / "mine.txt"
    other.write_text("mine", encoding="utf-8")
    assert "is no calendar" in type_in("calendar", str(other), code=ExitCode.USAGE).err
    assert other.read_text(encoding="utf-8") == "mine"
    assert "is a folder" in type_in("calendar", str(tmp_path), code=ExitCode.USAGE).err
    assert "no folder" in type_in("calendar", "/nowhere/x.ics", code=ExitCode.USAGE).err
    type_in("calendar", str(tmp_path / "x.ics"), "--days", "0", code=ExitCode.USAGE)
    only = type_in("calendar", str(tmp_path / "x.ics"), "--jobs-only", "--json").json
    assert set(only["kinds"]) == {"job"}


@pytest.mark.usefixtures("plot")
def test_what_to_buy_as_lines_table_and_page(type_in: Type, tmp_path: Path) -> None:
    found = {line["crop"]: line for line in type_in("buy", "--json").json}
    assert "kale" not in found  # 200 seeds of last year are enough for 12 plants
    onion = found["onion"]
    assert onion["sure"] == 0 and onion["seeds"] > 40
    assert "is spent" in onion["reason"]
    table, page = tmp_path / "order.csv", tmp_path / "order.pdf"
    said = type_in("buy", "--csv", str(table), "--pdf", str(page)).out
    assert "onion" in said and f"Wrote 2 lines to {table}." in said
    with table.open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.DictReader(file))
    assert {row["crop"]: (int(row["seeds"]), float(row["grams"])) for row in rows} == {
        crop: (line["seeds"], line["grams"]) for crop, line in found.items()
    }
    assert "Seed to buy, Mill Lane plot" in _words(page)
    type_in("buy", "--csv", str(table))
    other = tmp_path / "mine.csv"
    other.write_text("a,b\n", encoding="utf-8")
    assert "left alone" in type_in("buy", "--csv", str(other), code=ExitCode.USAGE).err
    assert "no folder" in type_in("buy", "--pdf", "/nowhere/x.pdf", code=ExitCode.USAGE).err


def test_nothing_planned_and_frosts_not_said(type_in: Type, code_of: Code) -> None:
    code_of("kale", "Tall Lantern", "--seeds", "90")
    for words in (("year",), ("buy",), ("save-seed",)):
        said = type_in(*words, code=ExitCode.BAD_DATA).err
        assert "seedbox garden --last-frost" in said
    type_in("garden", "--last-frost", "none", "--latitude", "10")
    assert "Nothing is planned" in type_in("buy").out
    assert type_in("buy", "--json").json == []


def test_saved_seed_gets_a_packet_linked_to_its_parent(type_in: Type, plot: Any) -> None:
    bean = plot.sowings["broad bean"]
    type_in("garden", "--name", "Mill Lane plot")
    said = type_in("save-seed", bean, "--grams", "80", "--store", "tin", "--json",
                   "--today", "2027-08-20").json  # fmt: skip
    saved = type_in("show", said["code"], "--json").json
    assert saved["parent"] == plot.packets["broad bean"] == said["parent"]
    assert (saved["crop"], saved["variety"], saved["grams"]) == ("broad bean", "Early Bell", 80)
    assert (saved["origin"], saved["store"]) == ("saved", "Tin box")
    assert said["harvest_year"] == 2027
    # Mass balance: dry matter stays, so water = m (w1 - w2) / (100 - w2), in % fresh weight.
    drying = said["drying"]
    expected = 80 * (drying["moisture"] - drying["target"]) / (100 - drying["target"])
    assert drying["water_g"] == pytest.approx(expected)
    assert drying["gel_g"] > drying["water_g"]


@pytest.mark.usefixtures("plot")
def test_which_plans_come_true(type_in: Type) -> None:
    found = {one["crop"]: one for one in type_in("save-seed", "--json").json}
    assert found["lettuce"]["verdict"] == "comes true"
    assert found["leek"]["ripe_in"] == 2028  # biennial: flowers in its second year
    said = type_in("save-seed", "--crop", "lettuce").out
    assert said.startswith("Comes true\n  lettuce: it pollinates itself")
    assert "ask your plant variety office" in said
    dry = type_in("save-seed", "--crop", "okra").out
    assert "Nothing of that is planned" in dry


def test_drying_is_told_with_cautions(type_in: Type, plot: Any) -> None:
    said = type_in("save-seed", plot.packets["leek"], "--dry", "12", "--moisture", "14").out
    assert "from 14 to 6.5 % moisture" in said  # 7 CFR 201.36c allows leek 6.5 %
    assert "Do not breathe the dust of drying gel" in said
    too_dry = type_in("save-seed", plot.packets["leek"], "--dry", "12", "--moisture", "3",
                      code=None)  # fmt: skip
    assert "Traceback" not in too_dry.err


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--grams", "5"), "Name the parent first"),
        (("{leek}", "--grams", "5", "--seeds", "9"), "not both"),
        (("{leek}", "{kale}"), "One parent is wanted"),
        (("{leek}", "--crop", "leek"), "no meaning"),
        (("{leek}", "--dry", "5", "--store", "tin"), "only tells how to dry"),
        (("{leek}", "--moisture", "12"), "--moisture is for drying"),
        (("{leek}", "--harvest", "2030"), "still to come"),
        (("{leek}", "--seeds", "5", "--store", "attic"), "no store called"),
        (("P0000000",), "P000"),
    ],
)
def test_seed_saving_that_cannot_be(
    type_in: Type, plot: Any, words: tuple[str, ...], told: str
) -> None:
    before = type_in("list", "--json").json
    said = type_in("save-seed", *(word.format(**plot.packets) for word in words), code=None)
    assert said.code != ExitCode.DONE
    assert told in said.err
    assert type_in("list", "--json").json == before
