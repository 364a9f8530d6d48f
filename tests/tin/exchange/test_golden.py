"""Golden files: one small tin that holds every hard case, byte for byte in every form.

To write them anew after a wanted change, run this file with SEEDBOX_WRITE_GOLDEN=1 and read the
difference.
"""

from __future__ import annotations

import os
import zipfile
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from seedbox.tin.counting import count
from seedbox.tin.exchange.exporting import export
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import EventKind, PlaceKind
from seedbox.tin.label_queue import queue_labels
from seedbox.tin.list_records import SwapWord
from seedbox.tin.own import add_own_crop, set_own_figure
from seedbox.tin.packets import PacketDraft, add_packet, move, take
from seedbox.tin.places import add_place
from seedbox.tin.plans import set_plan
from seedbox.tin.records import Kind, Origin, Packet, Substrate, Treatment, Unit
from seedbox.tin.settings import set_setting
from seedbox.tin.sowing_events import record_event
from seedbox.tin.sowings import SowingDraft, add_sowing
from seedbox.tin.stores import add_store
from seedbox.tin.swap_choices import set_swap_choice
from seedbox.tin.testing import TestPlan, finish_test, start_test
from seedbox.tin.tests import record_test
from seedbox.tin.trays import record_tray
from seedbox.tin.wants import add_want

GOLDEN = Path(__file__).parent / "golden"
DAY = date(2026, 3, 1)


@pytest.fixture
def hard_tin(tin: Tin) -> Tin:
    set_setting(tin, "region", "us")
    add_own_crop(tin, "Sea kale", family="Brassicaceae", note="=not a formula")
    set_own_figure(tin, "own:sea-kale", "storage_years", "1.5", note="@mine")
    shed = add_store(tin, "Shed, cold", -2.5, 18, relative_humidity=0.55, note="mice")
    jar = add_store(tin, "'Jar", 4, sealed=True, sealed_moisture=6.5)
    first = add_packet(
        tin,
        PacketDraft(
            "tomato", '=HYPERLINK("x")', Kind.SEED, Origin.SAVED, "Ольга & Zoë", 2021, None, None,
            date(2027, 12, 31), 0.855, date(2024, 5, 1), Treatment.DRESSED, "2000000000008",
            "line one\n=line two\n\"quoted\", שלום 🥕", ("early", "-late"), None, Unit.SEEDS,
            date(2021, 9, 3), "P7EBJADP", 140.0, shed.id,
        ),
        today=DAY,
    )  # fmt: skip
    second = PacketDraft(
        "own:sea-kale", "'Lamp", Kind.STOCK, None, "+49 30", bought_year=2025, tags=("a;b",),
        parent_id=first.id, code="PN9SNTD2", unit=Unit.GRAMS, amount=2.125,
    )  # fmt: skip
    add_packet(tin, second, today=DAY)
    add_packet(tin, PacketDraft("kale", code="PPS3K35W"), today=DAY)
    move(tin, [first], jar, today=DAY)
    take(tin, first, 20, today=DAY, note="-tray 1")
    record_test(tin, first, DAY, 20, 17, 1, "@damp paper", today=DAY, take_from_packet=True)
    laid = TestPlan(
        15, 2, Substrate.SAND, temperature_c=27.5, night_c=18, first_count_day=5,
        final_count_day=10, pretreatment="=soak 2 h", note="-bag\nby the boiler",
    )  # fmt: skip
    running = start_test(tin, first, laid, today=DAY)
    later = date(2026, 3, 12)
    count(tin, running.code, on=date(2026, 3, 6), replicate=1, normal=5, today=later)
    count(tin, running.code, on=date(2026, 3, 6), replicate=2, normal=4, abnormal=1, today=later)
    done = start_test(tin, first, TestPlan(10, final_count_day=7), today=DAY)
    count(tin, done.code, on=date(2026, 3, 8), normal=6, hard=1, fresh=2, today=later)
    finish_test(tin, done.code, on=date(2026, 3, 8), today=later)
    record_tray(tin, first, DAY, place="=sill", sown=24, emerged=19, note="@mix", today=DAY)
    _garden(tin, first)
    _lists(tin, first)
    return tin


def _lists(tin: Tin, packet: Packet) -> None:
    theirs = record_test(
        tin, packet, DAY, 25, 21, note="'theirs", today=DAY, take_from_packet=False,
        reported_by="=Maud",
    )  # fmt: skip
    add_want(tin, "kale", variety="-Ruffle", portions=2, worth=5, note="@dear\n=badly")
    add_want(tin, "leek")
    kale = tin.packets()[2]
    set_swap_choice(tin, kale, SwapWord.KEEP)
    set_swap_choice(tin, packet, SwapWord.OFFER, portions=3)
    queue_labels(tin, [packet.code, theirs.code, tin.sowings()[0].code])
    queue_labels(tin, [packet.code], "=jar", copies=2)


def _garden(tin: Tin, packet: Packet) -> None:
    sill = add_place(
        tin, "=Sill, south", PlaceKind.WINDOWSILL, coolest_c=17.5, ppfd=90, light_hours=11.5
    )
    months = (-1.5, 0, 4, 8, 12.25, 16, 18, 18, 14, 9, 4, 1)
    bed = add_place(tin, "'Bed", PlaceKind.BED, months_c=months, covered=True, note="=mulch")
    set_plan(tin, "tomato", 12, variety="-Lamp", year=2026, note="@ours")
    set_plan(tin, "kale", 8, again_days=21)
    cells = SowingDraft(
        cells=6, per_cell=2, plants_wanted=6, pot_depth_cm=4.5, note="-tray\nby the door"
    )
    tray = add_sowing(tin, packet, sill, cells, today=DAY)
    add_sowing(tin, packet, bed, SowingDraft(seeds=9, row_m=1.25, left_per_cell=2), today=DAY)
    week = date(2026, 3, 8)
    record_event(tin, tray, EventKind.EMERGED, week, count=7, note="=late", today=week)
    record_event(
        tin, tray, EventKind.PUT_OFF, week, job="pot-on", until=date(2026, 4, 1), today=week
    )
    record_event(
        tin, tray, EventKind.POTTED_ON, week, count=5, place=bed, pot_depth_cm=9, today=week
    )


def _same(made: Path, golden: Path) -> None:
    if os.environ.get("SEEDBOX_WRITE_GOLDEN"):
        golden.parent.mkdir(parents=True, exist_ok=True)
        golden.write_bytes(made.read_bytes())
    assert made.read_bytes() == golden.read_bytes(), golden.name


def test_csv_and_json_to_the_byte(hard_tin: Tin, tmp_path: Path) -> None:
    for file in export(hard_tin, tmp_path / "out", name_of_crop=str.title):
        _same(file, GOLDEN / "folder" / file.name)
    for name in ("tin.json", "packets.csv"):
        (file,) = export(hard_tin, tmp_path / name, name_of_crop=str.title)
        _same(file, GOLDEN / name)


def test_the_parts_of_the_workbook(hard_tin: Tin, tmp_path: Path) -> None:
    """Text, numbers and their types; how openpyxl lays out styles is its own affair."""
    (file,) = export(hard_tin, tmp_path / "tin.xlsx", name_of_crop=str.title)
    with zipfile.ZipFile(file) as packed:
        names = sorted(name for name in packed.namelist() if name.startswith("xl/worksheets/"))
        parts = [f"== {name}\n{packed.read(name).decode()}\n" for name in names]
        assert all(entry.date_time == (2000, 1, 1, 0, 0, 0) for entry in packed.infolist())
        assert b"2000-01-01T00:00:00Z" in packed.read("docProps/core.xml")
    (tmp_path / "tin.xlsx.txt").write_text("".join(parts).replace("><", ">\n<"), "utf-8")
    _same(tmp_path / "tin.xlsx.txt", GOLDEN / "tin.xlsx.txt")


def test_the_same_tin_gives_the_same_bytes(hard_tin: Tin, tmp_path: Path) -> None:
    for name in ("a.json", "a.xlsx", "a.csv"):
        (one,) = export(hard_tin, tmp_path / name, name_of_crop=str)
        (two,) = export(hard_tin, tmp_path / f"b{one.suffix}", name_of_crop=str)
        assert one.read_bytes() == two.read_bytes()


def test_the_golden_files_can_be_read(
    tin: Tin, plan: Callable[..., Any], resolve: Any, today: date
) -> None:
    for source in ("folder", "tin.json"):
        planned = plan(GOLDEN / source)
        assert (len(planned.new), planned.problems) == (3, ())
        assert planned.new[0].variety == '=HYPERLINK("x")'
