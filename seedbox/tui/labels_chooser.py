"""A list to choose one line from, filtered as you type."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.widgets import Input, Static

from seedbox.errors import SeedboxError
from seedbox.season.searching import search_key
from seedbox.tui.actions import action
from seedbox.tui.cells import plain
from seedbox.tui.columns import Column
from seedbox.tui.page import Page
from seedbox.tui.virtual_list import Row, VirtualList


@dataclass(frozen=True, slots=True)
class Option:
    """A line of the list: what is chosen with it, its texts, and what is said of it below."""

    value: str
    row: Row
    words: str


@dataclass(frozen=True, slots=True)
class Question:
    """What is to be chosen. `take` gets the value; one's own file may be typed where `own` tells
    what it is, and it stays open while `take` gives back what is wrong.
    """

    place: str
    columns: tuple[Column, ...]
    options: Callable[[], Sequence[Option]]
    take: Callable[[str], str]
    current: str = ""
    own: str = ""


class Chooser(Page):
    """The filter has the cursor; up, down and Enter are the list's."""

    DEFAULT_CSS = """
    #chooser-filter { width: 30; }
    #chooser-bar { height: 1; }
    #chooser-label { width: 8; padding: 0 0 0 1; color: $quiet; }
    #chooser-count { width: 1fr; text-align: right; padding: 0 1; color: $quiet; }
    """
    AUTO_FOCUS: ClassVar[str | None] = "#chooser-filter"
    FOOTER = ("take", "down", "back")

    def __init__(self, question: Question) -> None:
        super().__init__()
        self.place = question.place
        self._question = question
        self._options: Sequence[Option] = ()
        self._shown: Sequence[Option] = ()
        self._typed_ahead = ""

    def body(self) -> ComposeResult:
        with Horizontal(id="chooser-bar"):
            yield Static("Filter", id="chooser-label")
            yield Input(
                self._typed_ahead, placeholder="type any words", compact=True,
                select_on_focus=False, id="chooser-filter",
            )  # fmt: skip
            yield Static("Looking …", id="chooser-count", markup=False)
        yield VirtualList(self._question.columns, id="chooser")
        yield Static("", id="detail", classes="-tall", markup=False)

    def on_mount(self) -> None:
        super().on_mount()
        self.run_worker(self._look, thread=True, group="options")

    def _look(self) -> None:
        """What fits where takes a moment to find out; a file of labels/ may be at fault."""
        try:
            found = self._question.options()
        except SeedboxError as error:
            found = ()
            self.app.call_from_thread(self.seedbox.complain, error)
        if self.app.is_running:
            self.app.call_from_thread(self._show, found)

    def _show(self, found: Sequence[Option]) -> None:
        if not self.is_mounted:
            return
        self._options = found
        self._select(self.query_one(Input).value)
        values = [one.value for one in self._shown]
        if self._question.current in values:
            self._list.move_to(values.index(self._question.current))

    @property
    def _list(self) -> VirtualList:
        return self.query_one(VirtualList)

    def _select(self, text: str) -> None:
        words = search_key(text).split()
        self._shown = [
            one
            for one in self._options
            if all(word in search_key(" ".join((*one.row, one.words))) for word in words)
        ]
        self._list.show_rows([one.row for one in self._shown], 0)
        count = f"{len(self._shown)} of {len(self._options)}"
        self.query_one("#chooser-count", Static).update(Content(count))
        self._tell()

    def _here(self) -> Option | None:
        place = self._list.cursor
        return self._shown[place] if place < len(self._shown) else None

    def _tell(self) -> None:
        here = self._here()
        if here is not None:
            words = here.words
        else:
            words = "Nothing has these words." if self._options else ""
            words += f" {self._question.own}"
        self.query_one("#detail", Static).update(Content(plain(words)))

    def on_key(self, event: events.Key) -> None:
        """Keys typed right behind the one that opened the list may come before its field is there:
        they are meant for it, and not for the tabs.
        """
        if event.character and event.is_printable:
            self._typed_ahead += event.character
            for box in self.query(Input):
                box.value += event.character
                box.cursor_position = len(box.value)
            event.stop()
            event.prevent_default()

    @on(VirtualList.Moved)
    def _moved(self) -> None:
        self._tell()

    @on(VirtualList.Chosen)
    def _chosen(self) -> None:
        self.action_take()

    @on(Input.Changed)
    def _typed(self, event: Input.Changed) -> None:
        self._select(event.value)

    @on(Input.Submitted)
    def _entered(self, event: Input.Submitted) -> None:
        event.stop()
        self.action_take()

    @action("enter", "Take it", "Take the highlighted line.", footer=True)
    def action_take(self) -> None:
        typed = self.query_one(Input).value.strip()
        here = self._here()
        if self._question.own and typed.lower().endswith(".toml"):
            value = typed
        elif here is not None:
            value = here.value
        else:
            return
        problem = self._question.take(value)
        if problem:
            self.say(problem, wrong=True)
        else:
            self.leave()

    @action("down", "Next line", "One line down; PgDn a screenful.", footer=True, palette=False)
    def action_down(self) -> None:
        self._list.move_by(1)

    @action("up", "Line before", "One line up; PgUp a screenful.", palette=False)
    def action_up(self) -> None:
        self._list.move_by(-1)

    @action("pagedown", "Page down", "A screenful down.", palette=False)
    def action_page_down(self) -> None:
        self._list.move_by(self._list.page)

    @action("pageup", "Page up", "A screenful up.", palette=False)
    def action_page_up(self) -> None:
        self._list.move_by(-self._list.page)

    @action("escape", "Back", "Leave it as it was.", footer=True)
    def action_back(self) -> None:
        self.leave()
