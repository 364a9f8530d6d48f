"""One sowing: how it was sown, its jobs and why, what happened to it."""

from __future__ import annotations

from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.widgets import Static

from seedbox.errors import NotFoundError, SeedboxError
from seedbox.season.sowing.desk import Desk as Season
from seedbox.tin.codes import shown
from seedbox.tui.actions import action
from seedbox.tui.scrolling_page import ScrollingPage
from seedbox.tui.sowing_actions import SowingActions
from seedbox.tui.sowing_text import sowing_lines
from seedbox.tui.sowings_reading import Standing, read_sowing
from seedbox.tui.text_lines import content


class SowingPage(SowingActions, ScrollingPage):
    """Shows the sowing with this code."""

    SCROLLED: ClassVar[str] = "#sowing"
    place = "sowing"
    AUTO_FOCUS: ClassVar[str | None] = "#sowing"
    FOOTER = ("back", "done", "put_off", "skip", "resow", "write_down", "help_keys")

    def __init__(self, code: str) -> None:
        super().__init__()
        self.code = code
        self._found: tuple[Season, Standing] | None = None

    def body(self) -> ComposeResult:
        with VerticalScroll(id="sowing", classes="page-body"):
            yield Static("", id="sowing-text", markup=False)

    def title_words(self) -> str:
        return f" Seedbox · Sowings · {shown(self.code)}"

    def on_mount(self) -> None:
        super().on_mount()
        self.reload()

    def show_sowing(self, code: str) -> None:
        """Show another sowing on the same page."""
        self.code = code
        self.query_one("#sowing").scroll_home(animate=False)
        self.reload()

    def standing_here(self) -> Standing | None:
        return self._found[1] if self._found else None

    def reload(self) -> None:
        desk = self.seedbox.desk
        try:
            self._found = read_sowing(desk.tin(), self.code, desk.today)
        except NotFoundError as error:
            self._gone(error)
        except SeedboxError as error:
            self.seedbox.complain(error)
        self._draw()
        self.refresh_bars()

    def _gone(self, error: NotFoundError) -> None:
        """The sowing is no longer there: it was undone, or struck out."""
        self._found = None
        self.leave()
        self.app.call_later(self.seedbox.say, error.sentence)

    def on_resize(self, event: events.Resize) -> None:
        super().on_resize(event)
        self._draw()

    def _draw(self) -> None:
        if self._found is not None:
            width = max(40, self.app.size.width - 6)
            self.query_one("#sowing-text", Static).update(
                content(sowing_lines(*self._found, width))
            )

    @action("escape,b", "Back", "Back to where you were.", footer=True)
    def action_back(self) -> None:
        self.leave()
