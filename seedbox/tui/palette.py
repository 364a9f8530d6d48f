"""The palette finds our own actions by any word of their name or sentence."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from typing import Any, cast

from textual.app import App
from textual.command import CommandList, CommandPalette, DiscoveryHit, Hit, Hits, Provider
from textual.content import Content

from seedbox.tui.actions import Action
from seedbox.tui.page import Page
from seedbox.tui.sheet import Sheet


def open_palette(app: App[Any]) -> None:
    """Put the palette over the screen, unless it is open already."""
    if not CommandPalette.is_open(app):
        app.push_screen(Palette(placeholder="What do you want to do?", id="--command-palette"))


class Palette(CommandPalette):
    """The framework's palette, but for turning pages in a list that shows nothing: it stumbles."""

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action == "command_list":
            found = self.query_one(CommandList)
            return bool(found.option_count and found.size.height and found.size.width)
        return super().check_action(action, parameters)


class ActionProvider(Provider):
    """Offers what can be done on the screen from which the palette was opened."""

    def _actions(self) -> Iterator[Action]:
        screen = self.screen
        if isinstance(screen, Page | Sheet):
            yield from (a for a in screen.possible_actions() if a.palette)

    def _run(self, known: Action) -> Callable[[], object]:
        screen = self.screen
        target = screen if hasattr(screen, known.method) else self.app
        return partial(self.app.run_action, known.name, cast("Page", target))

    async def discover(self) -> Hits:
        for known in self._actions():
            yield DiscoveryHit(
                Content(_title(known)), self._run(known), text=known.label, help=known.help
            )

    async def search(self, query: str) -> Hits:
        matcher = self.matcher(query)
        for known in self._actions():
            score = max(matcher.match(known.label), matcher.match(known.help) * 0.6)
            if score > 0:
                yield Hit(
                    score, Content(_title(known)), self._run(known), text=known.label,
                    help=known.help,
                )  # fmt: skip


def _title(known: Action) -> str:
    return f"{known.label}  [{known.key_words}]" if known.keys else known.label
