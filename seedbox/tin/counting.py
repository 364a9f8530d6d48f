"""Counting a running test: what was newly found in a replicate on a day, and correcting it.

Categories are those of seed testing (ISTA; 7 CFR 201.56): normal and abnormal seedlings, hard
seed that took up no water, fresh seed that is firm and still asleep, dead seed.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, replace
from datetime import date

from seedbox.errors import BadDataError, NotFoundError
from seedbox.tin import codes
from seedbox.tin.drafts import past_day_problem
from seedbox.tin.file import Tin
from seedbox.tin.records import GerminationTest, TestCount, TestState

CATEGORIES = ("normal", "abnormal", "hard", "fresh", "dead")


def count(
    tin: Tin,
    test_code: str,
    *,
    on: date,
    today: date,
    replicate: int = 1,
    normal: int = 0,
    abnormal: int = 0,
    hard: int = 0,
    fresh: int = 0,
    dead: int = 0,
    add: bool = False,
) -> TestCount:
    """Writes down what was newly found in a replicate that day.

    A second count of the same day and replicate corrects the first; with `add` it comes on top.
    """
    test = tin.test(test_code)
    found = TestCount(test.id, on, replicate, normal, abnormal, hard, fresh, dead)
    with tin.change(_label(test, found)) as change:
        counts = tin.test_counts(test.id)
        before = next((c for c in counts if (c.on, c.replicate) == (on, replicate)), None)
        if add and before:
            found = _together(before, found)
        problem = count_problem(test, found, counts, today)
        if problem:
            raise BadDataError(problem)
        if before:
            change.update("test_count", before.id, _figures(found))
            return replace(found, id=before.id)
        row = {"test_id": test.id, "on_date": on.isoformat(), "replicate": replicate}
        return replace(found, id=change.insert("test_count", row | _figures(found)))


def count_replicates(
    tin: Tin,
    test_code: str,
    *,
    on: date,
    today: date,
    found: Sequence[Mapping[str, int]],
    add: bool = False,
) -> list[TestCount]:
    """Writes down what was found in every replicate on one day, the first one first.

    Each of `found` has numbers by category. It is one change: all are written, or none.
    """
    test = tin.test(test_code)
    if len(found) != test.replicates:
        raise BadDataError(
            f"{codes.shown(test.code)} has {_replicates(test.replicates)},"
            f" but {len(found)} were counted."
        )
    normal = ", ".join(str(each.get("normal", 0)) for each in found)
    with tin.change(f"Count test {codes.shown(test.code)}, {on}: {normal} normal"):
        return [
            count(tin, test.code, on=on, today=today, replicate=number, add=add, **each)
            for number, each in enumerate(found, 1)
        ]


def _replicates(number: int) -> str:
    return "1 replicate" if number == 1 else f"{number} replicates"


def remove_count(tin: Tin, test_code: str, *, on: date, replicate: int = 1) -> None:
    """Takes a count out that should not have been written down."""
    test = tin.test(test_code)
    code = codes.shown(test.code)
    if test.state is not TestState.RUNNING:
        raise BadDataError(_not_running(test))
    found = [c for c in tin.test_counts(test.id) if (c.on, c.replicate) == (on, replicate)]
    if not found:
        where = f" in replicate {replicate}" if test.replicates > 1 else ""
        raise NotFoundError(f"{code} has no count of {on}{where}.")
    with tin.change(f"Remove count of {on} from {code}") as change:
        change.delete("test_count", found[0].id)


def count_problem(
    test: GerminationTest, found: TestCount, counts: Sequence[TestCount], today: date
) -> str:
    """Why a count cannot be, as a sentence; empty when it can.

    `counts` are those of the test; one of the same day and replicate is taken as replaced.
    """
    if test.state is not TestState.RUNNING:
        return _not_running(test)
    return entry_problem(test, found, counts, today)


def entry_problem(
    test: GerminationTest, found: TestCount, counts: Sequence[TestCount], today: date
) -> str:
    """The same for a test in any state: only whether it can ever have been counted so."""
    return _place_problem(test, found, today) or _number_problem(test, found, counts)


def _place_problem(test: GerminationTest, found: TestCount, today: date) -> str:
    code = codes.shown(test.code)
    if not 1 <= found.replicate <= test.replicates:
        only = "one replicate" if test.replicates == 1 else f"replicates 1 to {test.replicates}"
        return f"{code} has {only}, no replicate {found.replicate}."
    started = test.started_on or test.on
    if found.on <= started:
        return f"{code} was laid on {started}: it is counted from the day after."
    return past_day_problem(found.on, today)


def _number_problem(test: GerminationTest, found: TestCount, counts: Sequence[TestCount]) -> str:
    for name in CATEGORIES:
        if getattr(found, name) < 0:
            return f"The number of {name} cannot be {getattr(found, name)}."
    laid = test.laid(found.replicate)
    others = sum(
        one.seeds for one in counts if one.replicate == found.replicate and one.on != found.on
    )
    if others + found.seeds <= laid:
        return ""
    code = codes.shown(test.code)
    what = f"Replicate {found.replicate} of {code}" if test.replicates > 1 else code
    over = others + found.seeds - laid
    before = (
        f"{others} were counted on other days and {found.seeds} now"
        if others
        else (f"{found.seeds} were counted")
    )
    return f"{what} was laid with {laid} seeds; {before}: {over} too many."


def _not_running(test: GerminationTest) -> str:
    hint = " Open it again to count it." if test.state is TestState.FINISHED else ""
    return f"{codes.shown(test.code)} is {test.state}, so it is no longer counted.{hint}"


def _together(before: TestCount, more: TestCount) -> TestCount:
    sums = {name: getattr(before, name) + getattr(more, name) for name in CATEGORIES}
    return replace(before, **sums)


def _figures(found: TestCount) -> dict[str, int]:
    return {name: value for name, value in asdict(found).items() if name in CATEGORIES}


def _label(test: GerminationTest, found: TestCount) -> str:
    where = f", replicate {found.replicate}" if test.replicates > 1 else ""
    return f"Count test {codes.shown(test.code)}{where}, {found.on}: {found.normal} normal"
