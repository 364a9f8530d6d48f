"""Sowings: seed that left a packet for a tray, a pot or a row, under a code of its own."""

from __future__ import annotations

from collections.abc import Container, Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any

from seedbox.errors import BadDataError
from seedbox.problems import Problem
from seedbox.tin import codes
from seedbox.tin.drafts import LONGEST_NOTE, past_day_problem
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import Place, Sowing
from seedbox.tin.label_queue import forget_labels
from seedbox.tin.quantity import add_movement
from seedbox.tin.records import Kind, Movement, MovementKind, Packet, Unit
from seedbox.tin.tests import seeds_problem
from seedbox.tin.text import clean_note

MOST_ROW_M = 10_000.0
DEEPEST_POT_CM = 200.0
_MOST_CELLS = 100_000


@dataclass(frozen=True, slots=True)
class SowingDraft:
    """How seed is sown: `cells` of `per_cell` seeds, or `seeds` in `row_m` metres of row or a
    patch. With cells, `seeds` left out are all of theirs."""

    seeds: int | None = None
    cells: int | None = None
    per_cell: int | None = None
    row_m: float | None = None
    left_per_cell: int = 1
    plants_wanted: int | None = None
    pot_depth_cm: float | None = None
    note: str = ""

    @property
    def all_seeds(self) -> int:
        """Seeds that the sowing takes; 0 when nothing is said."""
        if self.seeds is not None:
            return self.seeds
        return (self.cells or 0) * (self.per_cell or 0)


def add_sowing(
    tin: Tin,
    packet: Packet,
    place: Place,
    draft: SowingDraft,
    *,
    today: date,
    on: date | None = None,
    grams_taken: float | None = None,
    take_from_packet: bool = True,
) -> Sowing:
    """Sows: the sowing gets its code, and its seed leaves the packet, in one change.

    A packet kept in grams needs `grams_taken`. A packet with too little is refused. With
    `take_from_packet` False the seed was written down before.
    """
    day = on or today
    problems = check_sowing(draft, day, today)
    if packet.kind is Kind.STOCK:
        problems.append(Problem("Planting stock is planted, not sown.", field="packet"))
    if problems:
        raise BadDataError(" ".join(problem.sentence for problem in problems))
    code = codes.new_code("S", CodesOfSowings(tin), tin.rng)
    label = f"Sow {draft.all_seeds} of {codes.shown(packet.code)} ({codes.shown(code)})"
    with tin.change(label) as change:
        if take_from_packet:
            amount = _amount(packet, draft.all_seeds, grams_taken)
            taken = Movement(packet.id, day, MovementKind.SOWN, amount, taken_for(code))
            add_movement(tin, change, packet, taken, today=today)
        change.insert(
            "sowing",
            {
                "code": code,
                "packet_id": packet.id,
                "on_date": day.isoformat(),
                "place_id": place.id,
                **sowing_columns(draft),
            },
        )
    return tin.sowing(code)


def remove_sowing(tin: Tin, code_text: str) -> None:
    """Strikes a sowing out with all that became of it. The seed does not go back: recount, or
    undo the sowing instead."""
    sowing = tin.sowing(code_text)
    with tin.change(f"Remove sowing {codes.shown(sowing.code)}") as change:
        for event in tin.sowing_events(sowing.id):
            change.delete("sowing_event", event.id)
        change.delete("sowing", sowing.id)
        forget_labels(tin, change, [sowing.code])


def check_sowing(draft: SowingDraft, on: date, today: date) -> list[Problem]:
    """Everything wrong with a sowing by itself, each with its field; empty when it is sound."""
    found = [*_number_problems(draft)]
    day = past_day_problem(on, today)
    if day:
        found.append(("on", day))
    if len(draft.note) > LONGEST_NOTE:
        found.append(("note", f"The note has more than {LONGEST_NOTE} characters."))
    return [Problem(sentence, field=field) for field, sentence in found]


def taken_for(code: str) -> str:
    """The note by which the journal of a packet says what its seed went into."""
    return f"Sowing {codes.shown(code)}"


def sowing_columns(draft: SowingDraft) -> dict[str, Any]:
    """A draft as it lies in the table."""
    return {
        "seeds": draft.all_seeds,
        "cells": draft.cells,
        "per_cell": draft.per_cell,
        "row_m": draft.row_m,
        "left_per_cell": draft.left_per_cell,
        "plants_wanted": draft.plants_wanted,
        "pot_depth_cm": draft.pot_depth_cm,
        "note": clean_note(draft.note),
    }


class CodesOfSowings(Container[str]):
    """Asks the file for one code."""

    def __init__(self, tin: Tin) -> None:
        self._tin = tin

    def __contains__(self, code: object) -> bool:
        return bool(self._tin.database.rows("SELECT 1 FROM sowing WHERE code = ?", (code,)))


def _amount(packet: Packet, seeds: int, grams: float | None) -> float:
    if packet.unit is not Unit.GRAMS:
        return float(seeds)
    if grams is None:
        raise BadDataError(
            f"{codes.shown(packet.code)} is kept in grams: say how many grams were sown."
        )
    return grams


Fault = tuple[str, str]


def _number_problems(draft: SowingDraft) -> Iterator[Fault]:
    if (draft.cells is None) != (draft.per_cell is None):
        yield "cells", "Cells need a number of seeds each, and seeds per cell a number of cells."
    for field, number in (("cells", draft.cells), ("per_cell", draft.per_cell)):
        if number is not None and not 1 <= number <= _MOST_CELLS:
            yield field, f"The number of {_WORDS[field]} cannot be {number}."
    wrong = seeds_problem(draft.all_seeds, "A sowing is made")
    if wrong:
        yield "seeds", wrong
    if draft.left_per_cell < 1:
        yield "left_per_cell", "At least one plant is left in a cell."
    if draft.plants_wanted is not None and draft.plants_wanted < 1:
        yield "plants_wanted", "Sow for at least one plant."
    if draft.row_m is not None and not 0 < draft.row_m <= MOST_ROW_M:
        yield "row_m", f"A row of {draft.row_m:g} m is no row."
    if draft.pot_depth_cm is not None and not 0 < draft.pot_depth_cm <= DEEPEST_POT_CM:
        yield "pot_depth_cm", f"A pot is not {draft.pot_depth_cm:g} cm deep."


_WORDS = {"cells": "cells", "per_cell": "seeds per cell"}
