"""Every key and what it does, made from the actions themselves."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.widgets import Static

from seedbox.tui.actions import Action, action, actions_of
from seedbox.tui.cells import wrapped
from seedbox.tui.form import Form
from seedbox.tui.page import Page
from seedbox.tui.text_lines import Line, content, heading, paragraph
from seedbox.tui.virtual_list import VirtualList

KEYS_WIDTH, TEXT_WIDTH = 16, 56
WORDS = (
    ("sow", "good enough to sow as usual"),
    ("sow thick", "below the standard: sow more seeds in each place"),
    ("use up", "good now, probably not in a year: sow it this season"),
    ("test", "nobody can tell: lay some seeds on damp paper first"),
    ("spent", "hardly any will come up"),
)
CODES = (
    "Scan a code, or type it after c (or p for a packet), on any screen, and Seedbox goes to"
    " what it names. In the list, a filter may hold several words; each may stand anywhere:"
    " crop in British or American English, variety, store, source, tag, note, advice."
)


class HelpScreen(Page):
    """Help for the page from which it was opened."""

    place = "Help"
    AUTO_FOCUS: ClassVar[str | None] = "#help"
    FOOTER = ("back", "scroll_down", "scroll_up", "quit")

    def __init__(self, page: Page | None) -> None:
        super().__init__()
        self._page = page

    def body(self) -> ComposeResult:
        with VerticalScroll(id="help", classes="page-body"):
            yield Static(content(self._lines()), markup=False)

    def _lines(self) -> list[Line]:
        lines: list[Line] = []
        if self._page is not None:
            lines += _section(
                f"On this screen: {self._page.place or 'packet'}", self._page.own_actions()
            )
            if self._page.query(VirtualList):
                lines += _section("In a list", actions_of(VirtualList))
        lines += _section("Everywhere", self.seedbox.own_actions())
        lines += _section("In a form", actions_of(Form))
        lines += heading("What the advice means")
        lines += [[(f"{word:<{KEYS_WIDTH}}", "bold"), (meaning, "")] for word, meaning in WORDS]
        lines += heading("Codes and filters")
        lines += paragraph(CODES, 74)
        return lines[1:]

    @action("escape,b", "Back", "Back to where you were.", footer=True)
    def action_back(self) -> None:
        self.leave()

    @action("j,down", "Down", "Scroll down.", footer=True, palette=False)
    def action_scroll_down(self) -> None:
        self.query_one("#help").scroll_relative(y=2, animate=False)

    @action("k,up", "Up", "Scroll up.", footer=True, palette=False)
    def action_scroll_up(self) -> None:
        self.query_one("#help").scroll_relative(y=-2, animate=False)


def _section(title: str, actions: Iterable[Action]) -> list[Line]:
    rows: list[Line] = []
    for known in actions:
        if known.keys:
            first, *rest = wrapped(known.help, TEXT_WIDTH)
            rows.append([(f"{known.key_words:<{KEYS_WIDTH}}", "bold $footer-key"), (first, "")])
            rows += [[(" " * KEYS_WIDTH + line, "")] for line in rest]
    return [*heading(title), *rows] if rows else []
