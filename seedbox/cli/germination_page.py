"""The page of a germination test in plain lines."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import accumulate
from typing import TYPE_CHECKING

from seedbox.cli.germination_words import between, found_words, interval_words, title
from seedbox.cli.tables import Column, fields, room, table, wrapped
from seedbox.cli.words import count, day, day_of_month, joined, number, percent
from seedbox.tin.codes import shown
from seedbox.tin.records import GerminationTest, TestState

if TYPE_CHECKING:
    from seedbox.season.testing.account import Account
    from seedbox.season.testing.progress import Progress
    from seedbox.season.testing.results import TestResult

_COUNTS = (
    Column("day", right=True), Column("on"), Column("replicate", right=True),
    Column("normal", right=True), Column("so far", right=True), Column("abnormal", right=True),
    Column("hard", right=True), Column("fresh", right=True), Column("dead", right=True),
)  # fmt: skip
_INDICES = (
    ("mean germination time", "mean_time", "days"),
    ("half had come (Coolbear)", "t50_coolbear", "days"),
    ("half had come (Farooq)", "t50_farooq", "days"),
    ("speed (Maguire)", "speed", "seedlings a day"),
    ("synchrony", "synchrony", "(0 to 1)"),
)


def page(found: Account, result: TestResult | None) -> Iterator[str]:
    """Lines of the page; `result` is that of a finished test."""
    yield f"{shown(found.test.code)}  {found.name}"
    yield ""
    yield from fields(_about(found))
    if found.counts:
        yield from ("", "Counts", *_counts(found))
    yield ""
    if result is not None:
        yield from result_lines(result)
    else:
        yield from standing(found.progress)


def standing(progress: Progress) -> Iterator[str]:
    """How a test stands: germination so far, what may come, decided or not, what is next."""
    test, total = progress.test, progress.total
    if test.state is TestState.DROPPED:
        yield from progress.remarks
        return
    if progress.looked_on is not None:
        yield from wrapped(
            f"So far {total.normal} of {test.seeds} germinated: {between(progress.germination)}, "
            f"{interval_words(progress)}."
        )
        yield from _apart(progress)
    yield from _to_come(progress)
    yield from wrapped(progress.decision.sentence)
    if progress.spread is not None:
        yield from wrapped(progress.spread.sentence)
    if progress.next_count is not None:
        due = progress.next_count
        ahead = "Or go on" if progress.decision.may_stop else "Next"
        yield f"{ahead}: {due.words(progress.on)} (day {due.day})."
    for remark in progress.remarks:
        yield from wrapped(remark)


def result_lines(result: TestResult) -> Iterator[str]:
    """The result in sentences, and the indices where the counts allow them."""
    for sentence in result.sentences:
        yield from wrapped(sentence)
    if result.indices is not None:
        shown_indices = [
            (name, f"{value:.2f} {unit}")
            for name, attribute, unit in _INDICES
            if (value := getattr(result.indices, attribute)) is not None
        ]
        yield from ("", "Indices", *(f"  {line}" for line in fields(shown_indices)))


def _apart(progress: Progress) -> Iterator[str]:
    """What was told apart from normal seedlings."""
    others = [each for each in found_words(progress.total) if "normal seedling" not in each]
    abnormal = progress.total.abnormal
    if abnormal:
        others.insert(0, count(abnormal, "abnormal seedling"))
    if others:
        yield f"Apart: {joined(others)}."


def _to_come(progress: Progress) -> Iterator[str]:
    """What is still likely, while something may come."""
    if not progress.more_at_most or progress.expected is None or progress.looked_on is None:
        return
    expected, most = progress.expected, progress.more_at_most
    more = "1 more seedling" if most == 1 else f"{most} more seedlings"
    yield from wrapped(
        f"In the end about {percent(expected.estimate)} are likely, 9 times in 10 between "
        f"{round(expected.low * 100)} and {round(expected.high * 100)} %; {more} at most."
    )


def _about(found: Account) -> list[tuple[str, str]]:
    test, progress = found.test, found.progress
    return [
        ("packet", title(found.packet, found.line.crop)),
        ("state", _state(test, progress)),
        ("laid", _laid(test)),
        ("temperature", _warmth(test)),
        ("counted", _count_days(progress)),
        ("treatment", test.pretreatment),
        ("reported by", test.reported_by),
        ("note", test.note),
    ]


def _state(test: GerminationTest, progress: Progress) -> str:
    if test.state is TestState.RUNNING:
        return f"running, day {progress.day}"
    return f"{test.state} {day(test.on)}"


def _laid(test: GerminationTest) -> str:
    seeds = count(test.seeds, "seed")
    parts = f" in {test.replicates} replicates" if test.replicates > 1 else ""
    on = f" on {test.substrate}" if test.substrate else ""
    when = f", {day(test.started_on)}" if test.started_on else ""
    return f"{seeds}{parts}{on}{when}"


def _warmth(test: GerminationTest) -> str:
    if test.temperature_c is None:
        return ""
    night = f" by day and {number(test.night_c)} °C by night" if test.night_c is not None else ""
    return f"{number(test.temperature_c)} °C{night}"


def _count_days(progress: Progress) -> str:
    test = progress.test
    if test.started_on is None or test.final_count_day is None:
        return ""
    first = f"from day {test.first_count_day} " if test.first_count_day else ""
    return f"{first}to day {test.final_count_day}"


def _counts(found: Account) -> list[str]:
    test = found.test
    laid = test.started_on or test.on
    so_far = accumulate(each.normal for each in found.counts)
    rows = [
        (
            str((each.on - laid).days),
            day_of_month(each.on),
            str(each.replicate) if test.replicates > 1 else "",
            str(each.normal),
            str(total),
            *(str(n) if n else "" for n in (each.abnormal, each.hard, each.fresh, each.dead)),
        )
        for each, total in zip(found.counts, so_far, strict=True)
    ]
    width = room()
    return [f"  {line}" for line in table(_COUNTS, rows, None if width is None else width - 2)]
