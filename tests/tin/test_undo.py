"""Changes, undo and redo: exact, in order, and never over somebody else's edit."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

import pytest

from seedbox.errors import BadDataError, NotFoundError, TinError
from seedbox.tin.file import Tin
from seedbox.tin.history import NothingToUndoError, redo, undo
from seedbox.tin.packets import (
    PacketDraft,
    add_packet,
    add_packets,
    edit_packet,
    move,
    remove_packet,
    take,
)
from seedbox.tin.records import Packet, Store, Unit
from seedbox.tin.tests import record_test

Dump = Callable[[Tin], dict[str, list[tuple[object, ...]]]]


def test_a_change_is_one_entry(tin: Tin, packet: Packet) -> None:
    (entry,) = tin.history()
    assert entry.label == f"Add beetroot Elder Lantern ({packet.code[:4]} {packet.code[4:]})"
    assert entry.state == "done"
    assert entry.made_at == tin.now()


def test_undo_and_redo_bring_back_the_same_ids(tin: Tin, packet: Packet, dump: Dump) -> None:
    after = dump(tin)
    label = undo(tin)
    assert tin.packets() == []
    assert tin.history()[0].state == "undone"
    assert redo(tin) == label
    assert dump(tin) == after
    assert tin.history()[0].state == "done"


def test_nothing_to_undo(tin: Tin) -> None:
    with pytest.raises(NothingToUndoError, match="nothing to undo"):
        undo(tin)
    with pytest.raises(NothingToUndoError, match="nothing to do again"):
        redo(tin)


def test_a_new_change_drops_what_was_undone(tin: Tin, packet: Packet, today: date) -> None:
    undo(tin)
    add_packet(tin, PacketDraft("leek"), today=today)
    with pytest.raises(NothingToUndoError):
        redo(tin)
    assert [change.state for change in tin.history()] == ["done", "dropped"]
    undo(tin)
    with pytest.raises(NothingToUndoError):
        undo(tin)


def test_every_verb_goes_back_and_forth(
    tin: Tin, packet: Packet, shed: Store, jar: Store, dump: Dump, today: date
) -> None:
    child = add_packet(tin, PacketDraft("beetroot", parent_id=packet.id), today=today)
    states = [dump(tin)]
    for verb in (
        lambda: take(tin, packet, 20, today=today),
        lambda: move(tin, [packet, child], shed, today=today),
        lambda: move(tin, [packet, child], jar, today=today),
        lambda: record_test(tin, packet, today, 10, 8, today=today),
        lambda: edit_packet(tin, child.code, today=today, variety="Small", tags=("red", "old")),
        lambda: remove_packet(tin, child.code),
        lambda: remove_packet(tin, packet.code),
    ):
        verb()
        states.append(dump(tin))
    for state in states[-2::-1]:
        undo(tin)
        assert dump(tin) == state
    for state in states[1:]:
        redo(tin)
        assert dump(tin) == state


def test_many_packets_are_one_step_and_one_undo(tin: Tin, shed: Store, today: date) -> None:
    drafts = [PacketDraft("leek", f"Sort {n}", amount=n, store_id=shed.id) for n in range(3_000)]
    with tin.change("Import garden.csv"):
        add_packets(tin, drafts, today=today)
    assert tin.database.value("SELECT count(*) FROM change_step WHERE change_id = 2") == 3
    before = tin.dossiers()
    assert undo(tin) == "Import garden.csv"
    assert tin.dossiers() == []
    redo(tin)
    assert tin.dossiers() == before


def test_a_change_that_fails_leaves_no_trace(tin: Tin, packet: Packet, dump: Dump) -> None:
    before, history = dump(tin), tin.history()
    with pytest.raises(KeyError), tin.change("Half") as change:
        change.insert("setting", {"name": "region", "value": "us"})
        change.delete("movement", tin.movements(packet.id)[0].id)
        raise KeyError
    assert (dump(tin), tin.history()) == (before, history)


def test_a_change_that_does_nothing_leaves_no_entry(tin: Tin, packet: Packet) -> None:
    with tin.change("Nothing") as change:
        change.update("packet", packet.id, {"variety": packet.variety})
        change.update("packet", packet.id, {})
    assert len(tin.history()) == 1


def test_changes_inside_a_change_join_it(tin: Tin, shed: Store, today: date) -> None:
    with tin.change("Both"):
        packet = add_packet(tin, PacketDraft("leek", amount=9), today=today)
        take(tin, packet, 4, today=today)
    assert [change.label for change in tin.history()] == ["Both", "Add store Cold shed"]
    undo(tin)
    assert (tin.packets(), tin.stores()) == ([], [shed])


def test_a_failed_part_spoils_the_whole(tin: Tin, packet: Packet, today: date, dump: Dump) -> None:
    before = dump(tin)
    with pytest.raises(TinError, match="part of this change failed"), tin.change("Both"):
        add_packet(tin, PacketDraft("leek"), today=today)
        with pytest.raises(BadDataError):
            take(tin, packet, 51, today=today)
    assert dump(tin) == before


def test_a_half_written_lot_spoils_the_whole(tin: Tin, packet: Packet, dump: Dump) -> None:
    """Rows written before the one that was refused are in no step, so they must not stay."""
    before = dump(tin)
    rows = [("P0000001", "leek"), ("P0000002", "leek"), (packet.code, "leek")]
    with pytest.raises(TinError, match="part of this change failed"), tin.change("Lot") as change:
        with pytest.raises(BadDataError, match="does not accept"):
            change.insert_many("packet", ("code", "crop_id"), rows)
        change.insert("setting", {"name": "region", "value": "us"})
    assert dump(tin) == before


def test_one_row_may_change_more_than_once(tin: Tin, packet: Packet, dump: Dump) -> None:
    before = dump(tin)
    with tin.change("Twice") as change:
        change.update("packet", packet.id, {"variety": "one"})
        change.update("packet", packet.id, {"variety": "two"})
        setting = change.insert("setting", {"name": "region", "value": "us"})
        change.delete("setting", setting)
        change.insert("setting", {"name": "region", "value": "eu"})
        change.update("packet", packet.id, {"variety": "three", "note": "n"})
    after = dump(tin)
    undo(tin)
    assert dump(tin) == before
    redo(tin)
    assert dump(tin) == after


def test_children_removed_before_parents_come_back_after_them(tin: Tin, dump: Dump) -> None:
    with tin.change("Add") as change:
        parent = change.insert("packet", {"code": "P0000001", "crop_id": "leek"})
        child = {"code": "P0000002", "crop_id": "leek", "parent_id": parent}
        child_id = change.insert("packet", child)
    before = dump(tin)
    with tin.change("Remove") as change:
        change.delete("packet", child_id)
        change.delete("packet", parent)
    undo(tin)
    assert dump(tin) == before


def test_a_change_of_rows_that_are_not_there(tin: Tin) -> None:
    with pytest.raises(NotFoundError), tin.change("Odd") as change:
        change.update("packet", 99, {"variety": "x"})
    with pytest.raises(NotFoundError), tin.change("Odd") as change:
        change.delete("packet", 99)


def test_only_tables_of_the_tin_can_be_changed(tin: Tin) -> None:
    with pytest.raises(ValueError, match="not a table"), tin.change("Odd") as change:
        change.insert("change", {"label": "x"})


def test_what_the_tables_refuse_is_a_sentence(tin: Tin) -> None:
    with pytest.raises(BadDataError, match="does not accept"), tin.change("Odd") as change:
        change.insert("packet", {"code": "SHORT", "crop_id": "leek"})


@pytest.mark.parametrize(
    "edit",
    [
        "UPDATE packet SET variety = 'theirs'",
        "UPDATE packet SET variety = NULL || 'x', note = '' WHERE 0; DELETE FROM packet",
    ],
)
def test_undo_of_an_edit_refuses_when_another_program_was_there(
    tin: Tin, today: date, edit: str, dump: Dump
) -> None:
    packet = add_packet(tin, PacketDraft("leek", "Ferry Blue"), today=today)
    edit_packet(tin, packet.code, today=today, variety="Ferry Green")
    tin.database.connection.executescript("PRAGMA foreign_keys = OFF; " + edit)
    before = dump(tin)
    with pytest.raises(TinError, match="changed by another program"):
        undo(tin)
    assert dump(tin) == before
    assert tin.history()[0].state == "done"


def test_undo_refuses_when_an_added_row_is_gone(tin: Tin, packet: Packet) -> None:
    tin.database.run("DELETE FROM movement")
    with pytest.raises(TinError, match="changed by another program"):
        undo(tin)
    assert tin.packets() == [packet]


def test_undo_refuses_when_others_lean_on_the_rows(tin: Tin, packet: Packet) -> None:
    tin.database.run(
        "INSERT INTO movement (packet_id, on_date, kind, amount)"
        " VALUES (?, '2026-02-01', 'sown', 1)",
        (packet.id,),
    )
    with pytest.raises(TinError, match="changed by another program"):
        undo(tin)
    assert tin.packets() == [packet]


def test_undo_of_a_removal_refuses_when_the_place_is_taken(tin: Tin, packet: Packet) -> None:
    remove_packet(tin, packet.code)
    tin.database.run(
        "INSERT INTO packet (id, code, crop_id) VALUES (?, 'P0000000', 'x')", (packet.id,)
    )
    with pytest.raises(TinError, match="changed by another program"):
        undo(tin)


def test_redo_of_a_removal_refuses_when_the_row_changed(tin: Tin, packet: Packet) -> None:
    remove_packet(tin, packet.code)
    undo(tin)
    tin.database.run("UPDATE movement SET amount = 7")
    with pytest.raises(TinError, match="changed by another program"):
        redo(tin)
    assert tin.packets() == [packet]


def test_numbers_and_text_survive_exactly(tin: Tin, shed: Store, dump: Dump, today: date) -> None:
    note = "quotes \" ' \\ and lines\nand Ä Ω 種 🌱 e\u0301"
    draft = PacketDraft(
        "leek", amount=0.1 + 0.2, unit=Unit.GRAMS, note=note, printed_germination=1 / 3
    )
    add_packet(tin, draft, today=today)
    after = dump(tin)
    undo(tin)
    redo(tin)
    assert dump(tin) == after


def test_history_has_a_limit(tin: Tin, packet: Packet, shed: Store) -> None:
    assert [change.label for change in tin.history(1)] == ["Add store Cold shed"]
    assert len(tin.history()) == 2
