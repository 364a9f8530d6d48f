"""Labels that wait: what each is for, its usual design, and the words on it."""

from __future__ import annotations

import random
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox.errors import NotFoundError
from seedbox.season.swapping.spare import spare_of
from seedbox.season.waiting_labels import LabelWords, first_free, next_free, read_queue
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import PlaceKind
from seedbox.tin.label_queue import queue_labels
from seedbox.tin.packets import PacketDraft, add_packet
from seedbox.tin.places import add_place
from seedbox.tin.preferences import Settings
from seedbox.tin.settings import set_settings
from seedbox.tin.sowings import SowingDraft, add_sowing
from seedbox.tin.testing import TestPlan, start_test

TODAY = date(2027, 2, 20)


@pytest.fixture
def tin(tmp_path: Path):
    with Tin.open(tmp_path / "t.tin", create=True, rng=random.Random(2)) as opened:
        yield opened


@pytest.fixture
def queued(tin: Tin) -> dict[str, str]:
    """A packet, a tray of six cells from it, a test of it in three replicates."""
    draft = PacketDraft("leek", "Otter Lane", harvest_year=2025, amount=300)
    packet = add_packet(tin, draft, today=TODAY)
    sill = add_place(tin, "sill", PlaceKind.WINDOWSILL, coolest_c=18)
    sown = add_sowing(tin, packet, sill, SowingDraft(cells=6, per_cell=2), today=TODAY)
    test = start_test(tin, packet, TestPlan(30, 3), today=TODAY, on=TODAY)
    codes = {"packet": packet.code, "tray": sown.code, "test": test.code}
    queue_labels(tin, codes.values(), copies=2)
    return codes


def test_each_kind_has_its_usual_design_and_its_number(tin: Tin, queued: dict[str, str]) -> None:
    waiting = read_queue(tin).waiting
    assert [(one.kind, one.design, one.labels) for one in waiting] == [
        ("packet", "packet", 2),
        ("sowing", "tray", 2),
        ("germination test", "test", 6),
    ]
    assert {(one.crop, one.variety) for one in waiting} == {("leek", "Otter Lane")}
    assert [one.labels for one in read_queue(tin, "cell").waiting] == [2, 12, 6]
    set_settings(tin, {"label_design": "jar"})
    assert [one.design for one in read_queue(tin).waiting] == ["jar", "tray", "test"]
    queue_labels(tin, [queued["tray"]], "stake")
    assert read_queue(tin).waiting[-1].design == "stake"


def test_words_are_as_many_as_the_labels(tin: Tin, queued: dict[str, str]) -> None:
    set_settings(tin, {"label_line": "plot 4"})
    words, cells = LabelWords(tin, TODAY), LabelWords(tin, TODAY, "cell", line="for once")
    for one in read_queue(tin).waiting:
        found = words.of(one.entry.code)
        assert len(found) == one.apiece
        assert {each["crop"] for each in found} == {"leek"}
        assert {each["line"] for each in found} == {"plot 4"}
    assert [each["number"] for each in cells.of(queued["tray"])][-1] == "cell 6 of 6"
    assert cells.of(queued["packet"])[0]["line"] == "for once"
    with pytest.raises(NotFoundError, match="There is no packet P000 002G"):
        words.of("P000002G")


def test_a_label_for_sharing_tells_the_seeds_of_a_portion(tin: Tin) -> None:
    """As many as a swap gives, and no amount where that cannot be told."""
    drafts = {
        "much": PacketDraft("leek", "Otter Lane", harvest_year=2026, amount=900),
        "little": PacketDraft("leek", "Long Hill", harvest_year=2026, amount=2),
        "uncounted": PacketDraft("leek", "Red Barn", harvest_year=2026),
        "spent": PacketDraft("onion", "Mill Pond", harvest_year=2009, amount=900),
    }
    code = {name: add_packet(tin, one, today=TODAY).code for name, one in drafts.items()}
    words = LabelWords(tin, TODAY)
    spare = {one.code: one for one in spare_of(tin, TODAY)}
    portion = spare[code["much"]].portion
    assert portion is not None and 1 < portion.seeds < 900
    assert words.of(code["much"], "sharing")[0]["left"] == f"{portion.seeds} seeds"
    assert words.of(code["much"], "packet")[0]["left"] == "900 seeds"
    assert words.of(code["much"])[0]["left"] == "900 seeds"
    for name in ("little", "uncounted", "spent"):
        assert words.of(code[name], "sharing")[0]["left"] == "", name
    assert words.of(code["little"], "jar")[0]["left"] == "2 seeds"


def test_an_entry_whose_packet_is_gone_is_still_listed(tin: Tin, queued: dict[str, str]) -> None:
    tin.database.run("UPDATE label_queue SET code = 'P000002G' WHERE id = 1")
    assert read_queue(tin).waiting[0].crop == "not in this tin"
    tin.database.run("DELETE FROM label_queue WHERE id > 1")
    assert [one.crop for one in read_queue(tin).waiting] == ["not in this tin"]


@given(st.integers(1, 189), st.integers(0, 2000), st.integers(1, 189))
def test_the_sheet_moves_on_label_by_label(start: int, labels: int, on_a_sheet: int) -> None:
    start = min(start, on_a_sheet)
    place = start
    for _ in range(labels):
        place = place + 1 if place < on_a_sheet else 1
    assert next_free(start, labels, on_a_sheet) == place


def test_a_label_that_the_sheet_has_not_is_the_first_of_a_fresh_one() -> None:
    settings = Settings(label_start=30)
    assert (first_free(settings, 65), first_free(settings, 24)) == (30, 1)
