"""Germination tests that are finished: counted, written down, and their seed taken."""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping
from datetime import date
from types import MappingProxyType

from seedbox.errors import BadDataError
from seedbox.problems import Problem
from seedbox.tin import codes
from seedbox.tin.drafts import LONGEST_LINE, LONGEST_NOTE, past_day_problem
from seedbox.tin.file import Tin
from seedbox.tin.label_queue import forget_labels
from seedbox.tin.quantity import add_movement
from seedbox.tin.records import GerminationTest, Kind, Movement, MovementKind, Packet, Unit
from seedbox.tin.text import clean_line, clean_note

MOST_SEEDS = 10_000
NO_OTHERS: Mapping[str, int | None] = MappingProxyType({})


class CodesOfTests(Container[str]):
    """Asks the file for one code."""

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
    abnormal: int | None = None,
    fresh: int | None = None,
    dead: int | None = None,
    reported_by: str = "",
) -> GerminationTest:
    """Records a finished test: `germinated` normal seedlings of `seeds` laid, `hard` still hard.

    With `take_from_packet` the seed leaves the packet on the same day. A packet kept in grams
    needs `grams_taken` for that, since a count alone is not a weight. `abnormal`, `fresh` and
    `dead` are None where nobody looked. `reported_by` names whose test it was, when it was not
    one's own; its seed usually never left this packet.
    """
    refuse_stock(packet)
    note, reported_by = clean_note(note), clean_line(reported_by)
    others = {"abnormal": abnormal, "fresh": fresh, "dead": dead}
    problems = check_test(
        on, seeds, germinated, hard, note=note, today=today, others=others, reported_by=reported_by
    )
    if problems:
        raise BadDataError(" ".join(problem.sentence for problem in problems))
    code = codes.new_code("T", CodesOfTests(tin), tin.rng)
    with tin.change(f"Test {codes.shown(packet.code)}: {germinated} of {seeds}") as change:
        if take_from_packet:
            amount = tested_amount(packet, seeds, grams_taken)
            taken = Movement(packet.id, on, MovementKind.TESTED, amount)
            add_movement(tin, change, packet, taken, today=today)
        change.insert(
            "germination_test",
            {
                "code": code,
                "packet_id": packet.id,
                "on_date": on.isoformat(),
                "seeds": seeds,
                "germinated": germinated,
                "hard": hard,
                "note": note,
                "reported_by": reported_by,
                **others,
            },
        )
    return tin.test(code)


def remove_test(tin: Tin, code_text: str) -> None:
    """Strikes a test out, with its counts. The seed it used stays taken; recount the packet if
    that is wrong too."""
    test = tin.test(code_text)
    with tin.change(f"Remove test {codes.shown(test.code)}") as change:
        for count in tin.test_counts(test.id):
            change.delete("test_count", count.id)
        change.delete("germination_test", test.id)
        forget_labels(tin, change, [test.code])


def check_test(
    on: date,
    seeds: int,
    germinated: int,
    hard: int,
    *,
    note: str,
    today: date,
    others: Mapping[str, int | None] = NO_OTHERS,
    reported_by: str = "",
) -> list[Problem]:
    """Everything wrong with a test, each with its field; empty when it is sound.

    `others` are further counts by name: abnormal, fresh, dead.
    """
    found = [*_count_problems(seeds, germinated, hard, others)]
    day = past_day_problem(on, today)
    if day:
        found.append(("on", day))
    if len(note) > LONGEST_NOTE:
        found.append(("note", f"The note has more than {LONGEST_NOTE} characters."))
    if len(reported_by) > LONGEST_LINE:
        found.append(("reported_by", f"A name has {LONGEST_LINE} characters at most."))
    return [Problem(sentence, field=field) for field, sentence in found]


def seeds_problem(seeds: int, what: str = "A test is laid") -> str:
    """What is wrong with a number of seeds, as a sentence; empty when nothing is."""
    if 1 <= seeds <= MOST_SEEDS:
        return ""
    return f"{what} with 1 to {MOST_SEEDS} seeds, not {seeds}."


def refuse_stock(packet: Packet) -> None:
    """Sets, cloves and tubers sprout; there is nothing to count on paper."""
    if packet.kind is Kind.STOCK:
        raise BadDataError(
            f"{codes.shown(packet.code)} is planting stock, not seed: it has no germination test.",
            hint="Look at it instead: plant what is firm and sound.",
        )


def tested_amount(packet: Packet, seeds: int, grams: float | None) -> float:
    """What a test takes, in the packet's unit."""
    if packet.unit is not Unit.GRAMS:
        return float(seeds)
    if grams is None:
        raise BadDataError(
            f"{codes.shown(packet.code)} is kept in grams: say how many grams the test took."
        )
    return grams


def _count_problems(
    seeds: int, germinated: int, hard: int, others: Mapping[str, int | None]
) -> Iterator[tuple[str, str]]:
    wrong = seeds_problem(seeds)
    if wrong:
        yield "seeds", wrong
    told = {name: number for name, number in others.items() if number is not None}
    for field, count in (("germinated", germinated), ("hard", hard), *told.items()):
        if count < 0:
            yield field, f"The number {field} cannot be {count}."
    if germinated + hard + sum(told.values()) > seeds:
        parts = [f"{germinated} germinated"] + ([f"{hard} hard"] if hard else [])
        parts += [f"{number} {name}" for name, number in told.items() if number]
        both = " and ".join(filter(None, (", ".join(parts[:-1]), parts[-1])))
        yield "germinated", f"{both} are more than the {seeds} seeds that were laid."
