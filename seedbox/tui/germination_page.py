"""One germination test: count it with single keys, see how it stands, finish it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.widgets import Static

from seedbox.errors import NotFoundError, SeedboxError
from seedbox.tin.codes import shown
from seedbox.tin.file import Tin
from seedbox.tin.records import GerminationTest, TestState
from seedbox.tui.actions import action
from seedbox.tui.germination_counting import Counting
from seedbox.tui.germination_reading import Reading, counted_again, read_test
from seedbox.tui.germination_text import TestFacts, test_lines
from seedbox.tui.labels_queueing import QueuesLabels
from seedbox.tui.text_lines import content


class Scroller(VerticalScroll, inherit_bindings=False):
    """Scrolls by the keys of the page; arrows choose what is counted."""


class GerminationPage(Counting, QueuesLabels):
    """Shows the test with this code."""

    place = "test"
    AUTO_FOCUS: ClassVar[str | None] = "#test"
    FOOTER = (
        "back", "count_help", "take_one_back", "kind_right", "finish", "open_again", "packet",
        "help_keys",
    )  # fmt: skip

    def __init__(self, code: str) -> None:
        super().__init__()
        self.code = code
        self._reading: Reading | None = None

    def body(self) -> ComposeResult:
        with Scroller(id="test", classes="page-body"):
            yield Static("", id="test-text", markup=False)

    def title_words(self) -> str:
        return f" Seedbox · Tests · {shown(self.code)}"

    def on_mount(self) -> None:
        super().on_mount()
        self.reload()

    def show_test(self, code: str) -> None:
        """Show another test on the same page."""
        self.code = code
        self.choose(1, "normal")
        self.query_one("#test").scroll_home(animate=False)
        self.reload()

    def reload(self) -> None:
        desk = self.seedbox.desk
        try:
            self._reading = read_test(desk.tin(), self.code, desk.today)
        except NotFoundError as error:
            self._gone(error)
        except SeedboxError as error:
            self.seedbox.complain(error)
        self._entry.end()
        self.draw_again()
        self.refresh_bars()

    def _gone(self, error: NotFoundError) -> None:
        """The test is no longer there: its start was undone, or it was struck out."""
        self._reading = None
        self.leave()
        self.app.call_later(self.seedbox.say, error.sentence)

    def test_here(self) -> GerminationTest | None:
        return self._reading.account.test if self._reading else None

    def codes_meant(self) -> list[str]:
        """A running test has a slip for the bag of each replicate."""
        return [self.code] if self.test_runs else []

    def show_counts(self, sentence: str) -> None:
        desk = self.seedbox.desk
        if self._reading is None:
            return
        try:
            found = counted_again(desk.tin(), self._reading, desk.today)
        except SeedboxError as error:
            self.seedbox.complain(error)
            return
        self._reading = replace(self._reading, account=found)
        self.draw_again()
        self.seedbox.changed_here(self, sentence)

    def draw_again(self) -> None:
        if self._reading is None:
            return
        width = max(40, self.app.size.width - 6)
        facts = TestFacts(
            self._reading.account,
            self._reading.protocol,
            self._reading.result,
            self.chosen if self.test_runs else None,
        )
        self.query_one("#test-text", Static).update(content(test_lines(facts, width)))

    def on_resize(self, event: events.Resize) -> None:
        super().on_resize(event)
        self.draw_again()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        test = self.test_here()
        if action in {"finish", "other_day"}:
            return self.test_runs
        if action == "open_again":
            finished = test is not None and test.state is TestState.FINISHED
            return finished and test is not None and test.started_on is not None
        if action == "drop":
            return test is not None and test.state is not TestState.DROPPED
        return super().check_action(action, parameters)

    # What becomes of the test

    @action("F", "Finish", "Finish the test: result, and forecast before and after.", footer=True)
    def action_finish(self) -> None:
        from seedbox.season.testing.results import finish
        from seedbox.tui.units import unbroken

        desk = self.seedbox.desk
        try:
            found = desk.change(lambda tin: finish(tin, self.code, today=desk.today))
        except SeedboxError as error:
            self.seedbox.complain(error)
            return
        self.query_one("#test").scroll_home(animate=False)
        self.seedbox.done(f"Finished. {unbroken(found.sentences[-1])} u lets it run on.")

    @action("e", "Other day", "Count another day, or correct a count.")
    def action_other_day(self) -> None:
        from seedbox.tui.germination_forms import count_plan

        test = self.test_here()
        if test is not None:
            self.seedbox.ask(count_plan(self.seedbox.desk, test, self.chosen.replicate))

    @action("D", "Drop", "Give the test up: it tells nothing of its packet any more.")
    def action_drop(self) -> None:
        from seedbox.tui.germination_forms import drop_plan

        if self._reading is not None:
            self.seedbox.ask(drop_plan(self.seedbox.desk, self._reading.account))

    @action("o", "Open again", "Let a finished test run on, to count it further or correct it.")
    def action_open_again(self) -> None:
        from seedbox.tin.testing import reopen_test

        self._change(
            lambda tin: reopen_test(tin, self.code), "The test runs again. u takes it back."
        )

    @action("x", "Strike out", "Strike out a test that was entered by mistake.")
    def action_strike_out(self) -> None:
        from seedbox.tin.tests import remove_test

        self._change(
            lambda tin: remove_test(tin, self.code),
            f"Struck out {shown(self.code)}. u brings it back.",
        )

    def _change(self, work: Callable[[Tin], object], sentence: str) -> None:
        try:
            self.seedbox.desk.change(work)
        except SeedboxError as error:
            self.seedbox.complain(error)
        else:
            self.seedbox.done(sentence)

    @action("v", "Packet", "Show the packet that is tested.", footer=True)
    def action_packet(self) -> None:
        if self._reading is not None:
            self.seedbox.jump(self._reading.account.packet.code)

    @action("y", "Copy code", "Copy the test's code.")
    def action_copy_code(self) -> None:
        from seedbox.tui.copying import copy

        self.say(copy(self.app, self.code))

    # Going about

    @action("escape,b", "Back", "Back to where you were.", footer=True)
    def action_back(self) -> None:
        self.leave()

    @action("down", "Replicate below", "Choose the replicate below, or scroll down.", palette=False)
    def action_down(self) -> None:
        self._up_or_down(1)

    @action("up", "Replicate above", "Choose the replicate above, or scroll up.", palette=False)
    def action_up(self) -> None:
        self._up_or_down(-1)

    def _up_or_down(self, step: int) -> None:
        test = self.test_here()
        if self.test_runs and test is not None and test.replicates > 1:
            self.next_replicate(step)
        else:
            self.query_one("#test").scroll_relative(y=2 * step, animate=False)

    @action("j", "Scroll down", "Scroll down.", palette=False)
    def action_scroll_down(self) -> None:
        self.query_one("#test").scroll_relative(y=2, animate=False)

    @action("k", "Scroll up", "Scroll up.", palette=False)
    def action_scroll_up(self) -> None:
        self.query_one("#test").scroll_relative(y=-2, animate=False)

    @action("pagedown,space", "Page down", "A screenful down.", palette=False)
    def action_page_down(self) -> None:
        self.query_one("#test").scroll_page_down(animate=False)

    @action("pageup", "Page up", "A screenful up.", palette=False)
    def action_page_up(self) -> None:
        self.query_one("#test").scroll_page_up(animate=False)

    @action("g,home", "Top", "To the top of the page.", palette=False)
    def action_top(self) -> None:
        self.query_one("#test").scroll_home(animate=False)

    @action("G,end", "End", "To the end of the page.", palette=False)
    def action_end(self) -> None:
        self.query_one("#test").scroll_end(animate=False)
