"""Asks for a code and goes to what it names."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import Input, Static

from seedbox.errors import SeedboxError
from seedbox.tui.actions import action, actions_of
from seedbox.tui.bars import KeyBar
from seedbox.tui.cells import plain
from seedbox.tui.sheet import Sheet


class CodePrompt(Sheet):
    """One field. Capitals, spaces and dashes do not matter; I, L and O are read as 1, 1, 0."""

    def __init__(self, start: str) -> None:
        super().__init__()
        self._start = start

    def compose(self) -> ComposeResult:
        with Vertical(id="form"):
            yield Static("Go to a code", id="form-title")
            yield Static(
                "The eight characters on a label, or a shop's number. Or scan it: P4K7 QMX2.",
                id="form-advice",
                markup=False,
            )
            field = Input(self._start, compact=True, select_on_focus=False, id="code")
            field.add_class("control")
            yield field
            yield Static("", id="form-problem", markup=False)
            yield KeyBar()

    def on_mount(self) -> None:
        field = self.query_one("#code", Input)
        field.focus()
        field.cursor_position = len(self._start)
        self.query_one(KeyBar).show([a for a in actions_of(type(self)) if a.footer])

    @on(Input.Submitted)
    def _go(self, event: Input.Submitted) -> None:
        event.stop()
        self.action_go()

    @action("enter", "Go", "Go to what the code names.", footer=True, palette=False)
    def action_go(self) -> None:
        from seedbox.tui.code_jump import named

        text = self.query_one("#code", Input).value
        try:
            named(self.seedbox.desk.tin(), text)
        except SeedboxError as error:
            sentence = f"! {error.sentence} {error.hint}".strip()
            self.query_one("#form-problem", Static).update(Content(plain(sentence)))
            return
        self.leave()
        self.app.call_later(self.seedbox.jump, text)

    @action("escape", "Back", "Go back without looking a code up.", footer=True, palette=False)
    def action_back(self) -> None:
        self.leave()
