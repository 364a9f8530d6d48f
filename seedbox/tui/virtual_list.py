"""A list drawn one line at a time: 100,000 rows cost no more than the lines on the screen."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.geometry import Region, Size
from textual.message import Message
from textual.scroll_view import ScrollView
from textual.strip import Strip

from seedbox.tui.actions import HasActions, action
from seedbox.tui.cells import fit
from seedbox.tui.columns import GAP, Column, Placed, lay_out

Row = tuple[str, ...]
MARK_WIDTH = 2


class VirtualList(HasActions, ScrollView, can_focus=True, inherit_bindings=False):
    """Rows are plain tuples of text, a text for each column; `tint` names a style for a cell."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "list--row",
        "list--head",
        "list--cursor",
        "list--cursor-blurred",
        "list--mark",
        "list--quiet",
        "list--good",
        "list--thick",
        "list--warn",
        "list--bad",
    }

    class Moved(Message):
        """The highlighted row changed."""

    class Chosen(Message):
        """A row was chosen by Enter or a click on the highlighted row."""

    def __init__(
        self,
        columns: Sequence[Column],
        *,
        tint: Callable[[str, str], str] = lambda key, text: "",
        id: str | None = None,
    ) -> None:
        super().__init__(id=id)
        self._columns = tuple(columns)
        self._tint = tint
        self._rows: Sequence[Row] = ()
        self._marked: Callable[[int], bool] = lambda index: False
        self._strips: dict[tuple[object, ...], Strip] = {}
        self._placed: tuple[Placed, ...] = ()
        self.cursor = 0

    @property
    def row_count(self) -> int:
        return len(self._rows)

    @property
    def row_at_cursor(self) -> Row:
        """The highlighted row; empty when there is none."""
        return self._rows[self.cursor] if self._rows else ()

    def show_rows(
        self,
        rows: Sequence[Row],
        cursor: int = 0,
        marked: Callable[[int], bool] | None = None,
    ) -> None:
        """Replace all rows; the cursor goes to row number `cursor` or the nearest there is."""
        self._rows = rows
        if marked is not None:
            self._marked = marked
        self.virtual_size = Size(0, len(rows) + 1)
        self.move_to(cursor)
        self.refresh()

    def move_to(self, index: int) -> None:
        """Highlight a row and scroll it into view."""
        self.cursor = max(0, min(index, len(self._rows) - 1))
        # The header takes the first line of the window, so the list scrolls in what is left.
        self.scroll_to_region(
            Region(0, self.cursor, 1, 2), animate=False, force=True, x_axis=False, immediate=True
        )
        self.refresh()
        self.post_message(self.Moved())

    def move_by(self, rows: int) -> None:
        self.move_to(self.cursor + rows)

    @property
    def page(self) -> int:
        """Rows that are seen at once."""
        return max(1, self.scrollable_content_region.height - 1)

    @action("enter", "Choose", "Open the highlighted line.", palette=False)
    def action_choose(self) -> None:
        self.post_message(self.Chosen())

    @action("down,j", "Down", "One line down.", palette=False)
    def action_down(self) -> None:
        self.move_by(1)

    @action("up,k", "Up", "One line up.", palette=False)
    def action_up(self) -> None:
        self.move_by(-1)

    @action("pagedown", "Page down", "A screenful down.", palette=False)
    def action_page_down(self) -> None:
        self.move_by(self.page)

    @action("pageup", "Page up", "A screenful up.", palette=False)
    def action_page_up(self) -> None:
        self.move_by(-self.page)

    @action("g,home", "First", "To the first line.", palette=False)
    def action_first(self) -> None:
        self.move_to(0)

    @action("G,end", "Last", "To the last line.", palette=False)
    def action_last(self) -> None:
        self.move_to(self.row_count - 1)

    def notify_style_update(self) -> None:
        super().notify_style_update()
        self._strips.clear()

    def on_resize(self, event: events.Resize) -> None:
        self._strips.clear()
        if self._rows:
            self.move_to(self.cursor)

    def on_focus(self) -> None:
        self.refresh()

    def on_blur(self) -> None:
        self.refresh()

    def on_click(self, event: events.Click) -> None:
        index = event.y + self.scroll_offset.y - 1
        if event.y < 1 or index >= len(self._rows):
            return
        again = index == self.cursor
        self.move_to(index)
        if again:
            self.post_message(self.Chosen())

    def render_line(self, y: int) -> Strip:
        width = self.scrollable_content_region.width
        if not self._placed or self._strips.get(("width",)) is None:
            self._place(width)
        if y == 0:
            return self._head(width)
        index = y - 1 + self.scroll_offset.y
        if index >= len(self._rows):
            return Strip.blank(width, self.get_component_rich_style("list--row"))
        return self._line(index, width)

    def _place(self, width: int) -> None:
        self._placed = lay_out(self._columns, width - MARK_WIDTH)
        self._strips[("width",)] = Strip.blank(0)

    def _line(self, index: int, width: int) -> Strip:
        row = self._rows[index]
        at_cursor = index == self.cursor
        marked = self._marked(index)
        key = (row, at_cursor and (2 if self.has_focus else 1), marked)
        strip = self._strips.get(key)
        if strip is None:
            strip = self._draw(row, width, at_cursor=at_cursor, marked=marked)
            self._strips[key] = strip
        return strip

    def _row_style(self, *, at_cursor: bool) -> Style:
        if not at_cursor:
            return self.get_component_rich_style("list--row")
        name = "list--cursor" if self.has_focus else "list--cursor-blurred"
        return self.get_component_rich_style(name)

    def _draw(self, row: Row, width: int, *, at_cursor: bool, marked: bool) -> Strip:
        base = self._row_style(at_cursor=at_cursor)
        mark = (">" if at_cursor else " ") + ("*" if marked else " ")
        mark_style = self.get_component_rich_style("list--mark", partial=True)
        parts = [Segment(mark, base if at_cursor else base + mark_style)]
        for number, placed in enumerate(self._placed):
            text = fit(row[placed.index], placed.width, right=placed.column.right)
            tint = self._tint(placed.column.key, row[placed.index])
            style = base
            if tint and not at_cursor:
                style = base + self.get_component_rich_style(f"list--{tint}", partial=True)
            parts.append(Segment((" " * GAP if number else "") + text, style))
        return Strip(parts).adjust_cell_length(width, base)

    def _head(self, width: int) -> Strip:
        style = self.get_component_rich_style("list--head")
        titles = (fit(p.column.title, p.width, right=p.column.right) for p in self._placed)
        text = " " * MARK_WIDTH + (" " * GAP).join(titles)
        return Strip([Segment(text, style)]).adjust_cell_length(width, style)
