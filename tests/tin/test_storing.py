"""Moving packets, and the stores they move between."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest

from seedbox.errors import BadDataError, NotFoundError
from seedbox.tin.file import Tin
from seedbox.tin.packets import PacketDraft, add_packet, move
from seedbox.tin.records import Packet, Store
from seedbox.tin.stores import add_store, edit_store, remove_store


def lain(tin: Tin, packet: Packet) -> list[tuple[date, int, bool, float | None]]:
    return [
        (period.from_date, period.store_id, period.sealed, period.moisture)
        for period in tin.storage(packet.id)
    ]


def test_a_move_does_not_rewrite_the_past(
    tin: Tin, packet: Packet, shed: Store, jar: Store, today: date
) -> None:
    earlier = today - timedelta(days=20)
    move(tin, [packet], shed, today=earlier)
    assert move(tin, [packet], jar, today=today) == 1
    assert lain(tin, packet) == [(earlier, shed.id, False, None), (today, jar.id, True, 6.0)]


def test_a_second_move_on_one_day_replaces_the_first(
    tin: Tin, packet: Packet, shed: Store, jar: Store, today: date
) -> None:
    move(tin, [packet], shed, today=today)
    move(tin, [packet], jar, today=today, moisture=5)
    assert lain(tin, packet) == [(today, jar.id, True, 5.0)]


def test_a_forgotten_move_is_put_in_where_it_belongs(
    tin: Tin, packet: Packet, shed: Store, jar: Store, today: date
) -> None:
    first, between = today - timedelta(days=40), today - timedelta(days=20)
    drawer = add_store(tin, "Kitchen drawer", 21)
    for store, on in ((shed, first), (jar, today), (drawer, between)):
        move(tin, [packet], store, today=today, on=on)
    assert [period[:2] for period in lain(tin, packet)] == [
        (first, shed.id),
        (between, drawer.id),
        (today, jar.id),
    ]


def test_no_move_before_the_first_store(
    tin: Tin, packet: Packet, shed: Store, jar: Store, today: date
) -> None:
    move(tin, [packet], shed, today=today)
    with pytest.raises(BadDataError, match="came into its first store on 2026-03-14"):
        move(tin, [packet], jar, today=today, on=date(2026, 3, 13))


def test_a_move_to_where_it_lies_changes_nothing(
    tin: Tin, packet: Packet, shed: Store, today: date
) -> None:
    move(tin, [packet], shed, today=date(2026, 2, 1))
    entries = len(tin.history())
    assert move(tin, [packet], shed, today=today) == 0
    assert len(tin.history()) == entries
    assert move(tin, [packet], shed, today=today, sealed=True) == 1


def test_many_packets_move_as_one_change(tin: Tin, jar: Store, today: date) -> None:
    packets = [add_packet(tin, PacketDraft("leek"), today=today) for _ in range(3)]
    assert move(tin, packets, jar, today=today) == 3
    assert tin.history()[0].label == "Move 3 packets to Jar in the fridge"


@pytest.mark.parametrize(
    ("options", "part"),
    [
        ({"on": date(2026, 3, 15)}, "in the future"),
        ({"sealed": True, "moisture": 0.2}, "not between 1 and 30 %"),
        ({"sealed": True, "moisture": float("nan")}, "not between"),
        ({"sealed": False, "moisture": 6}, "Only sealed seed keeps its moisture"),
    ],
)
def test_bad_moves(
    tin: Tin, packet: Packet, shed: Store, today: date, options: dict[str, Any], part: str
) -> None:
    with pytest.raises(BadDataError, match=part):
        move(tin, [packet], shed, today=today, **options)
    assert lain(tin, packet) == []


def test_a_store_has_one_temperature_or_two(tin: Tin) -> None:
    constant = add_store(tin, "Fridge", 5)
    assert (constant.coolest_c, constant.warmest_c) == (5, 5)
    seasonal = add_store(tin, "Loft", -2, 34, relative_humidity=0.55, note="under tiles")
    assert tin.stores() == [constant, seasonal]
    assert tin.store_by_id(seasonal.id) == tin.store(" loft ") == seasonal


@pytest.mark.parametrize(
    ("options", "part"),
    [
        ({"name": " \t"}, "needs a name"),
        ({"name": "n" * 81}, "more than 80"),
        ({"coolest_c": -80}, "-80 °C is not between"),
        ({"warmest_c": float("inf")}, "inf °C"),
        ({"coolest_c": 20, "warmest_c": 5}, "colder than the coolest"),
        ({"relative_humidity": 55}, "between 0 and 100 %"),
        ({"sealed_moisture": 60}, "not between 1 and 30 %"),
        ({"name": "COLD SHED"}, "a store “Cold shed” already"),
    ],
)
def test_bad_stores(tin: Tin, shed: Store, options: dict[str, Any], part: str) -> None:
    with pytest.raises(BadDataError, match=part):
        add_store(tin, **{"name": "Loft", "coolest_c": 4, "warmest_c": 20, **options})
    assert tin.stores() == [shed]


def test_names_in_any_script_are_told_apart(tin: Tin) -> None:
    add_store(tin, "Шкаф", 20)
    with pytest.raises(BadDataError, match="already"):
        add_store(tin, "шкаф", 20)


def test_unknown_stores_suggest_near_ones(tin: Tin, shed: Store, jar: Store) -> None:
    with pytest.raises(NotFoundError) as caught:
        tin.store("Cold shet")
    assert caught.value.hint == "Did you mean Cold shed?"
    with pytest.raises(NotFoundError) as caught:
        tin.store("attic")
    assert caught.value.hint == "There are: Cold shed, Jar in the fridge."


def test_edit_store(tin: Tin, shed: Store) -> None:
    edited = edit_store(tin, "cold shed", name="Cold Shed", warmest_c=17)
    assert tin.stores() == [edited]
    assert (edited.id, edited.name, edited.warmest_c) == (shed.id, "Cold Shed", 17)
    with pytest.raises(BadDataError, match="id cannot be edited"):
        edit_store(tin, "cold shed", id=7)


def test_a_store_with_packets_stays(tin: Tin, packet: Packet, shed: Store, today: date) -> None:
    move(tin, [packet], shed, today=today)
    with pytest.raises(BadDataError, match="1 packet lies or lay in Cold shed"):
        remove_store(tin, "Cold shed")
    add_store(tin, "Loft", 20)
    remove_store(tin, "Loft")
    assert tin.stores() == [shed]
