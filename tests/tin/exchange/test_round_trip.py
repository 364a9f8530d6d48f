"""Out and in again gives an equal tin, in every form, whatever a person wrote into it."""

from __future__ import annotations

import json
from collections.abc import Callable
from contextlib import suppress
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from seedbox.errors import BadDataError, UsageError
from seedbox.tin.counting import count
from seedbox.tin.drafts import check_draft, cleaned
from seedbox.tin.exchange.carrying import carry_out
from seedbox.tin.exchange.exporting import export
from seedbox.tin.exchange.planning import plan_import
from seedbox.tin.exchange.shapes import percent_text, share_of
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import EventKind, PlaceKind
from seedbox.tin.history import undo
from seedbox.tin.label_queue import queue_labels
from seedbox.tin.list_records import SwapWord
from seedbox.tin.own import add_own_crop, set_own_figure
from seedbox.tin.packets import PacketDraft, add_packets, edit_packet, move, recount, take
from seedbox.tin.places import add_place
from seedbox.tin.plans import set_plan
from seedbox.tin.records import Kind, MovementKind, Origin, Substrate, Treatment, Unit
from seedbox.tin.settings import set_setting
from seedbox.tin.sowing_events import record_event
from seedbox.tin.sowings import SowingDraft, add_sowing
from seedbox.tin.stores import add_store
from seedbox.tin.swap_choices import set_swap_choice
from seedbox.tin.testing import TestPlan, drop_test, finish_test, start_test
from seedbox.tin.tests import record_test
from seedbox.tin.trays import record_tray
from seedbox.tin.wants import add_want

FORMS = ("folder", "tin.json", "tin.xlsx")
TODAY = date(2026, 3, 14)
CROPS = ("tomato", "bean_runner", "kale", "own:sea-kale")

NASTY = (
    "=1+1", "'=1+1", "''", "'", "+49 30", "-", "@home", "＝SUM(A1)", '"quoted"', "a,b;c|d",
    "line\nbreak\n=x", "שלום עולם", "مرحبا", "🥕🌱", "e\u0301", "_x0041_", "_x000D_", "x" * 9_000,
    "NULL", "1e5", "007", "TRUE", "2021", "#REF!", "<b>&amp;", "a\u2028b", "50%",
    "\\n", "1,2\n" * 4,
)  # fmt: skip
TEXT = st.sampled_from(NASTY) | st.text(max_size=40)
SHORT = TEXT.map(lambda text: text[:150])
DAYS = st.dates(date(2015, 1, 1), TODAY)
YEARS = st.none() | st.integers(1990, 2026)
SHARES = st.none() | st.floats(0, 1)


@st.composite
def drafts(draw: st.DrawFn) -> PacketDraft:
    unit = draw(st.sampled_from((None, *Unit)))
    grams = st.floats(0.001, 500).map(lambda value: round(value, 6))
    counted = grams if unit is Unit.GRAMS else st.integers(0, 500).map(float)
    return cleaned(
        PacketDraft(
            draw(st.sampled_from(CROPS)),
            draw(SHORT),
            draw(st.sampled_from(Kind)),
            draw(st.sampled_from((None, *Origin))),
            draw(SHORT),
            draw(YEARS),
            draw(YEARS),
            draw(YEARS),
            draw(st.none() | st.dates(date(2015, 1, 1), date(2035, 1, 1))),
            draw(SHARES),
            draw(st.none() | DAYS),
            draw(st.sampled_from(Treatment)),
            draw(st.sampled_from(("", "2000000000008", "20000004", "200000000004"))),
            draw(TEXT),
            tuple(draw(st.lists(TEXT.map(lambda text: text[:30]), max_size=3))),
            None,
            unit,
            draw(st.none() | DAYS),
            amount=draw(st.none() | counted) if unit else None,
        )
    )


def _fill(tin: Tin, packets: list[PacketDraft], data: st.DataObject) -> None:
    """A tin made by its own verbs: stores, moves, tests, takings, parents, settings."""
    add_own_crop(tin, "Sea kale", note=data.draw(SHORT))
    set_own_figure(tin, "tomato", "storage_years", "4,5", note=data.draw(SHORT))
    if data.draw(st.booleans()):
        set_setting(tin, "region", "us")
        set_setting(tin, "floor", "0.3")
    humidity = data.draw(SHARES)
    shed = add_store(tin, "=Shed, cold", -3.5, 18.25, relative_humidity=humidity, note="'x")
    jar = add_store(tin, "Jar 🥕", 4, sealed=True, sealed_moisture=6.1)
    sound = [draft for draft in packets if not check_draft(draft, TODAY)]
    codes = add_packets(tin, sound, today=TODAY).codes
    _lay_out(tin, data)
    _want(tin, data)
    for number, packet in enumerate(tin.packets()):
        choice = data.draw(st.integers(0, 7))
        day = data.draw(DAYS)
        if choice & 1:
            move(tin, [packet], shed, today=TODAY, on=day)
            move(tin, [packet], jar, today=TODAY, on=max(day, TODAY - timedelta(30)))
        if choice & 2 and packet.kind is Kind.SEED:
            record_test(tin, packet, day, 20, 17, 1, data.draw(TEXT), today=TODAY,
                        take_from_packet=False)  # fmt: skip
            _test_and_sow(tin, packet, data)
            _sow(tin, packet, data)
        if choice & 4:
            recount(tin, packet, 30, today=TODAY, note=data.draw(SHORT))
            take(tin, packet, 7, MovementKind.GIVEN, today=TODAY, note=data.draw(SHORT))
        _pass_on(tin, packet, data)
        if number and choice == 3:
            edit_packet(tin, codes[number - 1], today=TODAY, parent_id=packet.id)


def _pass_on(tin: Tin, packet: Any, data: st.DataObject) -> None:
    """A word for the swap, labels of all that the packet has, a test that another reported."""
    if data.draw(st.booleans()):
        word = data.draw(st.sampled_from(SwapWord))
        most = data.draw(st.none() | st.integers(1, 9)) if word is SwapWord.OFFER else None
        set_swap_choice(tin, packet, word, portions=most)
    if packet.kind is Kind.SEED and data.draw(st.booleans()):
        record_test(tin, packet, data.draw(DAYS), 9, 8, today=TODAY, take_from_packet=False,
                    reported_by=data.draw(SHORT))  # fmt: skip
    codes = [packet.code, *(one.code for one in tin.tests(packet.id, state=None))]
    codes += [one.code for one in tin.sowings(packet.id)]
    for code in data.draw(st.lists(st.sampled_from(codes), max_size=3)):
        design = data.draw(SHORT.map(lambda text: text[:80]))
        queue_labels(tin, [code], design, copies=data.draw(st.integers(1, 1000)))


def _want(tin: Tin, data: st.DataObject) -> None:
    """Wants; what is on the list already is refused."""
    for crop in CROPS[: data.draw(st.integers(0, 4))]:
        with suppress(BadDataError):
            add_want(
                tin,
                crop,
                variety=data.draw(SHORT),
                portions=data.draw(st.integers(1, 1000)),
                worth=data.draw(st.integers(1, 5)),
                note=data.draw(TEXT),
            )


def _test_and_sow(tin: Tin, packet: Any, data: st.DataObject) -> None:
    """A test in some state with some counts, and a tray; what cannot be is refused."""
    plan = TestPlan(
        data.draw(st.integers(1, 30)),
        data.draw(st.integers(1, 3)),
        data.draw(st.sampled_from(Substrate)),
        data.draw(st.none() | st.floats(0, 45)),
        first_count_day=data.draw(st.none() | st.integers(1, 9)),
        final_count_day=data.draw(st.none() | st.integers(9, 30)),
        pretreatment=data.draw(SHORT),
        note=data.draw(TEXT),
    )
    day = data.draw(st.dates(date(2025, 1, 1), TODAY - timedelta(40)))
    with suppress(BadDataError):
        code = start_test(tin, packet, plan, on=day, today=TODAY, take_from_packet=False).code
        for after, number in data.draw(st.lists(st.tuples(st.integers(1, 35), st.integers(0, 6)))):
            with suppress(BadDataError):
                on = day + timedelta(after)
                count(tin, code, on=on, replicate=1 + number % 3, normal=number, hard=number % 2,
                      today=TODAY)  # fmt: skip
        verb = data.draw(st.sampled_from((None, finish_test, drop_test)))
        if verb:
            verb(tin, code, today=TODAY)
    with suppress(BadDataError):
        record_tray(tin, packet, day, place=data.draw(SHORT), sown=9, emerged=7,
                    note=data.draw(TEXT), today=TODAY)  # fmt: skip


def _lay_out(tin: Tin, data: st.DataObject) -> None:
    """Places and plans; what cannot be is refused."""
    degrees = st.floats(-40, 50)
    for kind in data.draw(st.lists(st.sampled_from(PlaceKind), min_size=1, max_size=3)):
        months = data.draw(st.just([]) | st.lists(degrees, min_size=12, max_size=12))
        light = data.draw(st.none() | st.floats(0, 2500))
        with suppress(BadDataError):
            add_place(
                tin,
                data.draw(SHORT),
                kind,
                coolest_c=data.draw(degrees),
                months_c=months,
                covered=data.draw(st.none() | st.booleans()),
                ppfd=light,
                light_hours=None if light is None else data.draw(st.floats(0, 24)),
                note=data.draw(TEXT),
            )
    for crop in CROPS[: data.draw(st.integers(0, 4))]:
        with suppress(BadDataError):
            set_plan(
                tin,
                crop,
                data.draw(st.integers(1, 99)),
                variety=data.draw(SHORT),
                year=data.draw(YEARS),
                again_days=data.draw(st.none() | st.integers(1, 300)),
                note=data.draw(TEXT),
            )


def _sow(tin: Tin, packet: Any, data: st.DataObject) -> None:
    """A sowing with some of what can become of one; what cannot be is refused."""
    places = tin.places()
    if not places:
        return
    day = data.draw(st.dates(date(2025, 1, 1), TODAY - timedelta(40)))
    in_cells = data.draw(st.booleans())
    draft = SowingDraft(
        None if in_cells else data.draw(st.integers(1, 50)),
        data.draw(st.integers(1, 30)) if in_cells else None,
        data.draw(st.integers(1, 4)) if in_cells else None,
        data.draw(st.none() | st.floats(0.01, 40)),
        data.draw(st.integers(1, 4)),
        data.draw(st.none() | st.integers(1, 30)),
        data.draw(st.none() | st.floats(0.5, 40)),
        data.draw(TEXT),
    )
    with suppress(BadDataError):
        sowing = add_sowing(
            tin, packet, data.draw(st.sampled_from(places)), draft, today=TODAY, on=day,
            take_from_packet=False,
        )  # fmt: skip
        kinds = st.tuples(st.sampled_from(EventKind), st.integers(0, 30))
        for kind, after in data.draw(st.lists(kinds, max_size=4)):
            on = day + timedelta(after)
            with suppress(BadDataError):
                record_event(
                    tin, sowing, kind, on, today=TODAY, count=data.draw(st.integers(0, 9)),
                    place=data.draw(st.none() | st.sampled_from(places)),
                    job=data.draw(SHORT), until=on + timedelta(after + 1), note=data.draw(TEXT),
                )  # fmt: skip


@pytest.mark.parametrize("form", FORMS)
@settings(
    max_examples=20,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(packets=st.lists(drafts(), max_size=5), data=st.data())
def test_out_and_in_gives_an_equal_tin(
    tmp_path_factory: pytest.TempPathFactory,
    new_tin: Callable[[Path], Tin],
    resolve: Any,
    portrait: Callable[[Tin], dict[str, Any]],
    form: str,
    packets: list[PacketDraft],
    data: st.DataObject,
) -> None:
    folder = tmp_path_factory.mktemp("trip")
    with new_tin(folder / "one.tin") as one, new_tin(folder / "two.tin") as two:
        _fill(one, packets, data)
        export(one, folder / form, name_of_crop=str.upper)
        planned = plan_import(two, folder / form, resolve_crop=resolve, today=TODAY)
        assert planned.problems == ()
        carry_out(two, planned)
        assert portrait(two) == portrait(one)
        again = plan_import(two, folder / form, resolve_crop=resolve, today=TODAY)
        assert again.changes_nothing
        undo(two)
        assert (two.packets(), two.wants(), two.label_queue()) == ([], [], [])
        assert len(plan_import(two, folder / form, resolve_crop=resolve, today=TODAY).new) == len(
            one.packets()
        )
        _assert_nothing_runs(folder / form, form)


def _assert_nothing_runs(path: Path, form: str) -> None:
    if form.endswith("xlsx"):
        book = openpyxl.load_workbook(path)
        for page in book.worksheets:
            assert all(cell.data_type != "f" for row in page.iter_rows() for cell in row)
    elif form == "folder":
        numbers = {f"{name}.csv" for name in ("stores",)}
        for file in path.iterdir():
            if file.name not in numbers:
                text = file.read_text("utf-8-sig")
                assert not any(line.startswith(tuple("=+-@＝")) for line in text.split("\r\n"))


@given(st.floats(0, 1))
def test_shares_in_per_cent_read_back_exactly(share: float) -> None:
    assert share_of(percent_text(share)) == share


def test_import_keys_travel(
    tin: Tin, tmp_path: Path, new_tin: Any, resolve: Any, today: date, bring_in: Any
) -> None:
    """A list that was brought in before the tin moved adds nothing after it."""
    text = "crop,variety\npea,Tall\nkale,\n"
    bring_in(text)
    export(tin, tmp_path / "out.json", name_of_crop=str)
    with new_tin(tmp_path / "new.tin") as other:
        carry_out(
            other, plan_import(other, tmp_path / "out.json", resolve_crop=resolve, today=today)
        )
        (tmp_path / "list.csv").write_text(text)
        plan = plan_import(other, tmp_path / "list.csv", resolve_crop=resolve, today=today)
        assert (len(plan.new), plan.already) == (0, 2)


def test_the_packets_alone(tin: Tin, tmp_path: Path, packet: Any, shed: Any) -> None:
    (path,) = export(tin, tmp_path / "list.csv", name_of_crop=lambda crop_id: "Beetroot")
    header, row = path.read_text("utf-8-sig").splitlines()
    assert header.startswith("code,crop,crop_id,variety")
    assert row.startswith(f"{packet.code},Beetroot,beetroot,Elder Lantern,seed")
    assert "50" in row.split(",")


def test_what_is_no_export_is_not_overwritten(tin: Tin, tmp_path: Path) -> None:
    for name in ("mine.csv", "mine.json", "mine.xlsx"):
        path = tmp_path / name
        path.write_text("precious")
        with pytest.raises(BadDataError, match="left alone"):
            export(tin, path, name_of_crop=str)
        assert path.read_text() == "precious"
        export(tin, path, name_of_crop=str, force=True)
        export(tin, path, name_of_crop=str)
    (tmp_path / "folder").mkdir()
    (tmp_path / "folder" / "stores.csv").write_text("precious\n")
    with pytest.raises(BadDataError, match="left alone"):
        export(tin, tmp_path / "folder", name_of_crop=str)
    assert not (tmp_path / "folder" / "packets.csv").exists()
    with pytest.raises(BadDataError, match="tin itself"):
        export(tin, tin.path, name_of_crop=str, format="json", force=True)
    with pytest.raises(UsageError, match="format"):
        export(tin, tmp_path / "x", name_of_crop=str, format="pdf")
    with pytest.raises(UsageError, match="format"):
        export(tin, tmp_path / "x.ods", name_of_crop=str)
    with pytest.raises(BadDataError, match="could not be"):
        export(tin, tmp_path / "none" / "x.json", name_of_crop=str)


def test_a_fault_keeps_a_packet_out_with_all_that_belongs_to_it(
    tin: Tin, packet: Any, shed: Any, plan: Any, tmp_path: Path
) -> None:
    move(tin, [packet], shed, today=TODAY)
    record_test(tin, packet, TODAY, 20, 17, today=TODAY)
    export(tin, tmp_path / "out", name_of_crop=str)
    undo(tin)
    code = packet.code
    for file, wrong in (("movements", f"{code},2026-01-10,eaten,5,\n"),
                        ("tests", f"T18MQ0D8,{code},2026-01-11,20,30,0,\n"),
                        ("storage", "PN9SNTD2,2026-01-11,Nowhere,no,\n")):  # fmt: skip
        with (tmp_path / "out" / f"{file}.csv").open("a") as out:
            out.write(wrong)
    while tin.packets():
        undo(tin)
    planned = plan(tmp_path / "out")
    assert planned.new == ()
    assert {reject.where for reject in planned.rejects} == {
        "packets", "movements", "tests", "storage",
    }  # fmt: skip
    assert len(planned.rejects) == 1 + 3 + 2 + 2
    causes = {problem.where for problem in planned.problems[:4]}
    assert causes == {"movements", "storage", "tests"}  # told before what follows
    assert any("eaten" in problem.sentence for problem in planned.problems[:4])


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"version": 99}, "newer"), ({"version": None}, "newer"), ({"packets": 5}, "list"),
        ({"packets": [5]}, "list"),
    ],
)  # fmt: skip
def test_a_document_that_cannot_be_read(
    tin: Tin, plan: Any, tmp_path: Path, change: dict[str, Any], sentence: str
) -> None:
    (path,) = export(tin, tmp_path / "out.json", name_of_crop=str)
    path.write_text(json.dumps(json.loads(path.read_text()) | change))
    with pytest.raises(BadDataError, match=sentence):
        plan(path)
    path.write_text(path.read_text()[:-20])
    with pytest.raises(BadDataError, match="damaged"):
        plan(path)
