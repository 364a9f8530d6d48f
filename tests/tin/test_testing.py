"""A germination test from laying the seeds to its result: what may be, what is refused, undo."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seedbox.errors import BadDataError, NotFoundError
from seedbox.tin import codes
from seedbox.tin.counting import count, count_replicates, remove_count
from seedbox.tin.file import Tin
from seedbox.tin.history import redo, undo
from seedbox.tin.packets import PacketDraft, add_packet, remove_packet, take
from seedbox.tin.quantity import left
from seedbox.tin.records import (
    GerminationTest,
    Kind,
    MovementKind,
    Packet,
    Substrate,
    TestState,
    Unit,
)
from seedbox.tin.testing import (
    TestPlan,
    check_plan,
    drop_test,
    finish_test,
    reopen_test,
    start_test,
)
from seedbox.tin.tests import remove_test

START = date(2026, 2, 20)
PLAN = TestPlan(
    20,
    2,
    Substrate.SAND,
    temperature_c=30,
    night_c=20,
    first_count_day=3,
    final_count_day=14,
    pretreatment="soak 2 hours",
    note="by the boiler",
)
Dump = dict[str, list[tuple[Any, ...]]]


@pytest.fixture
def test(tin: Tin, packet: Packet, today: date) -> GerminationTest:
    return start_test(tin, packet, PLAN, on=START, today=today)


def test_a_started_test_is_as_it_was_planned(tin: Tin, test: GerminationTest) -> None:
    assert codes.parse(test.code)[0] == "T"
    assert (test.state, test.started_on, test.on) == (TestState.RUNNING, START, START)
    assert (test.seeds, test.replicates, test.substrate) == (20, 2, Substrate.SAND)
    assert (test.temperature_c, test.night_c) == (30, 20)
    assert (test.first_count_day, test.final_count_day) == (3, 14)
    assert (test.pretreatment, test.note) == ("soak 2 hours", "by the boiler")
    assert tin.tests(state=TestState.RUNNING) == tin.tests(state=None) == [test]
    assert tin.test(codes.shown(test.code).lower()) == test


def test_a_running_test_tells_nothing_of_its_packet(tin: Tin, test: GerminationTest) -> None:
    assert tin.tests() == []
    assert tin.dossiers()[0].tests == ()
    assert tin.dossier(tin.packets()[0].code).tests == ()


def test_starting_is_one_change_and_the_seeds_leave_with_it(
    tin: Tin, packet: Packet, test: GerminationTest
) -> None:
    assert left(tin, packet) == 30
    taken = tin.movements(packet.id)[-1]
    assert (taken.kind, taken.on, taken.amount) == (MovementKind.TESTED, START, 20)
    assert codes.shown(test.code) in taken.note
    assert undo(tin).startswith("Start test")
    assert left(tin, packet) == 50
    assert tin.tests(state=None) == []
    redo(tin)
    assert tin.test(test.code) == test


def test_too_few_seeds_are_refused_with_what_is_left(tin: Tin, packet: Packet, today: date) -> None:
    take(tin, packet, 35, MovementKind.SOWN, today=today)
    with pytest.raises(BadDataError, match="has only 15 seeds left"):
        start_test(tin, packet, TestPlan(20), today=today)
    assert tin.tests(state=None) == []


def test_grams_and_unknown_quantities(tin: Tin, today: date) -> None:
    weighed = add_packet(tin, PacketDraft("leek", amount=2, unit=Unit.GRAMS), today=today)
    with pytest.raises(BadDataError, match="how many grams"):
        start_test(tin, weighed, TestPlan(20), today=today)
    start_test(tin, weighed, TestPlan(20), today=today, grams_taken=0.05)
    assert left(tin, weighed) == 1.95
    uncounted = add_packet(tin, PacketDraft("leek"), today=today)
    start_test(tin, uncounted, TestPlan(20), today=today)
    assert left(tin, uncounted) is None
    start_test(tin, weighed, TestPlan(20), today=today, take_from_packet=False)
    assert left(tin, weighed) == 1.95


def test_planting_stock_has_no_test(tin: Tin, today: date) -> None:
    sets = add_packet(tin, PacketDraft("shallot", kind=Kind.STOCK, amount=40), today=today)
    with pytest.raises(BadDataError, match="planting stock"):
        start_test(tin, sets, TestPlan(10), today=today)


@pytest.mark.parametrize(
    ("plan", "field"),
    [
        (TestPlan(0), "seeds"),
        (TestPlan(10**6), "seeds"),
        (TestPlan(3, 4), "replicates"),
        (TestPlan(30, 17), "replicates"),
        (TestPlan(10, 0), "replicates"),
        (TestPlan(10, temperature_c=60), "temperature_c"),
        (TestPlan(10, temperature_c=float("nan")), "temperature_c"),
        (TestPlan(10, night_c=15), "night_c"),
        (TestPlan(10, temperature_c=20, night_c=25), "night_c"),
        (TestPlan(10, first_count_day=0), "first_count_day"),
        (TestPlan(10, final_count_day=1000), "final_count_day"),
        (TestPlan(10, first_count_day=9, final_count_day=8), "final_count_day"),
        (TestPlan(10, note="n" * 10_001), "note"),
    ],
)
def test_plans_that_cannot_be(
    tin: Tin, packet: Packet, today: date, plan: TestPlan, field: str
) -> None:
    assert field in {problem.field for problem in check_plan(plan, today, today)}
    with pytest.raises(BadDataError):
        start_test(tin, packet, plan, today=today)
    assert len(tin.history()) == 1


def test_a_test_does_not_start_in_the_future_or_before_its_packet(
    tin: Tin, packet: Packet, today: date
) -> None:
    with pytest.raises(BadDataError, match="in the future"):
        start_test(tin, packet, PLAN, on=today + timedelta(days=1), today=today)
    with pytest.raises(BadDataError, match="came into the tin"):
        start_test(tin, packet, PLAN, on=date(2025, 12, 1), today=today)


def test_counting_and_correcting(tin: Tin, test: GerminationTest, today: date) -> None:
    day = START + timedelta(days=4)
    count(tin, test.code, on=day, replicate=1, normal=6, today=today)
    count(tin, test.code, on=day, replicate=2, normal=3, abnormal=1, today=today)
    count(tin, test.code, on=day, replicate=1, normal=7, today=today)
    count(tin, test.code, on=day, replicate=2, normal=2, today=today, add=True)
    found = [(c.replicate, c.normal, c.abnormal) for c in tin.test_counts(test.id)]
    assert found == [(1, 7, 0), (2, 5, 1)]
    assert undo(tin).startswith("Count test")
    assert tin.test_counts(test.id)[1].normal == 3


def test_replicates_are_counted_together_in_one_change(
    tin: Tin, test: GerminationTest, today: date
) -> None:
    on, entries = START + timedelta(days=7), len(tin.history())
    found = [{"normal": number, "hard": 1} for number in range(1, test.replicates + 1)]
    made = count_replicates(tin, test.code, on=on, today=today, found=found)
    assert tin.test_counts(test.id) == made
    assert [one.normal for one in made] == list(range(1, test.replicates + 1))
    assert len(tin.history()) == entries + 1
    with pytest.raises(BadDataError, match="was laid with"):
        count_replicates(tin, test.code, on=on, today=today, found=[*found[:-1], {"normal": 999}])
    with pytest.raises(BadDataError, match=f"replicates?, but {len(found) + 1} were counted"):
        count_replicates(tin, test.code, on=on, today=today, found=[*found, {}])
    assert tin.test_counts(test.id) == made
    undo(tin)
    assert tin.test_counts(test.id) == []


def test_a_count_can_be_taken_out(tin: Tin, test: GerminationTest, today: date) -> None:
    day = START + timedelta(days=4)
    count(tin, test.code, on=day, replicate=1, normal=6, today=today)
    remove_count(tin, test.code, on=day)
    assert tin.test_counts() == []
    with pytest.raises(NotFoundError, match="no count of 2026-02-24 in replicate 1"):
        remove_count(tin, test.code, on=day)


@pytest.mark.parametrize(
    ("given_count", "part"),
    [
        ({"replicate": 3}, "replicates 1 to 2, no replicate 3"),
        ({"on": START}, "counted from the day after"),
        ({"on": START - timedelta(days=3)}, "counted from the day after"),
        ({"on": date(2026, 3, 15)}, "in the future"),
        ({"normal": -1}, "normal cannot be -1"),
        ({"dead": -2}, "dead cannot be -2"),
        ({"normal": 8, "hard": 3}, "laid with 10 seeds; 11 were counted: 1 too many"),
        ({"on": START + timedelta(days=9), "normal": 5}, "6 were counted on other days and 5 now"),
    ],
)
def test_counts_that_cannot_be(
    tin: Tin, test: GerminationTest, today: date, given_count: dict[str, Any], part: str
) -> None:
    day = START + timedelta(days=5)
    count(tin, test.code, on=day, normal=6, today=today)
    with pytest.raises(BadDataError, match=part):
        count(tin, test.code, **{"on": day, **given_count}, today=today)
    assert [c.normal for c in tin.test_counts(test.id)] == [6]


def test_a_late_finish_makes_the_rest_dead(
    tin: Tin, test: GerminationTest, packet: Packet, today: date
) -> None:
    count(tin, test.code, on=START + timedelta(days=4), replicate=1, normal=6, today=today)
    last = START + timedelta(days=14)
    count(tin, test.code, on=last, replicate=2, normal=5, abnormal=1, hard=2, today=today)
    done = finish_test(tin, test.code, on=last, today=today)
    assert (done.germinated, done.abnormal, done.hard, done.fresh, done.dead) == (11, 1, 2, 0, 6)
    assert (done.state, done.on, done.unclassed) == (TestState.FINISHED, last, 0)
    assert not done.stopped_early
    assert tin.dossier(packet.code).tests == (done,)
    with pytest.raises(BadDataError, match="no longer counted"):
        count(tin, test.code, on=last, normal=1, today=today)
    with pytest.raises(BadDataError, match="is finished, not running"):
        finish_test(tin, test.code, today=today)


def test_an_early_finish_leaves_the_rest_open(tin: Tin, test: GerminationTest, today: date) -> None:
    day = START + timedelta(days=5)
    count(tin, test.code, on=day, replicate=1, normal=9, today=today)
    count(tin, test.code, on=day, replicate=2, normal=8, today=today)
    done = finish_test(tin, test.code, on=day, today=today)
    assert (done.germinated, done.dead, done.unclassed, done.stopped_early) == (17, None, 3, True)


def test_all_classed_is_never_early(tin: Tin, test: GerminationTest, today: date) -> None:
    day = START + timedelta(days=5)
    count(tin, test.code, on=day, replicate=1, normal=9, dead=1, today=today)
    count(tin, test.code, on=day, replicate=2, normal=8, dead=2, today=today)
    done = finish_test(tin, test.code, on=day, today=today)
    assert (done.dead, done.stopped_early) == (3, False)


def test_no_result_without_a_count(tin: Tin, test: GerminationTest, today: date) -> None:
    with pytest.raises(BadDataError, match="never counted"):
        finish_test(tin, test.code, today=today)
    count(tin, test.code, on=START + timedelta(days=14), today=today)
    with pytest.raises(BadDataError, match="last counted on 2026-03-06"):
        finish_test(tin, test.code, on=START + timedelta(days=10), today=today)
    assert finish_test(tin, test.code, today=today).dead == 20


def test_a_finished_test_opens_again(tin: Tin, test: GerminationTest, today: date) -> None:
    day = START + timedelta(days=4)
    count(tin, test.code, on=day, normal=6, today=today)
    finish_test(tin, test.code, on=day, today=today)
    assert reopen_test(tin, test.code) == test
    count(tin, test.code, on=day, normal=7, today=today)
    assert finish_test(tin, test.code, on=day, today=today).germinated == 7


def test_a_dropped_test_stays_on_record(
    tin: Tin, test: GerminationTest, packet: Packet, today: date
) -> None:
    dropped = drop_test(tin, test.code, today=today)
    assert (dropped.state, dropped.on) == (TestState.DROPPED, today)
    assert left(tin, packet) == 30
    assert tin.dossier(packet.code).tests == ()
    with pytest.raises(BadDataError, match="dropped already"):
        drop_test(tin, test.code, today=today)
    undo(tin)
    assert tin.test(test.code) == test


def test_dry_seeds_go_back_and_counted_ones_do_not(
    tin: Tin, test: GerminationTest, packet: Packet, today: date
) -> None:
    drop_test(tin, test.code, today=today, return_seeds=True)
    assert left(tin, packet) == 50
    undo(tin)
    count(tin, test.code, on=START + timedelta(days=4), normal=1, today=today)
    with pytest.raises(BadDataError, match="do not go back"):
        drop_test(tin, test.code, today=today, return_seeds=True)
    assert left(tin, packet) == 30


def test_removing_test_and_packet_takes_the_counts(
    tin: Tin, test: GerminationTest, packet: Packet, today: date, dump: Callable[[Tin], Dump]
) -> None:
    count(tin, test.code, on=START + timedelta(days=4), normal=6, today=today)
    before = dump(tin)
    remove_test(tin, test.code)
    assert tin.test_counts() == []
    undo(tin)
    assert dump(tin) == before
    remove_packet(tin, packet.code)
    assert tin.tests(state=None) == []
    undo(tin)
    assert dump(tin) == before
    assert tin.database.rows("PRAGMA foreign_key_check") == []


@given(seeds=st.integers(1, 500), replicates=st.integers(1, 16))
def test_replicates_hold_all_seeds_as_evenly_as_can_be(seeds: int, replicates: int) -> None:
    test = GerminationTest(1, "", 1, START, seeds, 0, replicates=replicates)
    laid = [test.laid(number) for number in range(1, replicates + 1)]
    assert sum(laid) == seeds
    assert max(laid) - min(laid) <= 1


@settings(max_examples=30, deadline=None)
@given(
    entries=st.lists(
        st.tuples(
            st.integers(0, 22),
            st.integers(1, 2),
            *(st.integers(0, 4) for _ in range(5)),
            st.booleans(),
        ),
        max_size=12,
    ),
    end=st.integers(1, 22),
)
def test_whatever_is_counted_adds_up(
    tin_factory: Callable[[], Tin], entries: list[tuple[Any, ...]], end: int
) -> None:
    """Counts that are refused change nothing; those that are taken never exceed what was laid."""
    with tin_factory() as tin:
        today = date(2026, 3, 14)
        packet = add_packet(
            tin, PacketDraft("leek", amount=50, received_on=date(2026, 1, 10)), today=today
        )
        test = start_test(tin, packet, PLAN, on=START, today=today)
        expected: dict[tuple[date, int], tuple[int, ...]] = {}
        for after, replicate, *figures, add in entries:
            day = START + timedelta(days=after)
            named = dict(zip(("normal", "abnormal", "hard", "fresh", "dead"), figures, strict=True))
            before = expected.get((day, replicate), (0,) * 5) if add else (0,) * 5
            wanted = tuple(a + b for a, b in zip(before, figures, strict=True))
            rest = sum(sum(f) for (d, r), f in expected.items() if r == replicate and d != day)
            if after < 1 or day > today or rest + sum(wanted) > 10:
                with pytest.raises(BadDataError):
                    count(
                        tin, test.code, on=day, replicate=replicate, today=today, add=add, **named
                    )
            else:
                count(tin, test.code, on=day, replicate=replicate, today=today, add=add, **named)
                expected[day, replicate] = wanted
        found = {
            (c.on, c.replicate): (c.normal, c.abnormal, c.hard, c.fresh, c.dead)
            for c in tin.test_counts(test.id)
        }
        assert found == expected
        if expected:
            day = max(START + timedelta(days=end), *(d for d, _ in expected))
            done = finish_test(tin, test.code, on=day, today=today)
            told = done.germinated + done.hard + (done.abnormal or 0) + (done.fresh or 0)
            assert told + (done.dead or 0) + done.unclassed == 20
            assert (done.unclassed == 0) or (day - START).days < 14
