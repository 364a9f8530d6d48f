"""What was done to the tin, latest first."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult

from seedbox.errors import SeedboxError
from seedbox.tin.records import Change
from seedbox.tui.actions import action
from seedbox.tui.columns import Column
from seedbox.tui.page import Page
from seedbox.tui.virtual_list import Row, VirtualList

COLUMNS = (
    Column("when", "When", 16),
    Column("label", "What was done", 30, most=120),
    Column("state", "State", 24),
)
STATES = {"done": "", "undone": "undone, U redoes it", "dropped": "undone for good"}
MOST = 1000


class HistoryScreen(Page):
    """The list of changes; u and U work here as everywhere."""

    place = "History"
    AUTO_FOCUS: ClassVar[str | None] = "#history"

    def body(self) -> ComposeResult:
        yield VirtualList(COLUMNS, tint=_tint, id="history")

    def on_mount(self) -> None:
        super().on_mount()
        self.reload()

    def reload(self) -> None:
        desk = self.seedbox.desk
        try:
            changes = desk.tin().history(MOST) if desk.exists else []
        except SeedboxError as error:
            self.seedbox.complain(error)
            return
        history = self.query_one(VirtualList)
        history.show_rows([_row(change) for change in changes], history.cursor)
        if not changes:
            self.say("Nothing was changed in this tin yet.")

    @action("u", "Undo", "Take the latest change back.", footer=True)
    def action_undo(self) -> None:
        self.seedbox.action_undo()

    @action("U,ctrl+r", "Redo", "Do again what was undone last.", footer=True)
    def action_redo(self) -> None:
        self.seedbox.action_redo()

    @action("escape,b", "Back", "Back to where you were.", footer=True)
    def action_back(self) -> None:
        self.leave()


def _row(change: Change) -> Row:
    return (f"{change.made_at:%Y-%m-%d %H:%M}", change.label, STATES[change.state])


def _tint(key: str, text: str) -> str:
    return "quiet" if key in ("when", "state") else ""
