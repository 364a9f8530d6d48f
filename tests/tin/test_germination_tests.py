"""Germination tests: counts that can be, seed that leaves the packet."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from seedbox.errors import BadDataError, NotFoundError
from seedbox.tin import codes
from seedbox.tin.file import Tin
from seedbox.tin.packets import PacketDraft, add_packet
from seedbox.tin.quantity import left
from seedbox.tin.records import Kind, MovementKind, Packet, Unit
from seedbox.tin.tests import record_test, remove_test


def test_a_test_is_kept_and_its_seed_taken(tin: Tin, packet: Packet, today: date) -> None:
    test = record_test(tin, packet, date(2026, 3, 1), 20, 16, 2, "on paper", today=today)
    assert tin.tests(packet.id) == tin.tests() == [test]
    assert (test.seeds, test.germinated, test.hard, test.note) == (20, 16, 2, "on paper")
    assert codes.parse(test.code)[0] == "T"
    assert left(tin, packet) == 30
    assert tin.movements(packet.id)[-1].kind is MovementKind.TESTED
    assert len(tin.history()) == 2


def test_the_seed_can_stay(tin: Tin, packet: Packet, today: date) -> None:
    record_test(tin, packet, today, 20, 16, today=today, take_from_packet=False)
    assert left(tin, packet) == 50


def test_more_seed_than_the_packet_holds(tin: Tin, packet: Packet, today: date) -> None:
    with pytest.raises(BadDataError, match="has only 50 seeds left"):
        record_test(tin, packet, today, 51, 16, today=today)
    assert tin.tests() == []
    assert len(tin.history()) == 1


def test_a_packet_in_grams_needs_the_weight(tin: Tin, today: date) -> None:
    packet = add_packet(tin, PacketDraft("leek", amount=2, unit=Unit.GRAMS), today=today)
    with pytest.raises(BadDataError, match="how many grams"):
        record_test(tin, packet, today, 20, 16, today=today)
    record_test(tin, packet, today, 20, 16, today=today, grams_taken=0.05)
    assert left(tin, packet) == 1.95


def test_an_uncounted_packet_stays_uncounted(tin: Tin, today: date) -> None:
    packet = add_packet(tin, PacketDraft("leek"), today=today)
    record_test(tin, packet, today, 20, 16, today=today)
    assert left(tin, packet) is None
    assert tin.packet(packet.code).unit is Unit.SEEDS


@pytest.mark.parametrize(
    ("counts", "part"),
    [
        ({"seeds": 0, "germinated": 0}, "1 to 10000 seeds"),
        ({"seeds": 10, "germinated": 11}, "more than the 10 seeds"),
        ({"seeds": 10, "germinated": 8, "hard": 3}, "8 germinated and 3 hard"),
        ({"seeds": 10, "germinated": -1}, "cannot be -1"),
        ({"seeds": 10, "germinated": 1, "hard": -1}, "hard cannot be -1"),
        ({"seeds": 10**9, "germinated": 1}, "1 to 10000"),
        ({"seeds": 10, "germinated": 1, "on": date(2026, 3, 15)}, "in the future"),
        ({"seeds": 10, "germinated": 1, "on": date(1815, 6, 18)}, "before 1900"),
        ({"seeds": 10, "germinated": 1, "note": "n" * 10_001}, "note has more than"),
    ],
)
def test_counts_that_cannot_be(
    tin: Tin, packet: Packet, today: date, counts: dict[str, Any], part: str
) -> None:
    with pytest.raises(BadDataError, match=part):
        record_test(tin, packet, **{"on": today, **counts}, today=today)
    assert tin.tests() == []


def test_a_test_can_be_struck_out(tin: Tin, packet: Packet, today: date) -> None:
    test = record_test(tin, packet, today, 20, 16, today=today)
    remove_test(tin, codes.shown(test.code))
    assert tin.tests() == []
    assert left(tin, packet) == 30
    with pytest.raises(NotFoundError, match="no germination test"):
        remove_test(tin, test.code)


def test_planting_stock_has_no_test(tin: Tin, today: date) -> None:
    sets = add_packet(tin, PacketDraft("shallot", kind=Kind.STOCK, amount=40), today=today)
    with pytest.raises(BadDataError, match="planting stock, not seed"):
        record_test(tin, sets, today, 20, 16, today=today)
    assert tin.tests() == []


def test_what_else_was_found_can_be_told(tin: Tin, packet: Packet, today: date) -> None:
    test = record_test(tin, packet, today, 20, 14, 1, today=today, abnormal=2, fresh=0, dead=3)
    assert (test.abnormal, test.fresh, test.dead, test.unclassed) == (2, 0, 3, 0)
    assert not test.stopped_early
    with pytest.raises(BadDataError, match="14 germinated, 1 hard and 6 dead are more than"):
        record_test(tin, packet, today, 20, 14, 1, today=today, dead=6)
