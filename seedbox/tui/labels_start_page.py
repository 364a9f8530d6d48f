"""Choose the first free label on a drawn sheet, part of which was used before."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, ClassVar

from textual import events
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.geometry import Region
from textual.widgets import Static

from seedbox.tui.actions import action
from seedbox.tui.cells import plain
from seedbox.tui.labels_sheet_drawing import (
    LEGEND,
    drawn_sheet,
    grid_for,
    position_at,
    position_words,
)
from seedbox.tui.page import Page
from seedbox.tui.text_lines import content

if TYPE_CHECKING:
    from seedbox.printing.sheets import Sheet


class SheetScroll(VerticalScroll, inherit_bindings=False):
    """A page of many rows scrolls; the arrow keys move on the sheet."""


class DrawnSheet(Static):
    """A click on a label chooses it; another on the same takes it."""

    def on_click(self, event: events.Click) -> None:
        if isinstance(self.screen, StartPage):
            self.screen.clicked(event.x, event.y)


class StartPage(Page):
    """`chosen` is called with the label that Enter took."""

    DEFAULT_CSS = """
    #start-words { height: 2; padding: 0 1; background: $surface; }
    #start-sheet { height: 1fr; padding: 0 1; scrollbar-size-vertical: 1; }
    #start-sheet > Static { height: auto; width: auto; }
    """
    place = "Labels · First free label"
    AUTO_FOCUS: ClassVar[str | None] = "#start-sheet"
    FOOTER = ("take", "back", "help_keys")

    def __init__(self, sheet: Sheet, start: int, labels: int, chosen: Callable[[int], None]):
        super().__init__()
        self._sheet, self.start, self._labels, self._chosen = sheet, start, labels, chosen

    def body(self) -> ComposeResult:
        yield Static(f" {LEGEND}", id="summary", markup=False)
        with SheetScroll(id="start-sheet"):
            yield DrawnSheet("", id="drawn-sheet", markup=False)
        yield Static("", id="start-words", markup=False)

    def on_mount(self) -> None:
        super().on_mount()
        self._draw()

    def on_resize(self, event: events.Resize) -> None:
        super().on_resize(event)
        self._draw()

    @property
    def _room(self) -> tuple[int, int]:
        """Columns and rows for the sheet: all but two lines above and three below."""
        return max(20, self.app.size.width - 3), max(4, self.app.size.height - 5)

    def _draw(self) -> None:
        grid = grid_for(self._sheet, self._room)
        lines = drawn_sheet(self._sheet, grid, self.start, self._labels)
        self.query_one("#drawn-sheet", Static).update(content(lines))
        words = position_words(self._sheet, self.start, self._labels)
        self.query_one("#start-words", Static).update(
            Content(plain(f"{self._sheet.name}. {words}"))
        )
        row = (self.start - 1) // self._sheet.columns
        here = Region(0, row * grid.rows, 1, grid.rows)
        self.query_one("#start-sheet").scroll_to_region(here, animate=False, force=True)

    def _to(self, start: int) -> None:
        if 1 <= start <= self._sheet.count:
            self.start = start
            self._draw()

    def clicked(self, column: int, line: int) -> None:
        """The drawing was clicked on at this character."""
        position = position_at(self._sheet, grid_for(self._sheet, self._room), column, line)
        if position == self.start:
            self.action_take()
        elif position:
            self._to(position)

    @action("enter", "Take it", "Begin with this label; those before it are used.", footer=True)
    def action_take(self) -> None:
        self.leave()
        self._chosen(self.start)

    @action("right", "Right", "The next label.", palette=False)
    def action_right(self) -> None:
        self._to(self.start + 1)

    @action("left", "Left", "The label before.", palette=False)
    def action_left(self) -> None:
        self._to(self.start - 1)

    @action("down,j", "Down", "The label below.", palette=False)
    def action_down(self) -> None:
        self._to(self.start + self._sheet.columns)

    @action("up,k", "Up", "The label above.", palette=False)
    def action_up(self) -> None:
        self._to(self.start - self._sheet.columns)

    @action("g,home", "First", "The first label: a fresh sheet.", palette=False)
    def action_first(self) -> None:
        self._to(1)

    @action("G,end", "Last", "The last label of the sheet.", palette=False)
    def action_last(self) -> None:
        self._to(self._sheet.count)

    @action("escape,b", "Back", "Leave it as it was.", footer=True)
    def action_back(self) -> None:
        self.leave()
