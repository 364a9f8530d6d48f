"""The fixed lines of every screen: title, and keys that matter now."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events
from textual.content import Content
from textual.widget import Widget

from seedbox.tui.actions import Action
from seedbox.tui.cells import fit, plain, width_of


class TitleBar(Widget):
    """Where you are on the left; the tin and the day on the right."""

    def __init__(self) -> None:
        super().__init__(id="title-bar")
        self._left, self._right = "", ""

    def say(self, left: str, right: str) -> None:
        if (left, right) != (self._left, self._right):
            self._left, self._right = left, right
            self.refresh()

    def render(self) -> Content:
        room = self.size.width - width_of(self._right) - 2
        left = fit(self._left, max(0, room)) if room > 8 else fit(self._left, self.size.width)
        right = plain(self._right) if room > 8 else ""
        return Content.assemble((left, "bold"), "  ", (right, "$quiet"))


class KeyBar(Widget):
    """Three to five keys that matter now, as `key label`, cut at the width there is."""

    def __init__(self) -> None:
        super().__init__(id="key-bar")
        self._shown: tuple[Action, ...] = ()

    def show(self, actions: Sequence[Action]) -> None:
        if tuple(actions) != self._shown:
            self._shown = tuple(actions)
            self.refresh()

    def _fitting(self) -> list[Action]:
        room, fitting = self.size.width - 1, []
        for known in self._shown:
            room -= width_of(known.first_key) + 1 + width_of(known.label) + 2
            if room < 0:
                break
            fitting.append(known)
        return fitting

    def render(self) -> Content:
        parts: list[tuple[str, str]] = [(" ", "")]
        for known in self._fitting():
            parts += [(known.first_key, "bold $footer-key"), (f" {known.label}  ", "$quiet")]
        return Content.assemble(*parts)

    def on_click(self, event: events.Click) -> None:
        place = 1
        for known in self._fitting():
            place += width_of(known.first_key) + 1 + width_of(known.label) + 2
            if event.x < place:
                self.screen.call_later(self.app.run_action, known.name, self.screen)
                return
