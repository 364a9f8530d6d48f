"""How much is left in a packet, told by its journal; taking and recounting.

The rules: a recount states what is there; everything else adds or takes away. What was never
counted stays unknown, whatever is taken from it, until it is counted.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from math import isfinite

from seedbox.errors import BadDataError
from seedbox.tin.changes import OpenChange
from seedbox.tin.codes import shown
from seedbox.tin.file import Tin
from seedbox.tin.journal import left_after, shortfall
from seedbox.tin.records import Movement, MovementKind, Packet, Unit
from seedbox.tin.text import amount_text, clean_line

TAKINGS = (MovementKind.SOWN, MovementKind.GIVEN, MovementKind.LOST, MovementKind.TESTED)

LARGEST_AMOUNT = 1_000_000_000


def left(tin: Tin, packet: Packet) -> float | None:
    """What is left, in the packet's unit; None when nobody knows."""
    return left_after(tin.movements(packet.id))


def take(
    tin: Tin,
    packet: Packet,
    amount: float | None,
    kind: MovementKind = MovementKind.SOWN,
    *,
    today: date,
    on: date | None = None,
    note: str = "",
    unit: Unit | None = None,
) -> Movement:
    """Takes seed out of a packet: sown, given, lost or tested.

    `amount` None is "some": what is left is then unknown until it is counted.
    """
    if kind not in TAKINGS:
        raise BadDataError(f"Seed is not taken by “{kind}”: use one of {', '.join(TAKINGS)}.")
    verb = {"sown": "Sow", "given": "Give", "lost": "Write off", "tested": "Test"}[kind]
    with tin.change(f"{verb} {_some(packet, amount, unit)} from {shown(packet.code)}") as change:
        return add_movement(
            tin,
            change,
            packet,
            _entry(packet, on or today, kind, amount, note),
            today=today,
            unit=unit,
        )


def receive(
    tin: Tin,
    packet: Packet,
    amount: float | None,
    *,
    today: date,
    on: date | None = None,
    note: str = "",
    unit: Unit | None = None,
) -> Movement:
    """Adds seed of the same lot to a packet."""
    entry = _entry(packet, on or today, MovementKind.RECEIVED, amount, note)
    label = f"Add {_some(packet, amount, unit)} to {shown(packet.code)}"
    with tin.change(label) as change:
        return add_movement(tin, change, packet, entry, today=today, unit=unit)


def recount(
    tin: Tin,
    packet: Packet,
    amount: float,
    *,
    today: date,
    on: date | None = None,
    note: str = "",
    unit: Unit | None = None,
) -> Movement:
    """States what is in the packet, whatever the journal said before."""
    entry = _entry(packet, on or today, MovementKind.RECOUNT, amount, note)
    label = f"Recount {shown(packet.code)}: {_some(packet, amount, unit)}"
    with tin.change(label) as change:
        return add_movement(tin, change, packet, entry, today=today, unit=unit)


def add_movement(
    tin: Tin,
    change: OpenChange,
    packet: Packet,
    entry: Movement,
    *,
    today: date,
    unit: Unit | None = None,
) -> Movement:
    """Writes one entry of the journal, after a look at whether the journal bears it."""
    used = _agreed_unit(packet, entry.amount, unit)
    problem = movement_problem(entry, used, today)
    if problem:
        raise BadDataError(problem)
    _refuse_shortfall(tin, packet, entry, used)
    if used is not packet.unit:
        change.update("packet", packet.id, {"unit": used})
    row_id = change.insert(
        "movement",
        {
            "packet_id": packet.id,
            "on_date": entry.on.isoformat(),
            "kind": entry.kind.value,
            "amount": entry.amount,
            "note": entry.note,
        },
    )
    return replace(entry, id=row_id)


def movement_problem(entry: Movement, unit: Unit | None, today: date) -> str:
    """What is wrong with an entry taken by itself, as a sentence; empty when nothing is."""
    if entry.on > today:
        return f"The date {entry.on} is in the future."
    if entry.amount is None:
        return "A recount needs an amount." if entry.kind is MovementKind.RECOUNT else ""
    return amount_problem(entry.amount, unit)


def amount_problem(amount: float, unit: Unit | None) -> str:
    """What is wrong with an amount, as a sentence; empty when nothing is."""
    if not 0 <= amount <= LARGEST_AMOUNT:
        return f"An amount cannot be {amount:g}: give a number from 0 to {LARGEST_AMOUNT:,}."
    if unit is not Unit.GRAMS and amount != int(amount):
        return f"Seeds are counted in whole numbers, not {amount:g}."
    return ""


def _entry(
    packet: Packet, on: date, kind: MovementKind, amount: float | None, note: str
) -> Movement:
    return Movement(packet.id, on, kind, amount, clean_line(note))


def _agreed_unit(packet: Packet, amount: float | None, unit: Unit | None) -> Unit | None:
    """The packet's unit; a packet without one takes that of its first known amount."""
    if packet.unit is not None and unit not in (None, packet.unit):
        raise BadDataError(
            f"{shown(packet.code)} is kept in {packet.unit}, so give the amount in {packet.unit}."
        )
    if packet.unit is not None or amount is None:
        return packet.unit
    return unit or Unit.SEEDS


def _refuse_shortfall(tin: Tin, packet: Packet, entry: Movement, unit: Unit | None) -> None:
    """Refuses what the packet never held, also when it is entered afterwards for a past day."""
    journal = tin.movements(packet.id)
    if journal and entry.on < journal[0].on and entry.kind is not MovementKind.RECEIVED:
        raise BadDataError(
            f"{shown(packet.code)} came into the tin on {journal[0].on}; nothing can be entered"
            " for an earlier day.",
        )
    short = shortfall(_with(journal, entry))
    if short is None or short == shortfall(journal):
        return
    code, hint = shown(packet.code), "If more is there than the journal says, recount it first."
    if short.on == entry.on:
        there = amount_text(short.there, unit, packet.kind)
        raise BadDataError(f"{code} has only {there} left.", hint=hint)
    lacking = amount_text(short.lacking, unit, packet.kind)
    raise BadDataError(
        f"With that, {lacking} would have been missing from {code} on {short.on}.", hint=hint
    )


def _with(journal: Iterable[Movement], entry: Movement) -> list[Movement]:
    """The journal with an entry put in; on its own day it comes last."""
    return sorted([*journal, entry], key=lambda movement: movement.on)


def _some(packet: Packet, amount: float | None, unit: Unit | None) -> str:
    if amount is None or not isfinite(amount):
        return "some"
    return amount_text(amount, packet.unit or unit, packet.kind)
