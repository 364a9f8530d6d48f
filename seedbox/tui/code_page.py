"""A page about one thing that has a code: read it, draw it, leave when it is gone."""

from __future__ import annotations

from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.widgets import Static

from seedbox.errors import NotFoundError, SeedboxError
from seedbox.tui.actions import action
from seedbox.tui.scrolling_page import ScrollingPage
from seedbox.tui.text_lines import Line, content

_LEAST_WIDTH, _MARGIN = 40, 6


class CodePage(ScrollingPage):
    """Shows the thing with this code; what it says scrolls when it is taller than the window.

    A subclass reads it (`read`), says it in lines (`lines`) and forgets it (`forget`).
    """

    SCROLLED: ClassVar[str]

    def __init__(self, code: str) -> None:
        super().__init__()
        self.code = code

    def body(self) -> ComposeResult:
        name = self.SCROLLED.removeprefix("#")
        with VerticalScroll(id=name, classes="page-body"):
            yield Static("", id=f"{name}-text", markup=False)

    def on_mount(self) -> None:
        super().on_mount()
        self.reload()

    def read(self) -> None:
        """Read the thing from the tin; raises NotFoundError where it is no longer there."""
        raise NotImplementedError

    def forget(self) -> None:
        """Nothing is shown from now on."""
        raise NotImplementedError

    def lines(self, width: int) -> list[Line]:
        """What is said of it; nothing where it could not be read."""
        raise NotImplementedError

    def show_code(self, code: str) -> None:
        """Show another thing of the kind on the same page."""
        self.code = code
        self.query_one(self.SCROLLED).scroll_home(animate=False)
        self.reload()

    def reload(self) -> None:
        try:
            self.read()
        except NotFoundError as error:
            self._gone(error)
        except SeedboxError as error:
            self.seedbox.complain(error)
        self._draw()
        self.refresh_bars()

    def _gone(self, error: NotFoundError) -> None:
        """Its making was undone, or it was taken out of the tin."""
        self.forget()
        self.leave()
        self.app.call_later(self.seedbox.say, error.sentence)

    def on_resize(self, event: events.Resize) -> None:
        super().on_resize(event)
        self._draw()

    def _draw(self) -> None:
        lines = self.lines(max(_LEAST_WIDTH, self.app.size.width - _MARGIN))
        if lines:
            self.query_one(f"{self.SCROLLED}-text", Static).update(content(lines))

    @action("escape,b", "Back", "Back to where you were.", footer=True)
    def action_back(self) -> None:
        self.leave()
