"""Wants, words for the swap, labels that wait, and whose test it was, outside of the tin."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from seedbox.tin.exchange.carrying import carry_out
from seedbox.tin.exchange.exporting import export
from seedbox.tin.file import Tin
from seedbox.tin.history import undo
from seedbox.tin.label_queue import queue_labels
from seedbox.tin.list_records import SwapWord, Want
from seedbox.tin.records import Packet
from seedbox.tin.swap_choices import set_swap_choice
from seedbox.tin.tests import record_test
from seedbox.tin.wants import add_want

THIRD = Path(__file__).parent / "golden_third"  # as the third version of the format wrote it
Planner = Callable[..., Any]


@pytest.mark.parametrize("source", ["folder", "tin.json"])
def test_exports_of_the_third_version_come_in(tin: Tin, plan: Planner, source: str) -> None:
    planned = plan(THIRD / source)
    assert planned.problems == ()
    carry_out(tin, planned)
    tests = tin.tests(state=None)
    assert ({one.reported_by for one in tests}, len(tests)) == ({""}, 3)
    assert len(tin.sowings()) == 2
    assert (tin.wants(), tin.swap_choices(), tin.label_queue()) == ([], [], [])


def test_an_export_of_the_third_version_may_be_written_over(tin: Tin, tmp_path: Path) -> None:
    shutil.copytree(THIRD / "folder", tmp_path / "out")
    export(tin, tmp_path / "out", name_of_crop=str)
    assert "reported_by" in (tmp_path / "out" / "tests.csv").read_text("utf-8-sig")


@pytest.fixture
def document(tin: Tin, packet: Packet, today: date, tmp_path: Path) -> dict[str, Any]:
    """One of each, as an export tells them; the tin is empty again."""
    theirs = record_test(
        tin, packet, today, 20, 17, today=today, take_from_packet=False, reported_by="Maud"
    )
    add_want(tin, "leek", variety="Ferry Blue", portions=2, worth=5)
    set_swap_choice(tin, packet, SwapWord.OFFER, portions=2)
    queue_labels(tin, [packet.code, theirs.code])
    export(tin, tmp_path / "out.json", name_of_crop=str)
    while tin.history()[-1].state == "done":
        undo(tin)
    found: dict[str, Any] = json.loads((tmp_path / "out.json").read_text())
    return found


@pytest.fixture
def planned(plan: Planner, tmp_path: Path) -> Callable[[dict[str, Any]], Any]:
    def made(document: dict[str, Any]) -> Any:
        (tmp_path / "changed.json").write_text(json.dumps(document))
        return plan(tmp_path / "changed.json")

    return made


def test_what_is_sound_comes_in_and_twice_adds_nothing(
    document: Any, planned: Any, tin: Tin
) -> None:
    assert planned(document).problems == ()
    carry_out(tin, planned(document))
    assert tin.tests()[0].reported_by == "Maud"
    assert tin.wants() == [Want(1, "leek", "Ferry Blue", 2, 5)]
    assert [(one.choice, one.portions) for one in tin.swap_choices()] == [(SwapWord.OFFER, 2)]
    assert [one.code[0] for one in tin.label_queue()] == ["P", "T"]
    again = planned(document)
    assert (again.changes_nothing, again.problems, again.labels) == (True, (), ())
    undo(tin)
    assert (tin.wants(), tin.swap_choices(), tin.label_queue()) == ([], [], [])


def test_a_want_that_the_tin_has_stays(document: Any, planned: Any, tin: Tin) -> None:
    mine = add_want(tin, "leek", variety="ferry blue", portions=9)
    carry_out(tin, planned(document))
    assert tin.wants() == [mine]


def test_what_comes_without_packets_is_named(document: Any, planned: Any, tin: Tin) -> None:
    assert planned(document).brings == ("1 packet", "1 want")
    wants = [*document["wants"], {"crop_id": "kale", "portions": 1}]
    alone = planned({**{name: document[name] for name in ("format", "version")}, "wants": wants})
    assert alone.brings == ("2 wants",)
    assert carry_out(tin, alone).label == "Import 2 wants from changed.json"
    assert len(tin.wants()) == 2


@pytest.mark.parametrize(
    ("table", "change", "part"),
    [
        ("wants", {"crop_id": ""}, "cell is empty"),
        ("wants", {"portions": None}, "cell is empty"),
        ("wants", {"portions": -1}, "1 to 1,000 portions"),
        ("wants", {"portions": 1.5}, "no whole number"),
        ("wants", {"worth": 9}, "to 5 (badly wanted), not 9"),
        ("wants", {"worth": "=1+1"}, "is no number"),
        ("wants", {"variety": "x" * 4_000}, "4,000 characters"),
        ("swap_choices", {"choice": "sell"}, "none of offer, keep"),
        ("swap_choices", {"choice": "keep"}, "kept back has no portions"),
        ("swap_choices", {"portions": 0}, "Offer 1 to 1,000 portions"),
        ("swap_choices", {"packet": "P7EBJADP"}, "There is no packet"),
        ("label_queue", {"code": ""}, "cell is empty"),
        ("label_queue", {"code": "../../x"}, "is not a code"),
        ("label_queue", {"code": "T73C42C3"}, "There is no germination test"),
        ("label_queue", {"code": "P7EBJADP"}, "There is no packet"),
        ("label_queue", {"copies": 1001}, "1 to 1,000 copies"),
        ("label_queue", {"design": "x" * 81}, "80 characters at most"),
        ("tests", {"reported_by": "x" * 201}, "201 characters"),
    ],
)
def test_a_fault_is_told_with_its_row(
    document: Any, planned: Any, tin: Tin, table: str, change: Any, part: str
) -> None:
    document[table][0] |= change
    plan = planned(document)
    assert part in str(plan.problems[0])
    assert str(plan.problems[0]).startswith(f"{table}, row 1")
    carry_out(tin, plan)  # the rest comes in
    assert len(tin.label_queue()) < 2 or table in ("wants", "swap_choices")


def test_rows_that_come_twice(document: Any, planned: Any) -> None:
    for table in ("wants", "swap_choices", "label_queue"):
        document[table].append(document[table][0])
    document["wants"][1] = document["wants"][0] | {"variety": "FERRY blue"}
    said = [str(one) for one in planned(document).problems]
    assert sum("stands in row 1 already" in one for one in said) == 3


def test_a_column_that_is_needed(document: Any, plan: Planner, tin: Tin, tmp_path: Path) -> None:
    export(tin, tmp_path / "out", name_of_crop=str)
    (tmp_path / "out" / "wants.csv").write_text("crop_id,variety\nleek,\n")
    with pytest.raises(Exception, match="wants: the column portions is missing"):
        plan(tmp_path / "out")
