"""A field with a handful of fixed answers, on one line: arrows, Space or a first letter choose."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events
from textual.content import Content
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from seedbox.tui.cells import plain


class Choice(Widget, can_focus=True):
    """Shows the chosen answer between two arrows."""

    value: reactive[str] = reactive("")

    class Changed(Message):
        """Another answer was chosen."""

        def __init__(self, choice: Choice) -> None:
            super().__init__()
            self.choice = choice

    def __init__(self, options: Sequence[str], value: str = "", *, id: str | None = None) -> None:
        super().__init__(id=id)
        self.options = tuple(options)
        self.set_reactive(Choice.value, value if value in self.options else self.options[0])

    def render(self) -> Content:
        return Content.assemble(("‹ ", "$quiet"), plain(self.value), (" ›", "$quiet"))

    def watch_value(self) -> None:
        self.post_message(self.Changed(self))

    def choose_next(self, step: int = 1) -> None:
        place = self.options.index(self.value) + step
        self.value = self.options[place % len(self.options)]

    def on_click(self, event: events.Click) -> None:
        self.choose_next(-1 if event.x < 2 else 1)

    def on_key(self, event: events.Key) -> None:
        steps = {"left": -1, "right": 1, "space": 1}
        if event.key in steps:
            self.choose_next(steps[event.key])
        elif event.character and event.character.isalnum():
            self._jump(event.character.casefold())
        else:
            return
        event.stop()
        event.prevent_default()

    def _jump(self, letter: str) -> None:
        """To the next answer that begins with the letter."""
        here = self.options.index(self.value)
        around = self.options[here + 1 :] + self.options[: here + 1]
        self.value = next((o for o in around if o.casefold().startswith(letter)), self.value)
