"""Counting a running test with single keys: a cell is chosen, digits add to it."""

from __future__ import annotations

import time
from collections.abc import Mapping
from datetime import date
from typing import ClassVar

from textual import events

from seedbox.errors import SeedboxError
from seedbox.tin.counting import CATEGORIES, count, remove_count
from seedbox.tin.file import Tin
from seedbox.tin.history import redo, undo
from seedbox.tin.records import GerminationTest, TestCount, TestState
from seedbox.tui.actions import Action, action
from seedbox.tui.germination_entry import Cell, Entry
from seedbox.tui.page import Page

DIGITS = Action(
    "count_help",
    ("0-9",),
    "Count",
    "Add so many of today to the chosen cell; digits typed at once are one number (1 2 is 12).",
    footer=True,
    palette=False,
)
_ONE_BY_ONE = "Wait a moment between digits to add them one by one."


class Counting(Page):
    """A page whose digits add to the counts of today. A subclass knows the test and draws it."""

    COUNTING: ClassVar[frozenset[str]] = frozenset(
        ("count_help", "take_one_back", "kind_left", "kind_right", "count_normal",
         "count_abnormal", "count_hard", "count_fresh", "count_dead")
    )  # fmt: skip

    def __init__(self) -> None:
        super().__init__()
        self.chosen = Cell(1, "normal")
        self._entry = Entry()

    def test_here(self) -> GerminationTest | None:
        raise NotImplementedError

    def draw_again(self) -> None:
        """Draw the page with the cell that is chosen now."""
        raise NotImplementedError

    def show_counts(self, sentence: str) -> None:
        """Read the counts again, draw them, and say what was done."""
        raise NotImplementedError

    @property
    def test_runs(self) -> bool:
        test = self.test_here()
        return test is not None and test.state is TestState.RUNNING

    def own_actions(self) -> tuple[Action, ...]:
        return (DIGITS, *super().own_actions())

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action in self.COUNTING:
            return self.test_runs
        return super().check_action(action, parameters)

    def on_key(self, event: events.Key) -> None:
        char = event.character or ""
        if self.test_runs and char.isascii() and char.isdigit():
            event.stop()
            event.prevent_default()
            self._digit(int(char), time.monotonic())

    def action_count_help(self) -> None:
        self.say(DIGITS.help)

    # Which cell

    def choose(self, replicate: int, category: str) -> None:
        """Choose the cell to which digits add."""
        self.chosen = Cell(replicate, category)
        self._entry.end()
        self.draw_again()

    def _kind_beside(self, step: int) -> None:
        place = CATEGORIES.index(self.chosen.category) + step
        self.choose(self.chosen.replicate, CATEGORIES[place % len(CATEGORIES)])

    def next_replicate(self, step: int) -> None:
        """Choose the replicate above or below, round and round."""
        test = self.test_here()
        if test is not None:
            place = (self.chosen.replicate - 1 + step) % test.replicates
            self.choose(place + 1, self.chosen.category)

    @action("left", "Kind before", "Count the kind to the left.", palette=False)
    def action_kind_left(self) -> None:
        self._kind_beside(-1)

    @action("right", "Kind", "Count the kind to the right: abnormal, hard, fresh, dead.")
    def action_kind_right(self) -> None:
        self._kind_beside(1)

    @action("n", "Normal", "Digits count normal seedlings.")
    def action_count_normal(self) -> None:
        self.choose(self.chosen.replicate, "normal")

    @action("a", "Abnormal", "Digits count abnormal seedlings, which make no plant.")
    def action_count_abnormal(self) -> None:
        self.choose(self.chosen.replicate, "abnormal")

    @action("h", "Hard", "Digits count hard seed: it took up no water (last count).")
    def action_count_hard(self) -> None:
        self.choose(self.chosen.replicate, "hard")

    @action("f", "Fresh", "Digits count fresh seed: swollen, firm and asleep (last count).")
    def action_count_fresh(self) -> None:
        self.choose(self.chosen.replicate, "fresh")

    @action("d", "Dead", "Digits count dead seed: soft, mouldy or empty.")
    def action_count_dead(self) -> None:
        self.choose(self.chosen.replicate, "dead")

    # Counting

    def _digit(self, digit: int, at: float) -> None:
        in_a_row = self._entry.continues(self.chosen, at)
        number = self._entry.next(digit, self.chosen, at)
        try:
            self.seedbox.desk.change(lambda tin: self._write(tin, number, at, in_a_row=in_a_row))
        except SeedboxError as error:
            self._entry.end()
            hint = _ONE_BY_ONE if in_a_row else error.hint
            self.seedbox.say(f"{error.sentence} {hint}".strip(), wrong=True)
        else:
            self.show_counts(self._said(number))

    def _write(self, tin: Tin, number: int, at: float, *, in_a_row: bool) -> None:
        """Write a number down; it takes the place of the first digits of the same number."""
        replaces = in_a_row and self._entry.change == _latest(tin) != 0
        if replaces:
            undo(tin)
        before = _latest(tin)
        try:
            self._add(tin, number)
        except SeedboxError:
            if replaces:
                redo(tin)
            raise
        latest = _latest(tin)
        self._entry.note(self.chosen, number, at, latest if latest != before else 0)

    def _add(self, tin: Tin, number: int) -> None:
        test, today = self.test_here(), self.seedbox.desk.today
        assert test is not None
        cell = self.chosen
        where = cell.replicate
        figures = {cell.category: number}
        write_count(tin, test, figures, on=today, today=today, replicate=where, add=True)

    def _said(self, number: int) -> str:
        test = self.test_here()
        where = f" in replicate {self.chosen.replicate}" if test and test.replicates > 1 else ""
        if not number:
            return f"Looked{where}: nothing new today. u takes it back."
        return f"{number} {self.chosen.category} added{where} today. u takes it back."

    @action("minus,backspace", "Take one back", "Take one of today's back from the chosen cell.")
    def action_take_one_back(self) -> None:
        self._entry.end()
        try:
            taken = self.seedbox.desk.change(self._take_one)
        except SeedboxError as error:
            self.seedbox.complain(error)
            return
        if taken:
            self.show_counts(f"One {self.chosen.category} of today taken back. u puts it again.")
        else:
            self.say(
                f"Nothing of today stands under {self.chosen.category} here. e corrects another"
                " day."
            )

    def _take_one(self, tin: Tin) -> bool:
        test, today = self.test_here(), self.seedbox.desk.today
        assert test is not None
        found = next((c for c in tin.test_counts(test.id) if _is(c, self.chosen, today)), None)
        if found is None or not getattr(found, self.chosen.category):
            return False
        figures = {name: getattr(found, name) for name in CATEGORIES}
        figures[self.chosen.category] -= 1
        if any(figures.values()):
            where = self.chosen.replicate
            write_count(tin, test, figures, on=today, today=today, replicate=where)
        else:
            remove_count(tin, test.code, on=today, replicate=self.chosen.replicate)
        return True


def write_count(
    tin: Tin,
    test: GerminationTest,
    figures: Mapping[str, int],
    *,
    on: date,
    today: date,
    replicate: int,
    add: bool = False,
) -> TestCount:
    """Write a count down, by the names of the categories; what is not named is 0."""
    told = dict.fromkeys(CATEGORIES, 0) | dict(figures)
    return count(
        tin, test.code, on=on, today=today, replicate=replicate, add=add,
        normal=told["normal"], abnormal=told["abnormal"], hard=told["hard"],
        fresh=told["fresh"], dead=told["dead"],
    )  # fmt: skip


def _is(found: TestCount, cell: Cell, on: object) -> bool:
    return found.on == on and found.replicate == cell.replicate


def _latest(tin: Tin) -> int:
    """Number of the latest change that stands; 0 when there is none."""
    return next((change.id for change in tin.history(5) if change.state == "done"), 0)
