"""Emergence counted in trays."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from seedbox.errors import BadDataError, NotFoundError
from seedbox.tin.file import Tin
from seedbox.tin.history import undo
from seedbox.tin.packets import PacketDraft, add_packet, remove_packet
from seedbox.tin.records import Kind, Packet
from seedbox.tin.trays import record_tray, remove_tray

DAY = date(2026, 3, 1)


def test_a_tray_is_kept_with_its_packet(tin: Tin, packet: Packet, today: date) -> None:
    tray = record_tray(
        tin, packet, DAY, place=" south  window", sown=24, emerged=19, note="old mix", today=today
    )
    assert (tray.place, tray.sown, tray.emerged, tray.note) == ("south window", 24, 19, "old mix")
    assert tin.tray_counts() == tin.tray_counts(packet.id) == [tray]
    assert tin.dossier(packet.code).trays == tin.dossiers()[0].trays == (tray,)
    assert undo(tin) == f"Tray of {packet.code[:4]} {packet.code[4:]}: 19 of 24 came up"
    assert tin.dossiers()[0].trays == ()


@pytest.mark.parametrize(
    ("wrong", "part"),
    [
        ({"sown": 0, "emerged": 0}, "sown with 1 to 10000 seeds"),
        ({"emerged": 25}, "25 emerged are more than the 24"),
        ({"emerged": -1}, "cannot be -1"),
        ({"on": date(2026, 3, 15)}, "in the future"),
        ({"place": "p" * 201}, "name of the place is too long"),
        ({"note": "n" * 10_001}, "note has more than"),
    ],
)
def test_trays_that_cannot_be(
    tin: Tin, packet: Packet, today: date, wrong: dict[str, Any], part: str
) -> None:
    asked = {"on": DAY, "place": "window", "sown": 24, "emerged": 19, **wrong}
    with pytest.raises(BadDataError, match=part):
        record_tray(tin, packet, asked.pop("on"), **asked, today=today)
    assert tin.tray_counts() == []


def test_planting_stock_does_not_germinate(tin: Tin, today: date) -> None:
    sets = add_packet(tin, PacketDraft("shallot", kind=Kind.STOCK, amount=40), today=today)
    with pytest.raises(BadDataError, match="planting stock"):
        record_tray(tin, sets, DAY, place="", sown=5, emerged=5, today=today)


def test_a_tray_can_be_struck_out(tin: Tin, packet: Packet, today: date) -> None:
    tray = record_tray(tin, packet, DAY, place="", sown=24, emerged=19, today=today)
    remove_tray(tin, tray.id)
    assert tin.tray_counts() == []
    with pytest.raises(NotFoundError, match="no tray count"):
        remove_tray(tin, tray.id)


def test_a_removed_packet_takes_its_trays(tin: Tin, packet: Packet, today: date) -> None:
    tray = record_tray(tin, packet, DAY, place="", sown=24, emerged=19, today=today)
    remove_packet(tin, packet.code)
    assert tin.tray_counts() == []
    undo(tin)
    assert tin.tray_counts() == [tray]
