"""Whatever is done to a tin, in whatever order: undo leads back to the start, redo to the end."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Callable
from contextlib import suppress
from datetime import date, timedelta
from pathlib import Path
from random import Random
from typing import Any

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, precondition, rule, run_state_machine_as_test

from seedbox.errors import SeedboxError
from seedbox.tin import own, stores
from seedbox.tin.counting import count
from seedbox.tin.file import Tin
from seedbox.tin.history import NothingToUndoError, redo, undo
from seedbox.tin.label_queue import clear_queue, queue_labels, unqueue
from seedbox.tin.list_records import SwapWord
from seedbox.tin.packets import (
    PacketDraft,
    add_packet,
    add_packets,
    edit_packet,
    move,
    receive,
    recount,
    remove_packet,
    take,
)
from seedbox.tin.records import MovementKind, Unit
from seedbox.tin.schema import TABLES
from seedbox.tin.settings import reset_setting, set_setting
from seedbox.tin.swap_choices import clear_swap_choice, set_swap_choice
from seedbox.tin.testing import TestPlan, drop_test, finish_test, reopen_test, start_test
from seedbox.tin.tests import record_test, remove_test
from seedbox.tin.trays import record_tray
from seedbox.tin.wants import add_want, change_want, remove_want

TODAY = date(2026, 3, 14)
PICK = st.integers(0, 10**6)
AMOUNT = st.none() | st.integers(0, 40)
DAY = st.integers(0, 60).map(lambda days: TODAY - timedelta(days=days))
TEXT = st.text(max_size=12)


def dumped(tin: Tin) -> dict[str, list[Any]]:
    return {t: tin.database.rows(f"SELECT * FROM {t} ORDER BY id") for t in TABLES}


class TinMachine(RuleBasedStateMachine):
    """Keeps a dump after every change; `past` and `future` mirror what undo and redo should do."""

    start: bytes  # an empty tin, set by the test

    def __init__(self) -> None:
        super().__init__()
        self.folder = Path(tempfile.mkdtemp())
        path = self.folder / "garden.tin"
        path.write_bytes(self.start)
        self.tin = Tin.open(path, rng=Random(7))
        self.past = [dumped(self.tin)]
        self.future: list[dict[str, list[Any]]] = []

    def teardown(self) -> None:
        states = [*self.past, *reversed(self.future)]
        self.go(undo)
        assert dumped(self.tin) == states[0]
        self.go(redo)
        assert dumped(self.tin) == states[-1]
        assert self.tin.database.rows("PRAGMA foreign_key_check") == []
        assert self.tin.database.value("PRAGMA integrity_check") == "ok"
        self.tin.close()
        shutil.rmtree(self.folder)

    def go(self, step: Callable[[Tin], str]) -> None:
        with suppress(NothingToUndoError):
            while True:
                step(self.tin)

    def do(self, work: Callable[[], object]) -> None:
        """Work that may be refused; a refusal must leave everything as it was."""
        entries = len(self.tin.history())
        with suppress(SeedboxError):
            work()
        now = dumped(self.tin)
        if len(self.tin.history()) > entries:
            self.past.append(now)
            self.future.clear()
        assert now == self.past[-1]

    def some_packet(self, pick: int) -> Any:
        packets = self.tin.packets()
        return packets[pick % len(packets)]

    def some_store(self, pick: int) -> Any:
        known = self.tin.stores()
        return known[pick % len(known)] if known else None

    def has_packets(self) -> bool:
        return bool(self.tin.packets())

    @rule(name=TEXT, sealed=st.booleans())
    def add_store(self, name: str, sealed: bool) -> None:
        self.do(lambda: stores.add_store(self.tin, name, 4, 18, sealed=sealed))

    @rule(pick=PICK, note=TEXT)
    def edit_store(self, pick: int, note: str) -> None:
        store = self.some_store(pick)
        if store:
            self.do(lambda: stores.edit_store(self.tin, store.name, note=note, coolest_c=1.5))

    @rule(pick=PICK)
    def remove_store(self, pick: int) -> None:
        store = self.some_store(pick)
        if store:
            self.do(lambda: stores.remove_store(self.tin, store.name))

    @rule(variety=TEXT, amount=AMOUNT, pick=st.none() | PICK, unit=st.sampled_from([None, *Unit]))
    def add(self, variety: str, amount: int | None, pick: int | None, unit: Unit | None) -> None:
        store = None if pick is None else self.some_store(pick)
        parent = self.some_packet(pick).id if pick and self.has_packets() else None
        draft = PacketDraft(
            "leek",
            variety,
            amount=amount,
            unit=unit,
            store_id=store and store.id,
            parent_id=parent,
            received_on=TODAY - timedelta(days=30),
        )
        self.do(lambda: add_packet(self.tin, draft, today=TODAY))

    @rule(count=st.integers(0, 5), pick=PICK)
    def add_many(self, count: int, pick: int) -> None:
        store = self.some_store(pick)
        drafts = [PacketDraft("onion", amount=n, store_id=store and store.id) for n in range(count)]
        self.do(lambda: add_packets(self.tin, drafts, today=TODAY))

    @precondition(has_packets)
    @rule(pick=PICK, variety=TEXT, parent=st.none() | PICK)
    def edit(self, pick: int, variety: str, parent: int | None) -> None:
        packet = self.some_packet(pick)
        parent_id = None if parent is None else self.some_packet(parent).id
        self.do(
            lambda: edit_packet(
                self.tin, packet.code, today=TODAY, variety=variety, parent_id=parent_id
            )
        )

    @precondition(has_packets)
    @rule(
        pick=PICK,
        amount=AMOUNT,
        kind=st.sampled_from([MovementKind.SOWN, MovementKind.GIVEN, MovementKind.LOST]),
        on=DAY,
    )
    def take(self, pick: int, amount: int | None, kind: MovementKind, on: date) -> None:
        packet = self.some_packet(pick)
        self.do(lambda: take(self.tin, packet, amount, kind, today=TODAY, on=on))

    @precondition(has_packets)
    @rule(pick=PICK, amount=st.integers(0, 40), counted=st.booleans(), on=DAY)
    def count_or_receive(self, pick: int, amount: int, counted: bool, on: date) -> None:
        packet, verb = self.some_packet(pick), recount if counted else receive
        self.do(lambda: verb(self.tin, packet, amount, today=TODAY, on=on))

    @precondition(has_packets)
    @rule(picks=st.lists(PICK, min_size=1, max_size=4), to=PICK, on=DAY)
    def move(self, picks: list[int], to: int, on: date) -> None:
        store, packets = self.some_store(to), [self.some_packet(pick) for pick in picks]
        if store:
            self.do(lambda: move(self.tin, packets, store, today=TODAY, on=on))

    @precondition(has_packets)
    @rule(pick=PICK, seeds=st.integers(1, 30), germinated=st.integers(0, 30), taken=st.booleans())
    def test(self, pick: int, seeds: int, germinated: int, taken: bool) -> None:
        packet = self.some_packet(pick)
        self.do(
            lambda: record_test(
                self.tin, packet, TODAY, seeds, germinated, today=TODAY, take_from_packet=taken
            )
        )

    @precondition(has_packets)
    @rule(pick=PICK, seeds=st.integers(0, 30), replicates=st.integers(1, 3), on=DAY)
    def start(self, pick: int, seeds: int, replicates: int, on: date) -> None:
        packet, plan = self.some_packet(pick), TestPlan(seeds, replicates, final_count_day=9)
        self.do(lambda: start_test(self.tin, packet, plan, on=on, today=TODAY))

    @rule(
        pick=PICK, normal=st.integers(0, 9), replicate=st.integers(1, 3), on=DAY, add=st.booleans()
    )
    def count(self, pick: int, normal: int, replicate: int, on: date, add: bool) -> None:
        code = self.some_test(pick)
        if code:
            entry = {"replicate": replicate, "normal": normal, "hard": normal // 4}
            self.do(lambda: count(self.tin, code, on=on, today=TODAY, add=add, **entry))

    @rule(pick=PICK, verb=st.sampled_from([finish_test, reopen_test, drop_test]))
    def end(self, pick: int, verb: Callable[..., object]) -> None:
        code = self.some_test(pick)
        if code:
            asked = {} if verb is reopen_test else {"today": TODAY}
            self.do(lambda: verb(self.tin, code, **asked))

    @precondition(has_packets)
    @rule(pick=PICK, sown=st.integers(0, 20), emerged=st.integers(0, 20), on=DAY)
    def tray(self, pick: int, sown: int, emerged: int, on: date) -> None:
        packet = self.some_packet(pick)
        self.do(
            lambda: record_tray(
                self.tin, packet, on, place="sill", sown=sown, emerged=emerged, today=TODAY
            )
        )

    def some_test(self, pick: int) -> str | None:
        known = self.tin.tests(state=None)
        return known[pick % len(known)].code if known else None

    @precondition(has_packets)
    @rule(pick=PICK, word=st.sampled_from(SwapWord), most=st.none() | st.integers(0, 4))
    def say_for_the_swap(self, pick: int, word: SwapWord, most: int | None) -> None:
        packet = self.some_packet(pick)
        self.do(lambda: set_swap_choice(self.tin, packet, word, portions=most))
        if pick % 3 == 0:
            self.do(lambda: clear_swap_choice(self.tin, packet))

    @rule(pick=PICK, variety=TEXT, portions=st.integers(0, 5), strike=st.booleans())
    def want(self, pick: int, variety: str, portions: int, strike: bool) -> None:
        self.do(lambda: add_want(self.tin, "leek", variety=variety, portions=portions))
        wants = self.tin.wants()
        if wants:
            one = wants[pick % len(wants)].id
            self.do(lambda: change_want(self.tin, one, variety=variety, note=variety))
            if strike:
                self.do(lambda: remove_want(self.tin, one))

    @precondition(has_packets)
    @rule(picks=st.lists(PICK, max_size=3), design=TEXT, copies=st.integers(0, 3))
    def queue(self, picks: list[int], design: str, copies: int) -> None:
        codes = [self.some_packet(pick).code for pick in picks]
        codes += [code for code in map(self.some_test, picks) if code]
        self.do(lambda: queue_labels(self.tin, codes, design, copies))
        if len(picks) == 1:
            self.do(lambda: unqueue(self.tin, [picks[0] % 4]))
        elif not picks:
            self.do(lambda: clear_queue(self.tin))

    @rule(pick=PICK)
    def remove_a_test(self, pick: int) -> None:
        done = self.tin.tests(state=None)
        if done:
            self.do(lambda: remove_test(self.tin, done[pick % len(done)].code))

    @precondition(has_packets)
    @rule(pick=PICK)
    def remove(self, pick: int) -> None:
        packet = self.some_packet(pick)
        self.do(lambda: remove_packet(self.tin, packet.code))

    @rule(value=st.sampled_from(["eu", "us", "mars"]), reset=st.booleans())
    def set(self, value: str, reset: bool) -> None:
        if reset:
            self.do(lambda: reset_setting(self.tin, "region"))
        else:
            self.do(lambda: set_setting(self.tin, "region", value))

    @rule(name=TEXT, value=TEXT, clear=st.booleans())
    def own_things(self, name: str, value: str, clear: bool) -> None:
        self.do(lambda: own.add_own_crop(self.tin, name))
        self.do(lambda: own.set_own_figure(self.tin, "leek", "depth_mm", value))
        if clear:
            self.do(lambda: own.clear_own_figure(self.tin, "leek", "depth_mm"))
            self.do(lambda: own.remove_own_crop(self.tin, f"own:{name}"))

    @precondition(has_packets)
    @rule(pick=PICK, variety=TEXT)
    def fail_in_the_middle(self, pick: int, variety: str) -> None:
        packet = self.some_packet(pick)

        def half() -> None:
            with self.tin.change("Half"):
                edit_packet(self.tin, packet.code, today=TODAY, variety=variety)
                take(self.tin, packet, 10**6 + 0.5, today=TODAY)

        self.do(half)

    @rule()
    def undo_one(self) -> None:
        if len(self.past) > 1:
            undo(self.tin)
            self.future.append(self.past.pop())
        assert dumped(self.tin) == self.past[-1]

    @rule()
    def redo_one(self) -> None:
        if self.future:
            redo(self.tin)
            self.past.append(self.future.pop())
        assert dumped(self.tin) == self.past[-1]


def test_undo_leads_back_and_redo_forth(
    empty_tin_bytes: bytes, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(TinMachine, "start", empty_tin_bytes, raising=False)
    run_state_machine_as_test(
        TinMachine, settings=settings(max_examples=40, stateful_step_count=25, deadline=None)
    )
