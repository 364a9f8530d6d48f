"""What a page says only when there is something to say."""

from __future__ import annotations

from textual import events
from textual.content import Content
from textual.timer import Timer
from textual.widgets import Static

from seedbox.tui.cells import plain

STAYS_SECONDS = 12.0


class Notice(Static):
    """One sentence above the keys: what was done, or what went wrong and what to do."""

    def __init__(self) -> None:
        super().__init__("", id="notice", markup=False)
        self._timer: Timer | None = None

    def say(self, sentence: str, *, wrong: bool = False) -> None:
        self.set_class(wrong, "-wrong")
        self.set_class(bool(sentence), "-said")
        self.update(Content(plain(("! " if wrong else "") + sentence)))
        if self._timer is not None:
            self._timer.stop()
        self._timer = None if wrong or not sentence else self.set_timer(STAYS_SECONDS, self._go)

    def _go(self) -> None:
        self.say("")

    def on_click(self, event: events.Click) -> None:
        self.say("")


class TooSmall(Static):
    """Covers the screen when the window is smaller than anything can be read in."""

    def __init__(self) -> None:
        super().__init__("", id="too-small", markup=False)

    def measure(self, width: int, height: int, least: str) -> None:
        """Say how large the window is, and how large it must be at `least`."""
        self.update(
            Content(
                f"This window is {width} by {height} characters. Seedbox needs {least}: make it"
                " larger, or use the commands (seedbox --help). q quits."
            )
        )
