"""When a test is counted, and what is due on a day."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox.season.jobs import test_jobs as jobs_of_tests
from seedbox.season.testing.due import due_counts, running_tests
from seedbox.season.testing.schedule import CountKind, all_count_days, next_count
from seedbox.season.testing.starting import Wishes, start
from seedbox.tin.file import Tin
from seedbox.tin.records import GerminationTest, Packet

Laid = Callable[..., GerminationTest]


def test_no_count_is_due_when_every_seed_is_found(
    laid: Laid, counted: Callable[..., list], start_day: date
) -> None:
    test = laid(20, 2)
    some = counted((6, 1, 8), (6, 2, 9))
    assert next_count(test, some, start_day + timedelta(days=6)) is not None
    every = counted((6, 1, 8), (6, 2, 9), dead=1) + counted((8, 1, 1))
    assert next_count(test, every, start_day + timedelta(days=8)) is None


@given(first=st.integers(1, 60), span=st.integers(0, 120))
def test_from_first_to_last_every_two_or_three_days(first: int, span: int) -> None:
    """7 CFR 201.56: rotting tests are counted about every 2 days; we stretch long ones to 3."""
    days = all_count_days(first, first + span)
    assert (days[0], days[-1]) == (first, first + span)
    gaps = [after - before for before, after in pairwise(days)]
    assert all(gap in {2, 3} for gap in gaps) or span in {0, 1}


def test_the_next_count(laid: Laid, counted: Callable[..., list], start_day: date) -> None:
    test = laid()
    found = next_count(test, [], start_day)
    assert found is not None
    assert (found.kind, found.day, found.late) == (CountKind.FIRST, 6, 0)
    assert found.words(start_day + timedelta(days=5)) == "first count tomorrow"
    assert found.words(start_day + timedelta(days=6)) == "first count today"
    late = next_count(test, [], start_day + timedelta(days=9))
    assert late is not None
    assert (late.late, late.words(start_day)) == (3, "first count since 7 February, 3 days late")
    after = next_count(test, counted((9, 1, 4)), start_day + timedelta(days=9))
    assert after is not None
    assert (after.kind, after.day) == (CountKind.BETWEEN, 11)
    last = next_count(test, counted((9, 1, 4), (12, 1, 1)), start_day + timedelta(days=12))
    assert last is not None
    assert (last.kind, last.day) == (CountKind.FINAL, 14)
    assert next_count(test, counted((15, 1, 4)), start_day + timedelta(days=16)) is None


def test_an_early_look_leaves_the_first_count(laid: Laid, counted: Callable[..., list]) -> None:
    found = next_count(laid(), counted((3, 1, 1)), date(2027, 2, 4))
    assert found is not None
    assert (found.kind, found.day) == (CountKind.FIRST, 6)


def test_a_test_of_unknown_length_has_three_weeks(laid: Laid, start_day: date) -> None:
    found = next_count(laid(first_count_day=None, final_count_day=None), [], start_day)
    assert found is not None
    assert found.day == 7


@given(
    first=st.integers(1, 20),
    span=st.integers(1, 30),
    skips=st.lists(st.integers(0, 9), max_size=40),
)
def test_whoever_counts_when_it_is_due_comes_to_the_end(
    first: int, span: int, skips: list[int]
) -> None:
    """However late each count is, the next one lies ahead of it, and the last is the last."""
    from seedbox.tin.records import TestCount, TestState

    start_day = date(2027, 2, 1)
    test = GerminationTest(
        1, "", 1, start_day, 20, 0, state=TestState.RUNNING, started_on=start_day,
        first_count_day=first, final_count_day=first + span,
    )  # fmt: skip
    counts: list[TestCount] = []
    today, lateness = start_day, iter([*skips, *[0] * 100])
    for _ in range(60):
        due = next_count(test, counts, today)
        if due is None:
            break
        assert due.on > (counts[-1].on if counts else start_day)
        today = max(today, due.on + timedelta(days=next(lateness)))
        counts.append(TestCount(1, today))
    assert counts
    assert (counts[-1].on - start_day).days >= first + span


@pytest.fixture
def three(tin: Tin, doubtful: Packet, today: date) -> list[str]:
    """Tests of the same crop begun 8, 30 and 2 days ago (counts on day 7 to 14)."""
    return [
        start(tin, doubtful.code, Wishes(20), today=today, on=today - timedelta(days=ago)).test.code
        for ago in (8, 30, 2)
    ]


def test_due_counts_the_latest_first(tin: Tin, three: list[str], today: date) -> None:
    due = due_counts(tin, today)
    assert [each.test.code for each in due] == [three[1], three[0]]
    assert [each.late for each in due] == [23, 1]
    assert "carrot Slate Hill: first count since" in due[1].sentence
    ahead = due_counts(tin, today, within_days=5)
    assert [each.test.code for each in ahead] == [three[1], three[0], three[2]]
    assert len(running_tests(tin, today)) == 3


def test_all_counted_waits_to_be_finished(
    tin: Tin, three: list[str], today: date, count_all: Callable[..., None]
) -> None:
    count_all(three[1], [(7, 4), (29, 2)])
    due = next(each for each in due_counts(tin, today) if each.test.code == three[1])
    assert due.count is None
    assert due.late == 16
    assert due.sentence.endswith("all counts made, finish it.")


def test_a_decided_test_may_be_finished(
    tin: Tin, three: list[str], today: date, count_all: Callable[..., None]
) -> None:
    count_all(three[0], [(7, 17)])
    due = next(each for each in running_tests(tin, today) if each.test.code == three[0])
    assert due.count is not None
    assert due.sentence.endswith(", or finish it: already decided, good.")
    asked = next(job for job in jobs_of_tests(tin, today, 30) if job.code == three[0])
    assert asked.what == "The test is decided already, good: you may finish it, or count on."
    told = ["already decided" in each.sentence for each in running_tests(tin, today)]
    assert sum(told) == 1


def test_nothing_runs_nothing_is_due(tin: Tin, today: date) -> None:
    assert due_counts(tin, today) == ()
