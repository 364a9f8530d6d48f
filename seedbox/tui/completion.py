"""Names offered below a field while it is typed in."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from textual import events
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input

from seedbox.tui.cells import fit, path_end, plain

Suggest = Callable[[str], Sequence[tuple[str, str]]]
"""From what was typed to (text that the field takes, remark beside it)."""

MOST = 6


class NameInput(Input):
    """An input whose keys go to the offers below it while there are any."""

    completion: Completion | None = None

    def on_key(self, event: events.Key) -> None:
        if self.completion is not None and self.completion.takes_key(event.key):
            event.stop()
            event.prevent_default()


class Completion(Widget):
    """Watches an input; Down and Up choose, Enter or Tab takes the name into the field."""

    def __init__(self, target: NameInput, suggest: Suggest) -> None:
        super().__init__(classes="completion")
        self._target, self._suggest = target, suggest
        self._offers: Sequence[tuple[str, str]] = ()
        self._at = 0
        self._taken = target.value
        self.display = False

    def on_mount(self) -> None:
        self.watch(self._target, "value", self._typed, init=False)
        self.watch(self._target, "has_focus", self._focus_changed, init=False)
        self._target.completion = self

    def _typed(self, text: str) -> None:
        if text == self._taken or not text.strip():
            self._close()
            return
        self._offers = self._suggest(text)[:MOST]
        self._at = 0
        self.display = bool(self._offers) and self._target.has_focus
        self.refresh(layout=True)

    def _focus_changed(self, focused: bool) -> None:
        if not focused:
            self._close()

    def _close(self) -> None:
        self._offers, self.display = (), False

    def takes_key(self, key: str) -> bool:
        """Use a key for the offers; False leaves it to the input."""
        if not self.display:
            return False
        if key in ("down", "up"):
            self._at = (self._at + (1 if key == "down" else -1)) % len(self._offers)
            self.refresh()
        elif key in ("enter", "tab"):
            self._take(self._offers[self._at][0])
        elif key == "escape":
            self._taken = self._target.value
            self._close()
        else:
            return False
        return True

    def _take(self, name: str) -> None:
        self._taken = name
        self._target.value = name
        self._target.cursor_position = len(name)
        self._close()
        self.screen.focus_next(".control")

    def get_content_height(self, *args: object) -> int:
        return len(self._offers)

    def render(self) -> Content:
        parts: list[tuple[str, str] | str] = []
        for number, (name, remark) in enumerate(self._offers):
            here = number == self._at
            style = "$cursor-fore on $cursor-back bold" if here else ""
            mark = "> " if here else "  "
            told = f"  ({plain(remark)})" if remark else ""
            shown = mark + path_end(name, self.size.width - len(mark) - len(told)) + told
            parts += [(fit(shown, self.size.width), style), "\n"]
        return Content.assemble(*parts[:-1])

    def on_click(self, event: events.Click) -> None:
        if event.y < len(self._offers):
            self._take(self._offers[event.y][0])
