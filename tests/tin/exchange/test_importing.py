"""A table into a tin: what goes in, what stays out with which sentence, twice, undone, mended."""

from __future__ import annotations

import csv
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from seedbox.errors import BadDataError
from seedbox.tin.drafts import PacketDraft, check_draft
from seedbox.tin.exchange.carrying import carry_out
from seedbox.tin.exchange.planning import plan_import
from seedbox.tin.exchange.plans import ImportPlan
from seedbox.tin.exchange.rejecting import write_rejects
from seedbox.tin.file import Tin
from seedbox.tin.history import redo, undo
from seedbox.tin.records import Origin, Treatment, Unit
from seedbox.tin.settings import set_setting

Planner = Callable[..., ImportPlan]

LIST = """Vegetable,Name,Harvested,Qty,Where,From,Notes
Tomato,Weir Lamp,2021,50,Shed,own seed,tall
runner bean,Long Lane,2020,"2,5 g",shed,Fern & Daughter,
Tomatoe,X,2020,5,,,
Marigold,Y,2020,30,,,
Leek,Z,2031,-5,Loft,,
"""


def test_good_rows_go_in_and_bad_ones_say_why(tin: Tin, plan: Planner) -> None:
    planned = plan(LIST)
    assert [str(problem)[:64] for problem in planned.problems] == [
        "row 4, Vegetable: “Tomatoe” is no crop that Seedbox knows. Did y",
        "row 5, Vegetable: “Marigold” is the name of several crops. Say w",
        "row 6, Harvested: “2031” is the year 2031; one from 1900 to 2027",
        "row 6, Qty: “-5” is less than nothing; a number of seeds such as",
    ]
    assert planned.problems[0].sentence.endswith("Did you mean tomatoes or tomato?")
    assert planned.problems[1].sentence.endswith("Say which: pot marigold, French marigold.")
    assert [store.name for store in planned.stores_to_add] == ["Shed"]
    assert any("Shed" in note and "20 °C and 50 % humidity" in note for note in planned.notes)
    assert tin.packets() == []  # a plan changes nothing
    done = carry_out(tin, planned)
    assert (done.added, done.already, done.rejected) == (2, 0, 3)
    one, other = tin.dossiers()
    assert (one.packet.variety, one.packet.origin, one.left) == ("Weir Lamp", Origin.SAVED, 50)
    assert (one.packet.harvest_year, one.packet.source, one.packet.note) == (
        2021, "own seed", "tall",
    )  # fmt: skip
    assert (other.packet.crop_id, other.left, other.packet.unit) == (
        "bean_runner", 2.5, Unit.GRAMS,
    )  # fmt: skip
    assert one.store == other.store
    assert (one.store.coolest_c, one.store.warmest_c, one.store.relative_humidity) == (20, 20, 0.5)


def test_strict_brings_in_nothing_when_a_row_is_bad(tin: Tin, plan: Planner) -> None:
    with pytest.raises(BadDataError, match="3 rows"):
        carry_out(tin, plan(LIST), strict=True)
    assert tin.packets() == []
    assert carry_out(tin, plan("crop\npea\n"), strict=True).added == 1


def test_the_same_file_twice_adds_nothing(tin: Tin, plan: Planner, bring_in: Any) -> None:
    twins = "crop,variety,year\npea,Tall,2020\npea,Tall,2020\nkale,,2021\n"
    assert bring_in(twins).added == 3
    again = bring_in(twins)
    assert (again.added, again.already, again.label) == (0, 3, "")
    assert len(tin.history()) == 1
    # Another order of rows and columns, a column that means nothing: still the same packets.
    turned = "year,colour,variety,crop\n2021,red,,Kale\n2020,,Tall,pea\n2020,,Tall,pea\n"
    assert plan(turned).already == 3
    assert plan(twins + "pea,Tall,2020\n").new[0].row == 5  # a third twin is a new packet
    assert len(plan(twins, again=True).new) == 3
    carry_out(tin, plan(twins, again=True))
    assert plan(twins).already == 3


def test_one_undo_takes_it_back_and_it_can_come_again(tin: Tin, bring_in: Any, dump: Any) -> None:
    empty = dump(tin)
    bring_in(LIST, keep_unknown_crops=True)
    full = dump(tin)
    assert len(tin.own_crops()) == 1
    assert undo(tin).startswith("Import 3 packets from")
    assert dump(tin) == empty
    redo(tin)
    assert dump(tin) == full
    undo(tin)
    assert bring_in(LIST).added == 2


def test_unknown_crops_can_be_kept(tin: Tin, plan: Planner, bring_in: Any) -> None:
    text = "crop,variety\nSkirret,a\nskirret,b\nTomatoe,c\nMarigold,d\n???,e\n"
    planned = plan(text, keep_unknown_crops=True)
    assert [(crop.id, crop.name) for crop in planned.own_crops_to_add] == [
        ("own:skirret", "Skirret"), ("own:tomatoe", "Tomatoe"),
    ]  # fmt: skip
    assert any("close to" in note for note in planned.notes)
    assert [problem.row for problem in planned.problems] == [5, 6]
    assert bring_in(text, keep_unknown_crops=True).added == 3
    assert {packet.crop_id for packet in tin.packets()} == {"own:skirret", "own:tomatoe"}


def test_sets_and_cloves_are_read_as_planting_stock(plan: Planner) -> None:
    text = "crop,variety,kind\nGarlic,a,\nleek sets,,\nSeed potatoes,c,seed\nkale,d,\n"
    planned = plan(text, keep_unknown_crops=True)
    assert [packet.kind for packet in planned.new] == [
        "planting stock", "planting stock", "seed", "seed",
    ]  # fmt: skip
    assert any("2 rows read as planting stock" in note for note in planned.notes)
    assert not any("planting stock" in note for note in plan("crop\nkale\nleek\n").notes)


def test_crop_and_variety_in_one_cell(plan: Planner) -> None:
    planned = plan(
        "crop,variety,year\nTomato - Weir Lamp,,2020\nrunner bean Long Lane,,\nWeir Lamp Tomato,,\n"
        "Leek (Slow Train),,\nPea 'Tall One',,\npea,'Quoted',\nPea: Tall,Other,\n"
    )
    assert [(one.crop_id, one.variety) for one in planned.new] == [
        ("tomato", "Weir Lamp"), ("bean_runner", "Long Lane"), ("tomato", "Weir Lamp"),
        ("leek", "Slow Train"), ("pea", "Tall One"), ("pea", "Quoted"),
    ]  # fmt: skip
    assert [problem.row for problem in planned.problems] == [8]  # two varieties: not guessed


def test_a_title_over_a_section_is_no_packet(plan: Planner) -> None:
    planned = plan(
        "crop,variety,year\nPEA,,\nBEETROOT,,\nbeet,Lamp,2020\nbeet,,\nKALE,,\n,Red,2021\nleek,,\n"
    )
    assert [problem.row for problem in planned.problems] == [3, 6, 7]
    assert "title" in planned.problems[0].sentence
    assert [one.row for one in planned.new] == [2, 4, 5, 8]


def test_a_bare_year_is_said(plan: Planner) -> None:
    planned = plan("crop,origin,year\npea,saved,2020\nkale,bought,2021\nleek,,2022\n")
    assert [(one.harvest_year, one.packed_year) for one in planned.new] == [
        (2020, None), (None, 2021), (None, 2022),
    ]  # fmt: skip
    assert any("year packed" in note for note in planned.notes)


def test_dates_follow_their_column_before_the_region(tin: Tin, plan: Planner) -> None:
    clear = "crop,sow by\npea,01/05/2026\nkale,12/25/2026\n"
    assert [one.sow_by for one in plan(clear).new] == ["2026-01-05", "2026-12-25"]
    unclear = "crop,sow by\npea,01/05/2026\n"
    assert plan(unclear).new[0].sow_by == "2026-05-01"
    assert any("day first" in note for note in plan(unclear).notes)
    set_setting(tin, "region", "us")
    assert plan(unclear).new[0].sow_by == "2026-01-05"


def test_words_that_a_value_cannot_hold_go_into_the_note(plan: Planner) -> None:
    planned = plan(
        "crop,seeds,grams,origin,harvested,notes,comments\n"
        "pea,about 30,2.5,Italy,from Ann 2019,nice,dry\nkale,half packet,,,,,\n"
    )
    assert planned.new[0].note == (
        "notes: nice\ncomments: dry\nOrigin: Italy\nharvested as written: from Ann 2019\n"
        "Quantity as written: about 30\nAlso given: 2.5 g"
    )
    assert (planned.new[0].amount, planned.new[0].unit) == (30, Unit.SEEDS)
    assert (planned.new[1].amount, planned.new[1].note) == (
        None, "Quantity as written: half packet",
    )  # fmt: skip


def test_columns_are_told(plan: Planner) -> None:
    planned = plan("crop,colour,year\npea,red,2020\n", mapping={"year": "bought_year"})
    assert planned.mapped_columns == {"crop": "crop", "year": "bought_year"}
    assert planned.ignored_columns == ("colour",)
    assert planned.new[0].bought_year == 2020
    planned = plan("pea,Tall\nkale,Red\n", mapping={"A": "crop", "B": "variety"})
    assert [(one.crop_id, one.variety) for one in planned.new] == [("pea", "Tall"), ("kale", "Red")]


def test_no_crop_column_ends_in_a_sentence(plan: Planner) -> None:
    with pytest.raises(BadDataError, match=r"which crop.*“variety”, “size”") as fault:
        plan("variety,size\nred,big\n")
    assert '--map "variety=crop"' in fault.value.hint
    with pytest.raises(BadDataError, match=r"first row: “pea”, “Tall”") as fault:
        plan("pea,Tall\n")
    assert '--map "A=crop"' in fault.value.hint


def test_codes_and_parents(tin: Tin, plan: Planner, bring_in: Any) -> None:
    codes = bring_in("crop\npea\n").codes
    table = (
        f"code,crop,parent\n{codes[0]},pea,\nP7EBJADP,kale,PN9SNTD2\nPN9SNTD2,kale,{codes[0]}\n"
        "P7EBJADP,kale,\nPPS3K35W,leek,PPS3K35W\nP7EBJADQ,leek,\n"
    )
    planned = plan(table)
    assert planned.already == 1
    assert [one.code for one in planned.new] == ["PN9SNTD2", "P7EBJADP"]  # the parent first
    assert [problem.row for problem in planned.problems] == [5, 6, 7]
    carry_out(tin, planned)
    assert tin.packet("P7EBJADP").parent_id == tin.packet("PN9SNTD2").id
    assert tin.packet("PN9SNTD2").parent_id == tin.packet(codes[0]).id
    undo(tin)
    redo(tin)
    assert len(tin.packets()) == 3


def test_rejects_can_be_mended_and_brought_in(tin: Tin, plan: Planner, bring_in: Any) -> None:
    planned = plan(LIST)
    path = tin.path.parent / "rejects.csv"
    assert write_rejects(planned, path) == (path,)
    carry_out(tin, planned)
    with path.open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.reader(file))
    assert rows[0] == [*LIST.partition("\n")[0].split(","), "what is wrong"]
    assert rows[1][:4] == ["Tomatoe", "X", "2020", "5"]
    assert "Did you mean" in rows[1][-1]
    assert rows[3][3] == "'-5"  # no spreadsheet runs it
    assert len(plan(path).rejects) == 3  # as it is, nothing more fits
    text = path.read_text("utf-8-sig")
    path.write_text(
        text.replace("Tomatoe,", "Tomato,").replace("2031", "2021").replace("'-5", "'=-5"), "utf-8"
    )
    mended = plan(path)
    assert [one.crop_id for one in mended.new] == ["tomato"]
    assert [problem.field for problem in mended.problems] == ["Vegetable", "Qty"]
    assert "what is wrong" not in (*mended.ignored_columns, *mended.mapped_columns)


def test_cells_too_many_stay_rejected_until_mended(plan: Planner, tin: Tin) -> None:
    planned = plan("crop,qty\npea,2,5 g\n")
    path = tin.path.parent / "rejects.csv"
    write_rejects(planned, path)
    assert len(plan(path).rejects) == 1
    path.write_text(path.read_text("utf-8-sig").replace("2,5 g,", '"2,5 g",,'), "utf-8")
    assert plan(path).new[0].amount == 2.5


def test_rejects_do_not_overwrite_another_file(tin: Tin, plan: Planner) -> None:
    path = tin.path.parent / "mine.csv"
    path.write_text("crop\nprecious\n")
    with pytest.raises(BadDataError, match="left alone"):
        write_rejects(plan(LIST), path)
    assert path.read_text() == "crop\nprecious\n"
    assert write_rejects(plan(LIST), path, force=True) == (path,)
    assert write_rejects(plan(LIST), path) == (path,)  # its own file it may write again


def test_a_store_that_seals_gives_its_moisture(tin: Tin, jar: Any, bring_in: Any) -> None:
    bring_in("crop,store,received\npea,JAR IN THE FRIDGE,2025-02-03\n")
    (period,) = tin.storage()
    assert (period.store_id, period.from_date, period.sealed, period.moisture) == (
        jar.id, date(2025, 2, 3), True, 6.0,
    )  # fmt: skip


def test_a_workbook_with_sections_and_formulas(tin: Tin, plan: Planner, tmp_path: Path) -> None:
    path = tmp_path / "beds.xlsx"
    book = openpyxl.Workbook()
    page = book.active
    for row in (
        ["Seed list"], ["Crop", "Variety", "Year", "Seeds", "Treated"],
        ["Tomato", "=A1", 2021, 50, False], [None, "Lamp", 2020, "=D3*2", True],
        ["Kale", "#N/A", date(2019, 5, 1), 12.0, None],
    ):  # fmt: skip
        page.append(row)
    page.merge_cells("A3:A4")
    book.save(path)
    planned = plan(path)
    assert planned.new == ()
    assert [(problem.row, problem.field) for problem in planned.problems] == [
        (3, ""), (4, ""), (5, "Variety"),
    ]  # fmt: skip
    page["B3"], page["D4"], page["B5"] = "Weir", 7, None
    book.save(path)
    planned = plan(path)
    assert [(one.crop_id, one.variety, one.amount, one.treatment) for one in planned.new] == [
        ("tomato", "Weir", 50, Treatment.NONE), ("tomato", "Lamp", 7, Treatment.DRESSED),
        ("kale", "", 12, "none"),
    ]  # fmt: skip


_CELL = st.sampled_from(
    ["", "pea", "Tomatoe", "2019", "50", "2,5 g", "=1+1", "#REF!", "x" * 300, "2031", "a\nb\nc",
     "'", "\x00\x07", "half", "12/12/2025", "P7EBJADP", "yes", "85%", "\ufffe", "Жж", '"', "kale"]
) | st.text(max_size=12)  # fmt: skip
_HEADERS = ["crop", "variety", "year", "qty", "store", "notes", "code", "sow by", "treated", "x"]


@settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(st.permutations(_HEADERS), st.lists(st.lists(_CELL, max_size=11), max_size=12))
def test_nothing_is_lost_and_what_goes_in_is_sound(
    tin: Tin, resolve: Any, today: date, headers: list[str], rows: list[list[str]]
) -> None:
    """Each row that is not blank is a packet, already there, or a reject with a sentence."""
    path = tin.path.parent / "list.csv"
    with path.open("w", encoding="utf-8", newline="", errors="replace") as file:
        csv.writer(file).writerows([headers, *rows])
    planned = plan_import(tin, path, resolve_crop=resolve, today=today)
    with path.open(encoding="utf-8", newline="") as file:
        read = list(csv.reader(line.replace("\0", "") for line in file))
    filled = [row for row in read[1:] if any(cell.strip() for cell in row)]
    assert len(planned.new) + planned.already + len(planned.rejects) == len(filled)
    kept = sorted([one.row for one in planned.new] + [one.row for one in planned.rejects])
    assert len(set(kept)) == len(kept)
    assert all(reject.sentences and all(reject.sentences) for reject in planned.rejects)
    for one in planned.new:
        draft = PacketDraft(
            one.crop_id, one.variety, source=one.source, harvest_year=one.harvest_year,
            packed_year=one.packed_year, note=one.note, code=one.code or None, amount=one.amount,
            tags=tuple(one.tags.split(",")), unit=Unit(one.unit) if one.unit else None,
            sow_by=date.fromisoformat(one.sow_by) if one.sow_by else None,
        )  # fmt: skip
        assert check_draft(draft, today) == []
    carry_out(tin, planned)
    undo(tin) if not planned.changes_nothing else None
