"""Labels that wait: another design or number of copies, and what happens once they are printed."""

from __future__ import annotations

from datetime import date

import pytest

from seedbox.errors import BadDataError, NotFoundError
from seedbox.tin.file import Tin
from seedbox.tin.history import undo
from seedbox.tin.label_changes import add_copies, change_queued, labels_printed
from seedbox.tin.label_queue import queue_labels
from seedbox.tin.packets import PacketDraft, add_packet
from seedbox.tin.settings import set_settings


@pytest.fixture
def codes(tin: Tin, today: date) -> list[str]:
    return [add_packet(tin, PacketDraft(crop), today=today).code for crop in ("leek", "pea_garden")]


def waiting(tin: Tin) -> list[tuple[str, str, int]]:
    return [(one.code, one.design, one.copies) for one in tin.label_queue()]


def test_design_and_copies_change_where_the_label_stands(tin: Tin, codes: list[str], dump) -> None:
    queue_labels(tin, codes)
    before = dump(tin)
    change_queued(tin, [1, 2], design="jar")
    change_queued(tin, [1], copies=7)
    assert waiting(tin) == [(codes[0], "jar", 7), (codes[1], "jar", 1)]
    undo(tin)
    undo(tin)
    assert dump(tin) == before


def test_two_that_become_the_same_add_up(tin: Tin, codes: list[str], dump) -> None:
    queue_labels(tin, codes, "packet", 2)
    queue_labels(tin, codes[:1], "jar", 3)
    before = dump(tin)
    change_queued(tin, [3], design="packet")
    assert waiting(tin) == [(codes[1], "packet", 2), (codes[0], "packet", 5)]
    undo(tin)
    assert dump(tin) == before
    change_queued(tin, [1, 2, 3], design="stake")
    assert waiting(tin) == [(codes[1], "stake", 2), (codes[0], "stake", 5)]


def test_never_more_than_the_most_copies(tin: Tin, codes: list[str]) -> None:
    queue_labels(tin, codes[:1], "packet", 900)
    queue_labels(tin, codes[:1], "jar", 900)
    change_queued(tin, [2], design="packet")
    assert waiting(tin) == [(codes[0], "packet", 1000)]


def test_what_makes_no_sense_changes_nothing(tin: Tin, codes: list[str]) -> None:
    queue_labels(tin, codes)
    with pytest.raises(BadDataError, match="1 to 1,000 copies"):
        change_queued(tin, [1, 2], copies=0)
    with pytest.raises(NotFoundError, match="No label number 9"):
        change_queued(tin, [1, 9], copies=2)
    with pytest.raises(BadDataError, match="label_start takes"):
        labels_printed(tin, [1], 0)
    assert [copies for _, _, copies in waiting(tin)] == [1, 1]


def test_printed_labels_go_and_the_sheet_moves_on(tin: Tin, codes: list[str], dump) -> None:
    queue_labels(tin, codes)
    queue_labels(tin, codes[:1], "jar")
    before = dump(tin)
    labels_printed(tin, [1, 2, 44], 7)
    assert waiting(tin) == [(codes[0], "jar", 1)]
    assert tin.settings().label_start == 7
    assert tin.history()[0].label == "Labels printed; 7 is the next free one"
    undo(tin)
    assert dump(tin) == before


def test_several_settings_are_one_change(tin: Tin, dump) -> None:
    before = dump(tin)
    settings = set_settings(tin, {"label_sheet": "mine", "label_start": "3"})
    assert (settings.label_sheet, settings.label_start) == ("mine", 3)
    assert tin.history()[0].label == "Set label_sheet to mine and label_start to 3"
    with pytest.raises(BadDataError, match="test_good"):
        set_settings(tin, {"label_start": "4", "test_good": "0.2"})
    assert tin.settings() == settings
    undo(tin)
    assert dump(tin) == before


def test_copies_are_added_to_what_each_has(tin: Tin, codes: list[str]) -> None:
    queue_labels(tin, codes[:1], copies=3)
    queue_labels(tin, codes[1:])
    add_copies(tin, [1, 2], 2)
    assert [copies for _, _, copies in waiting(tin)] == [5, 3]
    with pytest.raises(BadDataError, match="1 to 1,000 copies of a label, not 0"):
        add_copies(tin, [1, 2], -3)
    undo(tin)
    assert [copies for _, _, copies in waiting(tin)] == [3, 1]
