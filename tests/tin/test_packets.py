"""Adding, editing, removing and finding packets."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

import pytest

from seedbox.errors import BadDataError, NotFoundError
from seedbox.tin import codes
from seedbox.tin.file import Tin
from seedbox.tin.packets import (
    PacketDraft,
    add_packet,
    add_packets,
    edit_packet,
    move,
    remove_packet,
    take,
)
from seedbox.tin.records import (
    Dossier,
    Kind,
    Movement,
    MovementKind,
    Origin,
    Packet,
    StoragePeriod,
    Store,
    Treatment,
    Unit,
)
from seedbox.tin.tests import record_test


def full_draft(**other: Any) -> PacketDraft:
    fields: dict[str, Any] = {
        "crop_id": "beetroot",
        "variety": "Elder Lantern",
        "kind": Kind.SEED,
        "origin": Origin.SWAPPED,
        "source": "Mirela at the spring swap",
        "harvest_year": 2023,
        "packed_year": 2024,
        "bought_year": 2025,
        "sow_by": date(2027, 12, 31),
        "printed_germination": 0.85,
        "printed_on": date(2024, 2, 1),
        "treatment": Treatment.PELLETED,
        "ean": "4006381333931",
        "note": "two lines\nof note",
        "tags": ("red", "early"),
        "unit": Unit.GRAMS,
        "received_on": date(2025, 2, 2),
    }
    return PacketDraft(**{**fields, **other})


def test_a_packet_comes_back_as_it_was_entered(tin: Tin, today: date) -> None:
    draft = full_draft(amount=12.5)
    packet = add_packet(tin, draft, today=today)
    assert tin.packet(packet.code) == packet
    for field in Packet.__dataclass_fields__.keys() - {"id", "code"}:
        assert getattr(packet, field) == getattr(draft, field), field
    assert tin.movements(packet.id) == [
        Movement(packet.id, date(2025, 2, 2), MovementKind.RECEIVED, 12.5, id=1)
    ]


def test_a_packet_is_found_under_any_spelling(tin: Tin, packet: Packet) -> None:
    code = packet.code
    assert tin.packet(f" {code[:4].lower()}-{code[4:]} ") == packet


def test_codes_that_are_not_in_the_tin(tin: Tin, packet: Packet) -> None:
    with pytest.raises(NotFoundError, match="There is no packet"):
        tin.packet(next_code("P"))
    with pytest.raises(NotFoundError, match="code of a germination test"):
        tin.packet(next_code("T"))
    with pytest.raises(BadDataError, match="is not a code"):
        tin.packet("beet")


def test_a_dossier_holds_all_that_is_known(
    tin: Tin, packet: Packet, shed: Store, jar: Store, today: date
) -> None:
    move(tin, [packet], shed, today=today, on=date(2026, 2, 1))
    move(tin, [packet], jar, today=today)
    test = record_test(tin, packet, today, 10, 9, today=today)
    expected = Dossier(
        packet,
        40,
        (
            StoragePeriod(packet.id, date(2026, 2, 1), shed.id, id=1),
            StoragePeriod(packet.id, today, jar.id, sealed=True, moisture=6.0, id=2),
        ),
        (test,),
        jar,
    )
    assert tin.dossier(packet.code) == expected
    assert tin.dossiers() == [expected]


def test_dossiers_one_by_one_and_together_agree(tin: Tin, shed: Store, today: date) -> None:
    drafts = [full_draft(amount=n or None, store_id=shed.id if n % 2 else None) for n in range(20)]
    add_packets(tin, drafts, today=today)
    together = tin.dossiers()
    assert together == [tin.dossier(packet.code) for packet in tin.packets()]
    assert [one.store for one in together[:2]] == [None, shed]


def test_empty_packets_can_be_left_out(tin: Tin, packet: Packet, today: date) -> None:
    unknown = add_packet(tin, PacketDraft("leek"), today=today)
    take(tin, packet, 50, today=today)
    assert [one.packet for one in tin.dossiers(include_empty=False)] == [unknown]
    assert len(tin.dossiers()) == 2


def test_without_a_store_nothing_is_said_of_storage(tin: Tin, packet: Packet) -> None:
    assert tin.storage(packet.id) == []
    assert tin.dossier(packet.code).store is None


@pytest.mark.parametrize(
    ("stored_from", "received_on", "since"),
    [
        (date(2025, 5, 1), date(2025, 6, 1), date(2025, 5, 1)),
        (None, date(2025, 6, 1), date(2025, 6, 1)),
        (None, None, date(2026, 3, 14)),
    ],
)
def test_first_storage_period(
    tin: Tin, jar: Store, today: date, stored_from: date, received_on: date, since: date
) -> None:
    draft = PacketDraft("leek", store_id=jar.id, stored_from=stored_from, received_on=received_on)
    packet = add_packet(tin, draft, today=today)
    assert tin.storage(packet.id) == [
        StoragePeriod(packet.id, since, jar.id, sealed=True, moisture=6.0, id=1)
    ]


def test_an_open_packet_in_a_sealed_store(tin: Tin, jar: Store, today: date) -> None:
    packet = add_packet(tin, PacketDraft("leek", store_id=jar.id, sealed=False), today=today)
    (period,) = tin.storage(packet.id)
    assert (period.sealed, period.moisture) == (False, None)


def test_everything_wrong_is_said_at_once_and_nothing_is_kept(tin: Tin, today: date) -> None:
    draft = PacketDraft(
        "", harvest_year=1066, amount=-3, ean="4006381333932", parent_id=7, store_id=8
    )
    with pytest.raises(BadDataError) as caught:
        add_packet(tin, draft, today=today)
    for part in ("needs a crop", "1066", "-3", "check digit", "parent is not", "store is not"):
        assert part in caught.value.sentence
    assert (tin.packets(), tin.history()) == ([], [])


def test_a_draft_may_bring_its_code(tin: Tin, today: date) -> None:
    code = next_code("P")
    packet = add_packet(tin, PacketDraft("leek", code=codes.shown(code).lower()), today=today)
    assert packet.code == code
    for verb in (
        lambda: add_packet(tin, PacketDraft("leek", code=code), today=today),
        lambda: add_packets(tin, [PacketDraft("leek", code=code)], today=today),
    ):
        with pytest.raises(BadDataError, match="taken by another packet"):
            verb()
    with pytest.raises(BadDataError, match="code of a germination test, not a packet"):
        add_packet(tin, PacketDraft("leek", code=next_code("T")), today=today)


def test_many_packets_keep_their_order_and_codes(tin: Tin, today: date) -> None:
    own = next_code("P")
    drafts = [PacketDraft("leek", str(n), code=own if n == 3 else None) for n in range(500)]
    added = add_packets(tin, drafts, today=today)
    packets = tin.packets()
    assert [packet.variety for packet in packets] == [str(n) for n in range(500)]
    assert [packet.code for packet in packets] == list(added.codes)
    assert [packet.id for packet in packets] == list(added.ids)
    assert added.codes[3] == own
    assert len(set(added.codes)) == 500


def test_the_same_code_twice_in_one_lot_is_refused(tin: Tin, today: date) -> None:
    twice = [PacketDraft("leek", code=next_code("P"))] * 2
    with pytest.raises(BadDataError, match="taken by another packet"):
        add_packets(tin, twice, today=today)
    assert tin.packets() == []


def test_no_packets_are_no_change(tin: Tin, today: date) -> None:
    assert add_packets(tin, [], today=today).codes == ()
    assert tin.history() == []


def test_control_characters_are_cleaned_away(tin: Tin, today: date) -> None:
    draft = PacketDraft(
        "leek", "Fer\x00ry\tBlue\x1b[31m\u202e", note="a\r\nb\x07", tags=("a, b", "")
    )
    packet = add_packet(tin, draft, today=today)
    assert packet.variety == "Ferry Blue[31m"
    assert packet.note == "a\nb"
    assert packet.tags == ("a", "b")


def test_edit(tin: Tin, packet: Packet, today: date) -> None:
    edited = edit_packet(
        tin,
        packet.code,
        today=today,
        variety=" Small  Lantern ",
        origin=Origin.SAVED,
        sow_by=date(2028, 1, 1),
        tags=("keep",),
    )
    assert tin.packet(packet.code) == edited
    assert (edited.variety, edited.origin, edited.tags) == (
        "Small Lantern",
        Origin.SAVED,
        ("keep",),
    )
    assert edited.received_on == packet.received_on
    assert edited.unit is Unit.SEEDS


@pytest.mark.parametrize(
    ("field", "value"),
    [("harvest_year", 2030), ("variety", "v" * 201), ("code", "P0000000"), ("colour", "red")],
)
def test_a_bad_edit_changes_nothing(
    tin: Tin, packet: Packet, today: date, field: str, value: object
) -> None:
    with pytest.raises(BadDataError):
        edit_packet(tin, packet.code, today=today, **{field: value})
    assert tin.packets() == [packet]
    assert len(tin.history()) == 1


def test_a_packet_cannot_descend_from_itself(tin: Tin, packet: Packet, today: date) -> None:
    child = add_packet(tin, PacketDraft("beetroot", parent_id=packet.id), today=today)
    grandchild = add_packet(tin, PacketDraft("beetroot", parent_id=child.id), today=today)
    for ancestor in (packet, child, grandchild):
        with pytest.raises(BadDataError, match="descend from itself"):
            edit_packet(tin, packet.code, today=today, parent_id=ancestor.id)
    edit_packet(tin, grandchild.code, today=today, parent_id=packet.id)


def test_removing_takes_all_that_belongs_to_a_packet(
    tin: Tin, packet: Packet, shed: Store, today: date, dump: Callable[[Tin], dict[str, list[Any]]]
) -> None:
    other = add_packet(tin, PacketDraft("leek", amount=3, store_id=shed.id), today=today)
    before = dump(tin)
    move(tin, [packet], shed, today=today)
    record_test(tin, packet, today, 10, 9, today=today)
    remove_packet(tin, packet.code)
    assert tin.packets() == [other]
    left = dump(tin)
    for table, column in (("movement", 1), ("storage_period", 1), ("germination_test", 2)):
        assert left[table] == [row for row in before[table] if row[column] == other.id]


def test_a_parent_stays(tin: Tin, packet: Packet, today: date) -> None:
    child = add_packet(tin, PacketDraft("beetroot", parent_id=packet.id), today=today)
    with pytest.raises(BadDataError, match=codes.shown(child.code)):
        remove_packet(tin, packet.code)
    remove_packet(tin, child.code)
    remove_packet(tin, packet.code)
    assert tin.packets() == []


def next_code(letter: str) -> str:
    from random import Random

    return codes.new_code(letter, (), Random(99))
