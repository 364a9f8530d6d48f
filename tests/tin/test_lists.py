"""Wants, words for the swap, labels that wait: each change is one, undone as one."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from random import Random
from typing import Any

import pytest

from seedbox.errors import BadDataError, NotFoundError
from seedbox.tin.codes import new_code, shown
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import PlaceKind
from seedbox.tin.history import redo, undo
from seedbox.tin.label_queue import clear_queue, queue_labels, unqueue
from seedbox.tin.list_records import QueuedLabel, SwapChoice, SwapWord, Want
from seedbox.tin.packets import PacketDraft, add_packet, remove_packet
from seedbox.tin.places import add_place
from seedbox.tin.records import Packet
from seedbox.tin.sowings import SowingDraft, add_sowing, remove_sowing
from seedbox.tin.swap_choices import choice_of, clear_swap_choice, set_swap_choice
from seedbox.tin.tests import record_test, remove_test
from seedbox.tin.wants import add_want, change_want, remove_want

Dumper = Callable[[Tin], dict[str, list[Any]]]


def test_a_want_is_added_changed_and_struck_out(tin: Tin, dump: Dumper) -> None:
    want = add_want(tin, "leek", variety=" Ferry  Blue ", portions=2, worth=5, note="for the fen")
    assert want == Want(1, "leek", "Ferry Blue", 2, 5, "for the fen")
    assert add_want(tin, "bean") == Want(2, "bean", "", 1, 3, "")
    assert [one.crop_id for one in tin.wants()] == ["bean", "leek"]
    changed = change_want(tin, want.id, portions=3, variety="")
    assert changed == Want(1, "leek", "", 3, 5, "for the fen")
    assert tin.wants()[1] == changed
    before = dump(tin)
    remove_want(tin, want.id)
    assert [one.label for one in tin.history()] == [
        "Strike out the want of leek",
        "Change the want of leek",
        "Want 1 portion of bean",
        "Want 2 portions of leek Ferry Blue",
    ]
    undo(tin)
    assert dump(tin) == before
    redo(tin)
    assert [one.crop_id for one in tin.wants()] == ["bean"]


@pytest.mark.parametrize(
    ("given", "part"),
    [
        ({"crop_id": " "}, "needs a crop"),
        ({"portions": 0}, "Want 1 to 1,000 portions, not 0"),
        ({"worth": 6}, "1 .nice to have. to 5"),
        ({"worth": 0}, "1 .nice to have. to 5"),
        ({"variety": "x" * 201}, "200 characters at most"),
        ({"note": "x" * 10_001}, "10001 characters"),
    ],
)
def test_unsound_wants_are_refused(tin: Tin, given: dict[str, Any], part: str) -> None:
    with pytest.raises(BadDataError, match=part):
        add_want(tin, **{"crop_id": "leek", **given})
    assert (tin.wants(), tin.history()) == ([], [])


def test_the_same_want_twice_is_refused_whatever_the_capitals(tin: Tin) -> None:
    add_want(tin, "leek", variety="Übersee Blau")
    other = add_want(tin, "leek")
    with pytest.raises(BadDataError, match="on the list of wants already"):
        add_want(tin, "leek", variety="ÜBERSEE blau")
    with pytest.raises(BadDataError, match="on the list of wants already"):
        change_want(tin, other.id, variety="übersee BLAU")
    assert change_want(tin, other.id, note="any") == Want(2, "leek", note="any")
    with pytest.raises(NotFoundError, match="no want number 9"):
        remove_want(tin, 9)
    with pytest.raises(BadDataError, match="A want's id, price cannot be edited"):
        change_want(tin, other.id, id=4, price=2)


def test_a_word_for_the_swap_replaces_the_one_before(
    tin: Tin, packet: Packet, dump: Dumper
) -> None:
    assert choice_of(tin, packet) is None
    kept = set_swap_choice(tin, packet, SwapWord.KEEP)
    assert kept == SwapChoice(1, packet.id, SwapWord.KEEP)
    offered = set_swap_choice(tin, packet, SwapWord.OFFER, portions=2)
    assert tin.swap_choices() == [offered] == [SwapChoice(1, packet.id, SwapWord.OFFER, 2)]
    before = dump(tin)
    clear_swap_choice(tin, packet)
    assert choice_of(tin, packet) is None
    undo(tin)
    assert dump(tin) == before
    undo(tin)
    assert choice_of(tin, packet) == kept


def test_words_that_make_no_sense(tin: Tin, packet: Packet) -> None:
    with pytest.raises(BadDataError, match="kept back has no portions"):
        set_swap_choice(tin, packet, SwapWord.KEEP, portions=1)
    with pytest.raises(BadDataError, match="Offer 1 to 1,000 portions, not 0"):
        set_swap_choice(tin, packet, SwapWord.OFFER, portions=0)
    with pytest.raises(NotFoundError, match="Nothing was said"):
        clear_swap_choice(tin, packet)
    assert tin.swap_choices() == []


def test_labels_wait_once_each(tin: Tin, packet: Packet, today: date, dump: Dumper) -> None:
    other = add_packet(tin, PacketDraft("leek", amount=9), today=today)
    spelt = f"{packet.code[:4].lower()}-{packet.code[4:]}"
    waiting = queue_labels(tin, [packet.code, other.code, spelt])
    assert waiting == [QueuedLabel(1, packet.code), QueuedLabel(2, other.code)]
    assert queue_labels(tin, [packet.code], copies=3) == [QueuedLabel(1, packet.code, "", 3)]
    queue_labels(tin, [packet.code], "jar")
    assert tin.label_queue() == [
        QueuedLabel(1, packet.code, "", 3),
        QueuedLabel(2, other.code),
        QueuedLabel(3, packet.code, "jar"),
    ]
    unqueue(tin, [1, 3])
    assert tin.label_queue() == [QueuedLabel(2, other.code)]
    assert tin.history()[0].label == "Take 2 labels out of the queue"
    before = dump(tin)
    assert clear_queue(tin) == 1
    assert (clear_queue(tin), tin.label_queue()) == (0, [])
    undo(tin)
    assert dump(tin) == before


def test_a_queue_takes_all_or_nothing(tin: Tin, packet: Packet) -> None:
    free = new_code("S", set(), Random(1))
    with pytest.raises(NotFoundError, match=f"There is no sowing {shown(free)}"):
        queue_labels(tin, [packet.code, free])
    with pytest.raises(BadDataError, match="is not a code"):
        queue_labels(tin, [packet.code, "leek"])
    with pytest.raises(BadDataError, match="1 to 1,000 copies"):
        queue_labels(tin, [packet.code], copies=0)
    with pytest.raises(BadDataError, match="80 characters at most"):
        queue_labels(tin, [packet.code], "x" * 81)
    with pytest.raises(NotFoundError, match="No label number 4"):
        unqueue(tin, [4])
    assert tin.label_queue() == []


def test_what_goes_out_of_the_record_takes_its_labels_and_word(
    tin: Tin, packet: Packet, today: date, dump: Dumper
) -> None:
    place = add_place(tin, "Sill", PlaceKind.WINDOWSILL, coolest_c=18)
    test = record_test(tin, packet, today, 10, 9, today=today)
    sown = add_sowing(tin, packet, place, SowingDraft(cells=5, per_cell=1), today=today)
    set_swap_choice(tin, packet, SwapWord.KEEP)
    queue_labels(tin, [packet.code, test.code, sown.code])
    full = dump(tin)
    remove_test(tin, test.code)
    assert [one.code[0] for one in tin.label_queue()] == ["P", "S"]
    remove_sowing(tin, sown.code)
    assert [one.code[0] for one in tin.label_queue()] == ["P"]
    undo(tin)
    undo(tin)
    assert dump(tin) == full
    remove_packet(tin, packet.code)
    assert (tin.label_queue(), tin.swap_choices()) == ([], [])
    undo(tin)
    assert dump(tin) == full


def test_a_test_says_whose_it_was(tin: Tin, packet: Packet, today: date) -> None:
    own = record_test(tin, packet, today, 10, 9, today=today)
    theirs = record_test(
        tin, packet, today, 20, 17, today=today, take_from_packet=False, reported_by=" Maud\tOrr "
    )
    assert (own.reported_by, theirs.reported_by) == ("", "Maud Orr")
    assert tin.tests() == [own, theirs]
    with pytest.raises(BadDataError, match="200 characters at most"):
        record_test(tin, packet, today, 9, 9, today=today, reported_by="x" * 201)
