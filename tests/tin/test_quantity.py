"""The quantity journal: what is left is always explained, and unknown stays unknown."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox.errors import BadDataError
from seedbox.tin.file import Tin
from seedbox.tin.journal import Shortfall, left_after, shortfall
from seedbox.tin.packets import PacketDraft, add_packet
from seedbox.tin.quantity import left, receive, recount, take
from seedbox.tin.records import Kind, Movement, MovementKind, Packet, Unit

DAY = date(2026, 2, 1)


def entry(kind: MovementKind, amount: float | None, on: date = DAY) -> Movement:
    return Movement(1, on, kind, amount)


def test_taking_and_receiving(tin: Tin, packet: Packet, today: date) -> None:
    take(tin, packet, 20, today=today)
    take(tin, packet, 5, MovementKind.GIVEN, today=today, note="to Oksana\x00")
    receive(tin, packet, 10, today=today)
    assert left(tin, packet) == 35
    kinds = [movement.kind.value for movement in tin.movements(packet.id)]
    assert kinds == ["received", "sown", "given", "received"]
    assert tin.movements(packet.id)[2].note == "to Oksana"


def test_more_than_is_there_is_refused(tin: Tin, packet: Packet, today: date) -> None:
    take(tin, packet, 45, today=today)
    with pytest.raises(BadDataError, match="has only 5 seeds left"):
        take(tin, packet, 6, today=today)
    take(tin, packet, 5, today=today)
    assert left(tin, packet) == 0


def test_a_recount_states_what_is_there(tin: Tin, packet: Packet, today: date) -> None:
    take(tin, packet, 20, today=today)
    recount(tin, packet, 44, today=today)
    assert left(tin, packet) == 44
    take(tin, packet, 4, today=today)
    assert left(tin, packet) == 40


def test_unknown_stays_unknown_until_counted(tin: Tin, today: date) -> None:
    packet = add_packet(tin, PacketDraft("leek"), today=today)
    assert packet.unit is None
    take(tin, packet, 20, today=today)
    assert left(tin, packet) is None
    packet = tin.packet(packet.code)
    receive(tin, packet, 100, today=today)
    assert left(tin, packet) is None
    recount(tin, packet, 80, today=today)
    assert left(tin, packet) == 80
    assert len(tin.movements(packet.id)) == 4


def test_some_makes_it_unknown(tin: Tin, packet: Packet, today: date) -> None:
    take(tin, packet, None, today=today)
    assert left(tin, packet) is None
    assert tin.history()[0].label.startswith("Sow some from")


@pytest.mark.parametrize("unit", [*Unit, None])
def test_the_first_known_amount_sets_the_unit(tin: Tin, today: date, unit: Unit | None) -> None:
    packet = add_packet(tin, PacketDraft("leek"), today=today)
    recount(tin, packet, 3, today=today, unit=unit)
    assert tin.packet(packet.code).unit is (unit or Unit.SEEDS)


def test_the_unit_stays_the_one_entered(tin: Tin, packet: Packet, today: date) -> None:
    with pytest.raises(BadDataError, match="is kept in seeds"):
        take(tin, packet, 1.5, today=today, unit=Unit.GRAMS)


def test_grams_do_not_gather_noise(tin: Tin, today: date) -> None:
    packet = add_packet(tin, PacketDraft("leek", amount=0.3, unit=Unit.GRAMS), today=today)
    for _ in range(3):
        take(tin, packet, 0.1, today=today)
    assert left(tin, packet) == 0
    with pytest.raises(BadDataError, match="has only 0 g left"):
        take(tin, packet, 0.1, today=today)


def test_planting_stock_is_counted_in_pieces(tin: Tin, today: date) -> None:
    draft = PacketDraft("garlic", kind=Kind.STOCK, amount=1)
    packet = add_packet(tin, draft, today=today)
    with pytest.raises(BadDataError, match="has only 1 piece left"):
        take(tin, packet, 2, today=today)


@pytest.mark.parametrize(
    ("amount", "part"),
    [
        (-1, "cannot be -1"),
        (1.5, "whole numbers"),
        (float("nan"), "cannot be nan"),
        (float("inf"), "cannot be inf"),
        (1e12, "cannot be 1e"),
    ],
)
def test_bad_amounts(tin: Tin, packet: Packet, today: date, amount: float, part: str) -> None:
    for verb in (take, receive, recount):
        with pytest.raises(BadDataError, match=part):
            verb(tin, packet, amount, today=today)
    assert len(tin.history()) == 1


def test_dates(tin: Tin, packet: Packet, today: date) -> None:
    with pytest.raises(BadDataError, match="in the future"):
        take(tin, packet, 1, today=today, on=date(2026, 3, 15))
    with pytest.raises(BadDataError, match="came into the tin on 2026-01-10"):
        take(tin, packet, 1, today=today, on=date(2026, 1, 9))


def test_a_past_day_may_not_overdraw_a_later_one(tin: Tin, packet: Packet, today: date) -> None:
    take(tin, packet, 40, today=today, on=date(2026, 3, 1))
    with pytest.raises(
        BadDataError, match=r"10 seeds would have been missing from .* on 2026-03-01"
    ):
        take(tin, packet, 20, today=today, on=date(2026, 2, 1))
    take(tin, packet, 10, today=today, on=date(2026, 2, 1))
    assert left(tin, packet) == 0


def test_a_later_recount_forgives_the_past(tin: Tin, packet: Packet, today: date) -> None:
    recount(tin, packet, 30, today=today, on=date(2026, 3, 1))
    take(tin, packet, 15, today=today, on=date(2026, 2, 1))
    assert left(tin, packet) == 30


def test_a_journal_that_never_added_up_can_be_put_right(
    tin: Tin, packet: Packet, today: date
) -> None:
    tin.database.run(
        "INSERT INTO movement (packet_id, on_date, kind, amount) VALUES (?, ?, 'sown', 80)",
        (packet.id, "2026-02-01"),
    )
    assert left(tin, packet) == -30
    recount(tin, packet, 12, today=today)
    assert left(tin, packet) == 12


def test_the_same_day_goes_by_order_of_entry(tin: Tin, packet: Packet, today: date) -> None:
    take(tin, packet, 10, today=today)
    recount(tin, packet, 33, today=today)
    take(tin, packet, 3, today=today)
    assert left(tin, packet) == 30
    assert tin.dossier(packet.code).left == 30


def test_only_ways_of_taking(tin: Tin, packet: Packet, today: date) -> None:
    with pytest.raises(BadDataError, match="not taken by"):
        take(tin, packet, 1, MovementKind.RECOUNT, today=today)


amounts = st.integers(0, 50).map(float)
takings = st.sampled_from([MovementKind.SOWN, MovementKind.GIVEN, MovementKind.LOST])


@given(st.lists(st.tuples(st.sampled_from(MovementKind), st.none() | amounts), max_size=12))
def test_left_is_what_came_less_what_went_since_the_last_count(
    events: list[tuple[MovementKind, float | None]],
) -> None:
    events = [(kind, amount) for kind, amount in events if kind != "recount" or amount is not None]
    journal = [entry(kind, amount) for kind, amount in events]
    counts = [n for n, (kind, _) in enumerate(events) if kind == "recount"]
    since = events[counts[-1] :] if counts else events
    opening = since[:1]
    starts_known = bool(opening) and opening[0][0] in ("recount", "received")
    if not starts_known or any(amount is None for _, amount in since):
        assert left_after(journal) is None
        return
    went = sum(amount or 0 for kind, amount in since if kind not in ("recount", "received"))
    came = sum(amount or 0 for kind, amount in since if kind in ("recount", "received"))
    assert left_after(journal) == came - went


def test_shortfall_names_the_first_bad_day() -> None:
    journal = [
        entry(MovementKind.RECEIVED, 10, date(2026, 1, 1)),
        entry(MovementKind.SOWN, 12, date(2026, 1, 2)),
        entry(MovementKind.SOWN, 12, date(2026, 1, 3)),
    ]
    assert shortfall(journal) == Shortfall(date(2026, 1, 2), there=10, lacking=2)
    assert shortfall(journal[:1]) is None
