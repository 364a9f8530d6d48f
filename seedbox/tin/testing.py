"""Germination tests from laying the seeds to the result: start, finish, reopen, drop."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any

from seedbox.errors import BadDataError
from seedbox.problems import Problem
from seedbox.tin import codes
from seedbox.tin.changes import OpenChange
from seedbox.tin.drafts import LONGEST_NOTE, past_day_problem
from seedbox.tin.file import Tin
from seedbox.tin.quantity import add_movement
from seedbox.tin.records import (
    GerminationTest,
    Movement,
    MovementKind,
    Packet,
    Substrate,
    TestCount,
    TestState,
)
from seedbox.tin.tests import (
    CodesOfTests,
    refuse_stock,
    seeds_problem,
    tested_amount,
)
from seedbox.tin.text import clean_line, clean_note
from seedbox.units import celsius, celsius_range

MOST_REPLICATES = 16
COLDEST_C, HOTTEST_C = 0.0, 45.0
LONGEST_DAYS = 400  # palms and some trees take a year; longer is a slip of the pen


@dataclass(frozen=True, slots=True)
class TestPlan:
    """How a test is laid. Count days are days after the start; what is not known is None.

    `temperature_c` is constant, or that of the day where `night_c` is given.
    """

    __test__ = False  # not a test class, whatever its name starts with

    seeds: int
    replicates: int = 1
    substrate: Substrate = Substrate.PAPER
    temperature_c: float | None = None
    night_c: float | None = None
    first_count_day: int | None = None
    final_count_day: int | None = None
    pretreatment: str = ""
    note: str = ""


def start_test(
    tin: Tin,
    packet: Packet,
    plan: TestPlan,
    *,
    today: date,
    on: date | None = None,
    take_from_packet: bool = True,
    grams_taken: float | None = None,
) -> GerminationTest:
    """Lays a test: it gets its code, and its seeds leave the packet, in one change.

    A packet kept in grams needs `grams_taken`. A packet with too few seeds is refused.
    """
    refuse_stock(packet)
    day, note = on or today, clean_note(plan.note)
    problems = check_plan(plan, day, today)
    if problems:
        raise BadDataError(" ".join(problem.sentence for problem in problems))
    code = codes.new_code("T", CodesOfTests(tin), tin.rng)
    label = f"Start test {codes.shown(code)} of {codes.shown(packet.code)}: {plan.seeds} seeds"
    with tin.change(label) as change:
        if take_from_packet:
            amount = tested_amount(packet, plan.seeds, grams_taken)
            taken = Movement(packet.id, day, MovementKind.TESTED, amount, _taken_for(code))
            add_movement(tin, change, packet, taken, today=today)
        change.insert(
            "germination_test",
            {
                "code": code,
                "packet_id": packet.id,
                "on_date": day.isoformat(),
                "seeds": plan.seeds,
                "germinated": 0,
                "note": note,
                "state": TestState.RUNNING.value,
                "started_on": day.isoformat(),
                "replicates": plan.replicates,
                "substrate": plan.substrate.value,
                "temperature_c": plan.temperature_c,
                "night_c": plan.night_c,
                "first_count_day": plan.first_count_day,
                "final_count_day": plan.final_count_day,
                "pretreatment": clean_line(plan.pretreatment),
            },
        )
    return tin.test(code)


def check_plan(plan: TestPlan, on: date, today: date) -> list[Problem]:
    """Everything wrong with a plan, each with its field; empty when a test can be laid so."""
    found = [*_size_problems(plan), *_warmth_problems(plan), *_day_problems(plan)]
    day = past_day_problem(on, today)
    if day:
        found.append(("on", day))
    if max(len(plan.note), len(plan.pretreatment)) > LONGEST_NOTE:
        found.append(("note", f"The note has more than {LONGEST_NOTE} characters."))
    return [Problem(sentence, field=field) for field, sentence in found]


def finish_test(
    tin: Tin, code_text: str, *, today: date, on: date | None = None
) -> GerminationTest:
    """Adds the counts up and closes the test.

    From the last count day on, what was not classed is dead. A test stopped earlier leaves those
    seeds open: they might still have come.
    """
    test = _of_state(tin, code_text, TestState.RUNNING)
    counts, day = tin.test_counts(test.id), on or today
    _refuse_finish(test, counts, day, today)
    figures = summed(test, counts, day)
    label = f"Finish test {codes.shown(test.code)}: {figures['germinated']} of {test.seeds}"
    with tin.change(label) as change:
        figures |= {"state": TestState.FINISHED.value, "on_date": day.isoformat()}
        change.update("germination_test", test.id, figures)
    return tin.test(test.code)


def reopen_test(tin: Tin, code_text: str) -> GerminationTest:
    """Opens a finished test again, so that a count can be corrected or added."""
    test = _of_state(tin, code_text, TestState.FINISHED)
    if test.started_on is None:
        raise BadDataError(
            f"{codes.shown(test.code)} was written down finished, without counts, so it cannot be"
            " opened again.",
            hint="Strike it out and write it down anew.",
        )
    open_again: dict[str, Any] = {"state": "running", "on_date": test.started_on.isoformat()}
    open_again |= {"germinated": 0, "hard": 0, "abnormal": None, "fresh": None, "dead": None}
    with tin.change(f"Open test {codes.shown(test.code)} again") as change:
        change.update("germination_test", test.id, open_again)
    return tin.test(test.code)


def drop_test(
    tin: Tin, code_text: str, *, today: date, return_seeds: bool = False
) -> GerminationTest:
    """Gives a test up: it stays in the record and no longer tells anything of its packet.

    `return_seeds` puts back what was taken, for a test that was never wetted.
    """
    test = tin.test(code_text)
    if test.state is TestState.DROPPED:
        raise BadDataError(f"{codes.shown(test.code)} was dropped already.")
    dropped = {"state": TestState.DROPPED.value}
    if test.state is TestState.RUNNING:
        dropped["on_date"] = today.isoformat()
    with tin.change(f"Drop test {codes.shown(test.code)}") as change:
        if return_seeds:
            _put_back(tin, change, test, today)
        change.update("germination_test", test.id, dropped)
    return tin.test(test.code)


def summed(test: GerminationTest, counts: list[TestCount], on: date) -> dict[str, Any]:
    """The figures of a test that would be finished on a day, as they lie in the table."""
    sums = {
        name: sum(getattr(count, name) for count in counts)
        for name in ("normal", "abnormal", "hard", "fresh", "dead")
    }
    rest = test.seeds - sum(sums.values())
    started, final = test.started_on or test.on, test.final_count_day
    at_the_end = final is None or (on - started).days >= final
    dead = sums["dead"] + rest if at_the_end else sums["dead"]
    return {
        "germinated": sums["normal"],
        "hard": sums["hard"],
        "abnormal": sums["abnormal"],
        "fresh": sums["fresh"],
        "dead": dead or (None if rest and not at_the_end else 0),
    }


def _of_state(tin: Tin, code_text: str, state: TestState) -> GerminationTest:
    test = tin.test(code_text)
    if test.state is not state:
        raise BadDataError(f"{codes.shown(test.code)} is {test.state}, not {state}.")
    return test


def _refuse_finish(test: GerminationTest, counts: list[TestCount], day: date, today: date) -> None:
    code = codes.shown(test.code)
    problem = past_day_problem(day, today)
    if problem:
        raise BadDataError(problem)
    if not counts:
        raise BadDataError(
            f"{code} was never counted, so it has no result.",
            hint="Count it first (0 is a count), or drop it.",
        )
    if day < counts[-1].on:
        raise BadDataError(f"{code} was last counted on {counts[-1].on}: finish it then or later.")


def _put_back(tin: Tin, change: OpenChange, test: GerminationTest, today: date) -> None:
    code = codes.shown(test.code)
    if any(count.seeds for count in tin.test_counts(test.id)) or test.germinated:
        raise BadDataError(f"Seeds of {code} were counted, so they do not go back.")
    taken = [m for m in tin.movements(test.packet_id) if m.note == _taken_for(test.code)]
    if not taken:
        raise BadDataError(f"The journal does not say what {code} took; recount the packet.")
    packet = next(one for one in tin.packets() if one.id == test.packet_id)
    back = Movement(
        packet.id, today, MovementKind.RECEIVED, taken[-1].amount, f"Back from test {code}"
    )
    add_movement(tin, change, packet, back, today=today)


def _taken_for(code: str) -> str:
    """The note by which a test finds what it took."""
    return f"Test {codes.shown(code)}"


Fault = tuple[str, str]


def _size_problems(plan: TestPlan) -> Iterator[Fault]:
    wrong = seeds_problem(plan.seeds)
    if wrong:
        yield "seeds", wrong
    most = min(plan.seeds, MOST_REPLICATES)
    if not 1 <= plan.replicates <= max(most, 1):
        yield "replicates", f"{plan.seeds} seeds are laid in 1 to {most} replicates."


def _warmth_problems(plan: TestPlan) -> Iterator[Fault]:
    for field, degrees in (("temperature_c", plan.temperature_c), ("night_c", plan.night_c)):
        if degrees is not None and not COLDEST_C <= degrees <= HOTTEST_C:
            yield (
                field,
                f"A test is kept at {celsius_range(COLDEST_C, HOTTEST_C)}, not {celsius(degrees)}.",
            )
    if plan.night_c is None:
        return
    if plan.temperature_c is None:
        yield "night_c", "A night temperature needs that of the day."
    elif plan.night_c > plan.temperature_c:
        yield "night_c", "The night cannot be warmer than the day."


def _day_problems(plan: TestPlan) -> Iterator[Fault]:
    first, final = plan.first_count_day, plan.final_count_day
    for field, word, day in (
        ("first_count_day", "first", first),
        ("final_count_day", "last", final),
    ):
        if day is not None and not 1 <= day <= LONGEST_DAYS:
            yield field, f"The {word} count is on day 1 to {LONGEST_DAYS}, not {day}."
    if first is not None and final is not None and first > final:
        yield "final_count_day", f"The last count (day {final}) comes before the first ({first})."
