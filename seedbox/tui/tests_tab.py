"""Germination tests: those that run by what is due, those that are finished, those worth making."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING, Any, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static
from textual.worker import get_current_worker

from seedbox.errors import SeedboxError
from seedbox.tui.actions import Action, action
from seedbox.tui.germination_lists import (
    FINISHED,
    RUNNING,
    WORTH,
    finished_row,
    finished_words,
    running_row,
    running_words,
    tint,
    worth_row,
    worth_words,
)
from seedbox.tui.labels_queueing import QueuesLabels
from seedbox.tui.tab_page import TabPage
from seedbox.tui.virtual_list import VirtualList

if TYPE_CHECKING:
    from seedbox.season.testing.plan import PlannedTest, TestingPlan
    from seedbox.tui.germination_reading import AllTests

VIEWS = {"running": "Running", "finished": "Finished", "worth": "Worth testing"}
_COLUMNS = {"running": RUNNING, "finished": FINISHED, "worth": WORTH}
_ROWS: dict[str, Callable[[Any], tuple[str, ...]]] = {
    "running": running_row, "finished": finished_row, "worth": worth_row,
}  # fmt: skip
_WORDS: dict[str, Callable[[Any], str]] = {
    "running": running_words, "finished": finished_words, "worth": worth_words,
}  # fmt: skip
_NOTHING = {
    "running": (
        "No test is running. v shows the packets that are worth a test, most worthwhile first; N"
        " starts one there, or on any packet."
    ),
    "finished": "No test is finished yet. In the tin, n writes down one that you made before.",
    "worth": "No packet is worth a test now: enough is known of each, or too little is left.",
}


class TestsTab(TabPage, QueuesLabels):
    """Three lists, one shown at a time."""

    __test__ = False  # not a test class, whatever its name starts with
    place = "Tests"
    AUTO_FOCUS: ClassVar[str | None] = "#running"
    FOOTER = ("open", "start", "other_list", "undo", "help_keys")

    def __init__(self) -> None:
        super().__init__()
        self.view = "running"
        self._tests: AllTests | None = None
        self._plan: TestingPlan | None = None

    def body(self) -> ComposeResult:
        yield Static("", id="summary", markup=False)
        for view, columns in _COLUMNS.items():
            yield VirtualList(columns, tint=tint, id=view)
        yield Static("", id="detail", classes="-tall", markup=False)

    def on_mount(self) -> None:
        super().on_mount()
        self._show_view()
        self.reload()

    def reload(self) -> None:
        """Read all tests in a thread of its own; the plan when its list is shown."""
        self._plan = None
        if not self.seedbox.desk.exists:
            self._show()
            return
        if self.tin_opens():
            self.run_worker(self._read, thread=True, exclusive=True, group="reading")

    def _read(self) -> None:
        from seedbox.tui.germination_reading import read_all

        worker, desk = get_current_worker(), self.seedbox.desk
        try:
            with desk.another() as tin:
                tests = read_all(tin, desk.today)
                if not worker.is_cancelled:
                    self.app.call_from_thread(self._show_tests, tests)
                if self.view == "worth" and not worker.is_cancelled:
                    from seedbox.season.testing.plan import testing_plan

                    plan = testing_plan(tin, desk.today, tests.listing)
                    self.app.call_from_thread(self._show_plan, plan)
        except SeedboxError as error:
            self.app.call_from_thread(self.seedbox.complain, error)

    def _show_tests(self, tests: AllTests) -> None:
        self._tests = tests
        self._show()

    def _show_plan(self, plan: TestingPlan) -> None:
        self._plan = plan
        self._show()

    # Showing it

    def items(self, view: str) -> Sequence[Any]:
        """What a list holds, in its order."""
        if view == "worth":
            plan = self._plan
            return (*plan.tests, *plan.not_worth) if plan else ()
        tests = self._tests
        if tests is None:
            return ()
        return tests.running if view == "running" else tests.finished

    def list_of(self, view: str) -> VirtualList:
        return self.query_one(f"#{view}", VirtualList)

    def _show(self) -> None:
        for view in VIEWS:
            shown = self.list_of(view)
            shown.show_rows([_ROWS[view](each) for each in self.items(view)], shown.cursor)
        self._show_summary()
        self._show_detail()
        self.refresh_bars()

    def _show_view(self) -> None:
        for view in VIEWS:
            self.list_of(view).display = view == self.view
        self.list_of(self.view).focus()
        self._show_summary()
        self._show_detail()
        self.refresh_bars()

    def _show_summary(self) -> None:
        parts: list[tuple[str, str]] = []
        for view, name in VIEWS.items():
            known = self._plan if view == "worth" else self._tests
            number = len(self._plan.tests) if view == "worth" and self._plan else None
            if view != "worth":
                number = len(self.items(view))
            text = f"{name} {number}" if known is not None else name
            here = view == self.view
            parts.append((f"[{text}]" if here else f" {text} ", "bold" if here else "$quiet"))
        self.query_one("#summary", Static).update(Content.assemble(*parts))

    def codes_meant(self) -> list[str]:
        """A running test has slips; a packet that is worth a test has its label."""
        here = self._here() if self.is_mounted else None
        if here is None or self.view == "finished":
            return []
        return [here.line.packet.code if self.view == "worth" else here.test.code]

    def codes_shown(self) -> list[str]:
        running = self.items("running") if self.view == "running" else ()
        return [each.test.code for each in running]

    def _here(self) -> Any:
        items, place = self.items(self.view), self.list_of(self.view).cursor
        return items[place] if place < len(items) else None

    def _show_detail(self) -> None:
        self.show_detail(self._words(self._here()))

    def _words(self, here: Any) -> str:
        if here is not None:
            return _WORDS[self.view](here)
        if self.view == "worth" and self._plan is None and self.seedbox.desk.exists:
            return "Weighing for each packet what a test would save and cost …"
        if self.view != "worth" and self._tests is None and self.seedbox.desk.exists:
            return "Reading the tests …"
        return _NOTHING[self.view]

    @on(VirtualList.Moved)
    def _moved(self) -> None:
        self._show_detail()

    @on(VirtualList.Chosen)
    def _chosen(self) -> None:
        self.action_open()

    # Actions

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action == "open":
            return self._here() is not None
        return super().check_action(action, parameters)

    @action("enter", "Open", "Open the test, to count it; in the plan, the packet.", footer=True)
    def action_open(self) -> None:
        here = self._here()
        if here is not None:
            code = here.line.packet.code if self.view == "worth" else here.test.code
            self.seedbox.jump(code)

    @action("N", "Start a test", "Start a test of the packet on this line.", footer=True)
    def action_start(self) -> None:
        here = self._here()
        if self.view == "worth" and here is not None:
            self._start(here)
        elif self.view == "worth" and self._plan is None:
            self.say("The list is still being made: a moment.")
        else:
            self.action_show_list("worth")
            self.say(
                "Choose a packet here and press N; or open any packet in the tin, and N there."
            )

    def _start(self, planned: PlannedTest) -> None:
        from seedbox.tui.germination_start import ask_to_start

        ask_to_start(self.seedbox, planned.line, planned.seeds)

    @action("v,right", "Other list", "Show the next of: running, finished, worth testing.")
    def action_other_list(self) -> None:
        self._turn(1)

    @action("left", "List before", "Show the list before.", palette=False)
    def action_list_before(self) -> None:
        self._turn(-1)

    def _turn(self, step: int) -> None:
        views = list(VIEWS)
        self.action_show_list(views[(views.index(self.view) + step) % len(views)])

    def action_show_list(self, view: str) -> None:
        """Show one of the three lists; the plan is made when it is first asked for."""
        self.view = view
        self.say("")
        self._show_view()
        if view == "worth" and self._plan is None:
            self.reload()

    def possible_actions(self) -> Iterable[Action]:
        """For the palette: each list by its name as well."""
        yield from super().possible_actions()
        for view, name in VIEWS.items():
            yield Action(f"show_list('{view}')", (), f"{name} tests", f"Show the list: {name}.")
