"""Keys for a page that is read from top to bottom."""

from __future__ import annotations

from typing import ClassVar

from textual.widget import Widget

from seedbox.tui.actions import action
from seedbox.tui.page import Page


class ScrollingPage(Page):
    """A page whose text lies in one widget that scrolls: `SCROLLED` is its selector."""

    SCROLLED: ClassVar[str]

    @property
    def _scrolled(self) -> Widget:
        return self.query_one(self.SCROLLED)

    @action("j,down", "Down", "Scroll down.", palette=False)
    def action_scroll_down(self) -> None:
        self._scrolled.scroll_relative(y=2, animate=False)

    @action("k,up", "Up", "Scroll up.", palette=False)
    def action_scroll_up(self) -> None:
        self._scrolled.scroll_relative(y=-2, animate=False)

    @action("g", "Top", "To the top of the page.", palette=False)
    def action_top(self) -> None:
        self._scrolled.scroll_home(animate=False)

    @action("G", "End", "To the end of the page.", palette=False)
    def action_end(self) -> None:
        self._scrolled.scroll_end(animate=False)
