"""Adding, editing and removing packets."""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from datetime import date
from typing import Any

from seedbox.errors import BadDataError
from seedbox.problems import Problem
from seedbox.tin import codes, reading
from seedbox.tin.changes import OpenChange
from seedbox.tin.drafts import PacketDraft, check_draft, cleaned
from seedbox.tin.file import Tin
from seedbox.tin.quantity import receive, recount, take
from seedbox.tin.records import Packet, Store, Unit
from seedbox.tin.storage import move

__all__ = [
    "Added",
    "PacketDraft",
    "add_packet",
    "add_packets",
    "edit_packet",
    "move",
    "receive",
    "recount",
    "remove_packet",
    "take",
]

_COLUMNS = (
    "code", "crop_id", "variety", "kind", "origin", "source", "harvest_year", "packed_year",
    "bought_year", "sow_by", "printed_germination", "printed_on", "treatment", "ean", "note",
    "tags", "parent_id", "unit", "received_on",
)  # fmt: skip
_MOVEMENT_COLUMNS = ("packet_id", "on_date", "kind", "amount")
_PERIOD_COLUMNS = ("packet_id", "from_date", "store_id", "sealed", "moisture")

# What goes with a packet that is removed, children before parents, and how it is found.
_SOWN = "sowing_id IN (SELECT id FROM sowing WHERE packet_id = ?)"
_QUEUED = (
    "code IN (SELECT code FROM packet WHERE id = ?1"
    " UNION SELECT code FROM germination_test WHERE packet_id = ?1"
    " UNION SELECT code FROM sowing WHERE packet_id = ?1)"
)
_BELONGINGS = (
    ("label_queue", _QUEUED),
    ("swap_choice", "packet_id = ?"),
    ("sowing_event", _SOWN),
    ("sowing", "packet_id = ?"),
    ("movement", "packet_id = ?"),
    ("storage_period", "packet_id = ?"),
    ("test_count", "test_id IN (SELECT id FROM germination_test WHERE packet_id = ?)"),
    ("germination_test", "packet_id = ?"),
    ("tray_count", "packet_id = ?"),
)


@dataclass(frozen=True, slots=True)
class Added:
    """What `add_packets` made: ids and codes, in the order of the drafts."""

    ids: range
    codes: tuple[str, ...]


class _CodesOfTin(Container[str]):
    """Asks the file for one code, so that adding one packet does not read ten thousand."""

    def __init__(self, tin: Tin) -> None:
        self._tin = tin

    def __contains__(self, code: object) -> bool:
        return bool(self._tin.database.rows("SELECT 1 FROM packet WHERE code = ?", (code,)))


def add_packet(tin: Tin, draft: PacketDraft, *, today: date) -> Packet:
    """Puts a packet into the tin; raises `BadDataError` with all that is wrong at once."""
    draft = cleaned(draft)
    problems = [*check_draft(draft, today), *_problems_with_tin(tin, draft)]
    if problems:
        raise BadDataError(_joined(problems))
    taken = _CodesOfTin(tin)
    code = codes.parse(draft.code) if draft.code else codes.new_code("P", taken, tin.rng)
    if draft.code and code in taken:
        raise _taken(code)
    what = " ".join(part for part in (draft.crop_id, draft.variety) if part)
    with tin.change(f"Add {what} ({codes.shown(code)})") as change:
        added = _insert(tin, change, [draft], [code], today)
    return reading.packet_by_id(tin.database, added.ids[0])


def add_packets(tin: Tin, drafts: Sequence[PacketDraft], *, today: date) -> Added:
    """Puts many packets in at once, as part of the change that is open or as one of its own.

    The drafts are those that `cleaned` gives and `check_draft` finds nothing wrong with; the
    tables refuse what nobody checked. A parent must be in the tin already.
    """
    with tin.change(f"Add {len(drafts)} packets") as change:
        return _insert(tin, change, drafts, _codes_for(tin, drafts), today)


def edit_packet(tin: Tin, code: str, /, *, today: date, **changed: Any) -> Packet:
    """Changes fields of a packet. The quantity, its unit and the store have verbs of their own."""
    packet = tin.packet(code)
    draft = cleaned(replace(_as_draft(packet), **_editable(changed)))
    problems = [*check_draft(draft, today), *_problems_with_tin(tin, draft)]
    if problems:
        raise BadDataError(_joined(problems))
    if draft.parent_id is not None and _is_offspring(tin, draft.parent_id, packet.id):
        raise BadDataError("A packet cannot descend from itself: choose another parent.")
    columns = dict(zip(_COLUMNS, _packet_row(packet.code, draft, packet.unit), strict=True))
    with tin.change(f"Edit {codes.shown(packet.code)}") as change:
        change.update("packet", packet.id, {name: columns[name] for name in changed})
    return reading.packet_by_id(tin.database, packet.id)


def remove_packet(tin: Tin, code: str) -> None:
    """Takes a packet out of the record with its journal, storage, tests and sowings; undo
    brings it back.

    An empty packet is better kept: its tests and its offspring tell of it.
    """
    packet = tin.packet(code)
    children = tin.database.rows(
        "SELECT code FROM packet WHERE parent_id = ? ORDER BY id", (packet.id,)
    )
    if children:
        names = ", ".join(codes.shown(row[0]) for row in children[:3])
        raise BadDataError(
            f"{codes.shown(packet.code)} is the parent of {names}"
            f"{' and others' if len(children) > 3 else ''}, so it stays.",
            hint="Give those packets another parent first.",
        )
    with tin.change(f"Remove {codes.shown(packet.code)}") as change:
        for table, owned in _BELONGINGS:
            for (row_id,) in tin.database.rows(
                f"SELECT id FROM {table} WHERE {owned} ORDER BY id", (packet.id,)
            ):
                change.delete(table, row_id)
        change.delete("packet", packet.id)


def _insert(
    tin: Tin,
    change: OpenChange,
    drafts: Sequence[PacketDraft],
    packet_codes: Sequence[str],
    today: date,
) -> Added:
    """Packet, first entry of the journal and first storage period of each draft."""
    stores = {store.id: store for store in tin.stores()}
    first, last = change.insert_many(
        "packet",
        _COLUMNS,
        [
            _packet_row(code, draft, _first_unit(draft))
            for code, draft in zip(packet_codes, drafts, strict=True)
        ],
    )
    entered = today.isoformat()
    change.insert_many(
        "movement",
        _MOVEMENT_COLUMNS,
        [
            (row_id, _day(draft.received_on) or entered, "received", draft.amount)
            for row_id, draft in enumerate(drafts, first)
        ],
    )
    change.insert_many(
        "storage_period",
        _PERIOD_COLUMNS,
        [
            _period_row(row_id, draft, stores, entered)
            for row_id, draft in enumerate(drafts, first)
            if draft.store_id is not None
        ],
    )
    return Added(range(first, last + 1), tuple(packet_codes))


def _codes_for(tin: Tin, drafts: Sequence[PacketDraft]) -> list[str]:
    """The code of each draft: its own, which must be free, or a new one."""
    given = [codes.parse(draft.code) if draft.code else None for draft in drafts]
    taken = {row[0] for row in tin.database.rows("SELECT code FROM packet")}
    for code in filter(None, given):
        if code in taken:
            raise _taken(code)
        taken.add(code)
    found = []
    for own in given:
        found.append(own or codes.new_code("P", taken, tin.rng))
        taken.add(found[-1])
    return found


def _taken(code: str) -> BadDataError:
    return BadDataError(f"The code {codes.shown(code)} is taken by another packet.")


def _packet_row(code: str, draft: PacketDraft, unit: Unit | None) -> tuple[Any, ...]:
    return (
        code, draft.crop_id, draft.variety, draft.kind, draft.origin, draft.source,
        draft.harvest_year, draft.packed_year, draft.bought_year, _day(draft.sow_by),
        draft.printed_germination, _day(draft.printed_on), draft.treatment, draft.ean, draft.note,
        ",".join(draft.tags), draft.parent_id, unit, _day(draft.received_on),
    )  # fmt: skip


def _period_row(
    packet_id: int, draft: PacketDraft, stores: Mapping[int, Store], entered: str
) -> tuple[Any, ...]:
    store = None if draft.store_id is None else stores.get(draft.store_id)
    sealed = bool(store and store.sealed) if draft.sealed is None else draft.sealed
    moisture = draft.moisture
    if moisture is None and sealed and store is not None:
        moisture = store.sealed_moisture
    from_date = _day(draft.stored_from) or _day(draft.received_on) or entered
    return packet_id, from_date, draft.store_id, int(sealed), moisture


def _first_unit(draft: PacketDraft) -> Unit | None:
    return Unit.SEEDS if draft.unit is None and draft.amount is not None else draft.unit


def _problems_with_tin(tin: Tin, draft: PacketDraft) -> list[Problem]:
    """What only the tin can tell: parent and store must be in it."""
    found = []
    for field, table, row_id in (
        ("parent", "packet", draft.parent_id),
        ("store", "store", draft.store_id),
    ):
        if row_id is not None and not tin.database.rows(
            f"SELECT 1 FROM {table} WHERE id = ?", (row_id,)
        ):
            found.append(Problem(f"The {field} is not in the tin.", field=field))
    return found


_EDITABLE = {field.name for field in fields(Packet)} - {"id", "code", "unit"}


def _editable(changed: Mapping[str, Any]) -> Mapping[str, Any]:
    wrong = sorted(changed.keys() - _EDITABLE)
    if wrong:
        raise BadDataError(f"A packet's {', '.join(wrong)} cannot be edited.")
    return changed


def _as_draft(packet: Packet) -> PacketDraft:
    return PacketDraft(**{name: getattr(packet, name) for name in _EDITABLE}, unit=packet.unit)


def _is_offspring(tin: Tin, packet_id: int, ancestor_id: int) -> bool:
    """Whether `packet_id` is the ancestor itself or comes from it."""
    return bool(
        tin.database.rows(
            "WITH RECURSIVE line(id) AS (SELECT ? UNION SELECT packet.parent_id FROM packet"
            " JOIN line ON packet.id = line.id WHERE packet.parent_id IS NOT NULL)"
            " SELECT 1 FROM line WHERE id = ?",
            (packet_id, ancestor_id),
        )
    )


def _joined(problems: Sequence[Problem]) -> str:
    return " ".join(problem.sentence for problem in problems)


def _day(day: date | None) -> str | None:
    return None if day is None else day.isoformat()
