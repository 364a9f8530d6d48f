"""Tests, counts and trays outside of the tin: older exports, faults, what is in the tin already."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from seedbox.tin.counting import count
from seedbox.tin.exchange.carrying import carry_out
from seedbox.tin.exchange.exporting import export
from seedbox.tin.file import Tin
from seedbox.tin.history import undo
from seedbox.tin.records import Packet, TestState
from seedbox.tin.testing import TestPlan, start_test
from seedbox.tin.trays import record_tray

FIRST = Path(__file__).parent / "golden_first"  # as the first version of the format wrote it
Planner = Callable[..., Any]

START = date(2026, 2, 1)


@pytest.mark.parametrize("source", ["folder", "tin.json"])
def test_exports_of_the_first_version_come_in(tin: Tin, plan: Planner, source: str) -> None:
    planned = plan(FIRST / source)
    assert planned.problems == ()
    carry_out(tin, planned)
    (test,) = tin.tests()
    assert (test.code, test.state, test.seeds) == ("T73C42C3", TestState.FINISHED, 20)
    assert (test.germinated, test.hard, test.replicates) == (17, 1, 1)
    assert (test.started_on, test.abnormal, test.dead) == (None, None, None)


def test_an_older_export_may_be_written_over(tin: Tin, tmp_path: Path) -> None:
    shutil.copytree(FIRST / "folder", tmp_path / "out")
    export(tin, tmp_path / "out", name_of_crop=str)
    assert "state" in (tmp_path / "out" / "tests.csv").read_text("utf-8-sig")


@pytest.fixture
def document(tin: Tin, packet: Packet, today: date, tmp_path: Path) -> dict[str, Any]:
    """A running test with one count and a tray, as an export tells them; the tin is empty again."""
    laid = TestPlan(20, 2, final_count_day=14)
    test = start_test(tin, packet, laid, on=START, today=today)
    count(tin, test.code, on=date(2026, 2, 8), replicate=2, normal=8, today=today)
    record_tray(tin, packet, START, place="sill", sown=10, emerged=7, today=today)
    export(tin, tmp_path / "out.json", name_of_crop=str)
    while tin.packets():
        undo(tin)
    found: dict[str, Any] = json.loads((tmp_path / "out.json").read_text())
    return found


@pytest.fixture
def sentences(plan: Planner, tmp_path: Path) -> Callable[[dict[str, Any]], list[str]]:
    def said(document: dict[str, Any]) -> list[str]:
        (tmp_path / "changed.json").write_text(json.dumps(document))
        return [str(problem) for problem in plan(tmp_path / "changed.json").problems]

    return said


def test_what_is_sound_comes_in(
    document: Any, sentences: Any, plan: Planner, tmp_path: Path
) -> None:
    assert sentences(document) == []
    planned = plan(tmp_path / "changed.json")
    assert len(planned.tests) == len(planned.test_counts) == len(planned.tray_counts) == 1


@pytest.mark.parametrize(
    ("table", "change", "part"),
    [
        ("test_counts", {"normal": 11}, "laid with 10 seeds; 11 were counted"),
        ("test_counts", {"normal": -1}, "cannot be -1"),
        ("test_counts", {"replicate": 3}, "no replicate 3"),
        ("test_counts", {"on": "2026-01-31"}, "counted from the day after"),
        ("test_counts", {"on": "2027-01-31"}, "in the future"),
        ("test_counts", {"test": "T73C42C3"}, "There is no germination test"),
        ("test_counts", {"test": ""}, "cell is empty"),
        ("tests", {"state": "asleep"}, "none of running, finished, dropped"),
        ("tests", {"substrate": "wool"}, "none of paper, sand, mix"),
        ("tests", {"started_on": ""}, "needs the day of its start"),
        ("tests", {"started_on": "2026-02-02"}, "cannot have been started after"),
        ("tests", {"replicates": 0}, "1 to 16 replicates"),
        ("tests", {"temperature_c": 99}, "0 to 45 °C"),
        ("tests", {"dead": 21}, "more than the 20 seeds"),
        ("tests", {"first_count_day": 20}, "comes before the first"),
        ("tray_counts", {"emerged": 11}, "more than the 10 seeds"),
        ("tray_counts", {"packet": "P7EBJADP"}, "There is no packet"),
    ],
)
def test_a_fault_is_told_and_keeps_the_packet_out(
    document: Any, sentences: Any, plan: Planner, tmp_path: Path, table: str, change: Any, part: str
) -> None:
    document[table][0] |= change
    said = sentences(document)
    assert part in said[0]
    assert said[0].startswith(f"{table}, row 1")
    planned = plan(tmp_path / "changed.json")
    alone = change.keys() & {"packet", "test"}  # such a row no longer belongs to the packet
    assert len(planned.new) == (1 if alone else 0)


def test_twice_adds_nothing(document: Any, plan: Planner, tin: Tin, tmp_path: Path) -> None:
    (tmp_path / "out.json").write_text(json.dumps(document))
    carry_out(tin, plan(tmp_path / "out.json"))
    again = plan(tmp_path / "out.json")
    assert (again.changes_nothing, again.problems, again.already) == (True, (), 1)
    assert len(tin.test_counts()) == len(tin.tray_counts()) == 1
    undo(tin)
    assert (tin.tests(state=None), tin.test_counts(), tin.tray_counts()) == ([], [], [])
