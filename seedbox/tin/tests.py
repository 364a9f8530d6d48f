"""Germination tests that are finished: counted, written down, and their seed taken."""

from __future__ import annotations

from collections.abc import Container, Iterator
from datetime import date

from seedbox.errors import BadDataError, NotFoundError
from seedbox.problems import Problem
from seedbox.tin import codes
from seedbox.tin.drafts import LONGEST_NOTE, past_day_problem
from seedbox.tin.file import Tin
from seedbox.tin.quantity import add_movement
from seedbox.tin.records import GerminationTest, Movement, MovementKind, Packet, Unit
from seedbox.tin.text import clean_note

MOST_SEEDS = 10_000


class _CodesOfTests(Container[str]):
    def __init__(self, tin: Tin) -> None:
        self._tin = tin

    def __contains__(self, code: object) -> bool:
        sql = "SELECT 1 FROM germination_test WHERE code = ?"
        return bool(self._tin.database.rows(sql, (code,)))


def record_test(  # noqa: PLR0917
    tin: Tin,
    packet: Packet,
    on: date,
    seeds: int,
    germinated: int,
    hard: int = 0,
    note: str = "",
    *,
    today: date,
    take_from_packet: bool = True,
    grams_taken: float | None = None,
) -> GerminationTest:
    """Records a test: `germinated` normal seedlings of `seeds` laid, `hard` still hard.

    With `take_from_packet` the seed leaves the packet on the same day. A packet kept in grams
    needs `grams_taken` for that, since a count alone is not a weight.
    """
    note = clean_note(note)
    problems = check_test(on, seeds, germinated, hard, note=note, today=today)
    if problems:
        raise BadDataError(" ".join(problem.sentence for problem in problems))
    code = codes.new_code("T", _CodesOfTests(tin), tin.rng)
    with tin.change(f"Test {codes.shown(packet.code)}: {germinated} of {seeds}") as change:
        if take_from_packet:
            taken = _taken(packet, on, seeds, grams_taken)
            add_movement(tin, change, packet, taken, today=today)
        row_id = change.insert(
            "germination_test",
            {
                "code": code,
                "packet_id": packet.id,
                "on_date": on.isoformat(),
                "seeds": seeds,
                "germinated": germinated,
                "hard": hard,
                "note": note,
            },
        )
    return GerminationTest(row_id, code, packet.id, on, seeds, germinated, hard, note)


def remove_test(tin: Tin, code_text: str) -> None:
    """Strikes a test out. The seed it used stays taken; recount the packet if that is wrong too."""
    code = codes.parse(code_text)
    row_id = tin.database.value("SELECT id FROM germination_test WHERE code = ?", (code,))
    if row_id is None:
        raise NotFoundError(f"There is no germination test {codes.shown(code)} in the tin.")
    with tin.change(f"Remove test {codes.shown(code)}") as change:
        change.delete("germination_test", row_id)


def check_test(
    on: date, seeds: int, germinated: int, hard: int, *, note: str, today: date
) -> list[Problem]:
    """Everything wrong with a test, each with its field; empty when it is sound."""
    found = [*_count_problems(seeds, germinated, hard)]
    day = past_day_problem(on, today)
    if day:
        found.append(("on", day))
    if len(note) > LONGEST_NOTE:
        found.append(("note", f"The note has more than {LONGEST_NOTE} characters."))
    return [Problem(sentence, field=field) for field, sentence in found]


def _count_problems(seeds: int, germinated: int, hard: int) -> Iterator[tuple[str, str]]:
    if not 1 <= seeds <= MOST_SEEDS:
        yield "seeds", f"A test is laid with 1 to {MOST_SEEDS} seeds, not {seeds}."
    for field, count in (("germinated", germinated), ("hard", hard)):
        if count < 0:
            yield field, f"The number {field} cannot be {count}."
    if germinated + hard > seeds:
        both = f"{germinated} germinated" + (f" and {hard} hard" if hard else "")
        yield "germinated", f"{both} are more than the {seeds} seeds that were laid."


def _taken(packet: Packet, on: date, seeds: int, grams: float | None) -> Movement:
    if packet.unit is not Unit.GRAMS:
        return Movement(packet.id, on, MovementKind.TESTED, float(seeds))
    if grams is None:
        raise BadDataError(
            f"{codes.shown(packet.code)} is kept in grams: say how many grams the test took."
        )
    return Movement(packet.id, on, MovementKind.TESTED, grams)
