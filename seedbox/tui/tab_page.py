"""A page that is a tab, and the line that names all tabs."""

from __future__ import annotations

from collections.abc import Iterator

from textual import events
from textual.content import Content
from textual.widgets import Static

from seedbox.tui.bars import TitleBar
from seedbox.tui.cells import fit, width_of, wrapped
from seedbox.tui.page import Page
from seedbox.tui.tabs import TABS


class TabBar(TitleBar):
    """All tabs, the open one in brackets and reverse; the tin and the day on the right."""

    def __init__(self) -> None:
        super().__init__()
        self._notes: dict[str, str] = {}

    def note(self, notes: dict[str, str]) -> None:
        """What stands behind the names of tabs, such as how much is due."""
        if notes != self._notes:
            self._notes = dict(notes)
            self.refresh()

    def _words(self) -> list[tuple[str, str, bool]]:
        """Name, text in the line, and whether it is open: as roomy as the day beside it allows."""
        noted = [each.name + f" {self._notes.get(each.name, '')}".rstrip() for each in TABS]
        plain = [each.name for each in TABS]
        room = self.size.width - width_of(self._day)
        for texts, gap in ((noted, " "), (noted, ""), (plain, "")):
            words = list(self._spaced(texts, gap))
            if sum(width_of(text) for _, text, _ in words) <= room:
                break
        return words

    def _spaced(self, texts: list[str], gap: str) -> Iterator[tuple[str, str, bool]]:
        """With a space on both sides of each name, or one between two; brackets in their place."""
        before_open = False
        for each, text in zip(TABS, texts, strict=True):
            is_open = each.name == self._left
            words = f"{each.key} {text}"
            if is_open:
                yield each.name, f"[{words}]", True
            else:
                yield each.name, f"{gap or ' ' * (not before_open)}{words}{gap}", False
            before_open = is_open

    def render(self) -> Content:
        parts = [(text, "bold reverse" if is_open else "") for _, text, is_open in self._words()]
        room = self.size.width - sum(width_of(text) for text, _ in parts)
        return Content.assemble(*parts, (fit(self._right_words(room), room, right=True), "$quiet"))

    def _right_words(self, room: int) -> str:
        """Tin and day; where they do not fit the day alone, or nothing."""
        fitting = (words for words in (self._right, self._day) if width_of(words) <= room)
        return next(fitting, "")

    @property
    def _day(self) -> str:
        return self._right.rpartition("· ")[2]

    def on_click(self, event: events.Click) -> None:
        place = 0
        for name, text, _ in self._words():
            place += width_of(text)
            if event.x < place:
                self.app.call_later(self.app.run_action, f"show_tab('{name}')", self.app)
                return


class TabPage(Page):
    """A page that stays when another tab is opened. `place` is the tab's name."""

    _detail = ""

    def top(self) -> TitleBar:
        return TabBar()

    def title_words(self) -> str:
        return self.place

    def refresh_bars(self) -> None:
        super().refresh_bars()
        for bar in self.query(TabBar):
            bar.note(self.seedbox.tab_notes)

    def show_detail(self, words: str) -> None:
        """Say something of the highlighted line below the list; units stay with their numbers."""
        self._detail = words
        lines = wrapped(words, max(20, self.app.size.width - 2))
        self.query_one("#detail", Static).update(Content("\n".join(lines)))

    def on_resize(self, event: events.Resize) -> None:
        super().on_resize(event)
        if self._detail:
            self.show_detail(self._detail)
