"""A stocktake: what lies in a store, set against what the tin says lies there."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from seedbox.season.listing import PacketLine, Sort, ordered
from seedbox.tin.file import Tin
from seedbox.tin.quantity import recount
from seedbox.tin.records import Dossier, Store, Unit
from seedbox.tin.storage import move

Counted = tuple[float, Unit]


@dataclass(frozen=True, slots=True)
class Stocktake:
    """Every code that was seen and every packet of the store, each in one class only.

    `found`: seen, and the tin says so. `misplaced`: seen, but the tin says another store, or none.
    `missing`: seed should lie here, and was not seen. `spent`: not seen, but empty by the tin
    anyway. `strangers`: codes of packets that the tin does not have. `others`: codes of tests and
    sowings, which lie in no store.
    """

    store: Store
    found: tuple[Dossier, ...] = ()
    misplaced: tuple[Dossier, ...] = ()
    missing: tuple[Dossier, ...] = ()
    spent: tuple[Dossier, ...] = ()
    strangers: tuple[str, ...] = ()
    others: tuple[str, ...] = ()

    @property
    def empty_but_there(self) -> tuple[Dossier, ...]:
        """Seen although the tin says that nothing is left in them: to be counted again."""
        return tuple(one for one in (*self.found, *self.misplaced) if one.left == 0)

    @property
    def is_as_written(self) -> bool:
        """Whether nothing differs from what the tin says."""
        return not (self.misplaced or self.missing or self.strangers)


def compare(dossiers: Iterable[Dossier], store: Store, seen: Iterable[str]) -> Stocktake:
    """Sets codes (plain form, any order, repeats allowed) against the packets of a tin."""
    codes = dict.fromkeys(seen)
    packets = {dossier.packet.code: dossier for dossier in dossiers}
    there = [packets[code] for code in codes if code in packets]
    unseen = [one for one in packets.values() if one.packet.code not in codes and _lies(one, store)]
    unknown = [code for code in codes if code not in packets]
    return Stocktake(
        store=store,
        found=tuple(one for one in there if _lies(one, store)),
        misplaced=tuple(one for one in there if not _lies(one, store)),
        missing=tuple(one for one in unseen if one.left != 0),
        spent=tuple(one for one in unseen if one.left == 0),
        strangers=tuple(code for code in unknown if code.startswith("P")),
        others=tuple(code for code in unknown if not code.startswith("P")),
    )


def lying_in(lines: Iterable[PacketLine], store: Store) -> list[PacketLine]:
    """What should lie in a store by the tin, by crop: packets that are not empty."""
    there = [line for line in lines if _lies(line.dossier, store) and line.dossier.left != 0]
    return ordered(there, Sort.CROP)


def _lies(dossier: Dossier, store: Store) -> bool:
    return dossier.store is not None and dossier.store.id == store.id


def write(
    tin: Tin,
    stock: Stocktake,
    *,
    today: date,
    move_here: bool = True,
    missing_are_gone: bool = False,
    counted: Mapping[str, Counted] | None = None,
) -> tuple[int, int]:
    """Brings the tin in line as one change; returns how many packets moved, and were written off.

    A packet that was merely not seen keeps its seed unless `missing_are_gone`: then it is
    recounted as 0, which undo takes back like everything else. `counted` is what was counted in
    packets that were seen, by their codes.
    """
    moving = stock.misplaced if move_here else ()
    gone: Sequence[Dossier] = stock.missing if missing_are_gone else ()
    with tin.change(f"Stocktake of {stock.store.name}"):
        moved = 0
        if moving:
            moved = move(tin, [one.packet for one in moving], stock.store, today=today)
        for one in gone:
            note = f"not found at the stocktake of {stock.store.name}"
            unit = one.packet.unit or Unit.SEEDS
            recount(tin, one.packet, 0, today=today, note=note, unit=unit)
        for one in (*stock.found, *stock.misplaced):
            if counted and one.packet.code in counted:
                amount, counted_in = counted[one.packet.code]
                note = f"counted at the stocktake of {stock.store.name}"
                recount(tin, one.packet, amount, today=today, note=note, unit=counted_in)
    return moved, len(gone)
