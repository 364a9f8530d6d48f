"""Sowings: trays and rows in progress, what is next with each and how late it is."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from seedbox.errors import SeedboxError
from seedbox.tui.actions import action
from seedbox.tui.cells import plain
from seedbox.tui.sowing_actions import SowingActions
from seedbox.tui.sowing_rows import COLUMNS, detail, row, summary, tint
from seedbox.tui.sowings_reading import SowingsReading, Standing, read_sowings
from seedbox.tui.tab_page import TabPage
from seedbox.tui.tabs import TABS
from seedbox.tui.virtual_list import VirtualList

NONE_YET = "Nothing is sown yet. n shows what this tin can sow now, and sows it."
NOT_DESCRIBED = "The garden's frosts and places are not said yet."
ALL_OVER = "Nothing is in progress. n shows what can be sown now; a shows what is over."


class SowingsTab(TabPage, SowingActions):
    """The list, and what to do next with the highlighted sowing."""

    DEFAULT_CSS = "#sowing-detail { height: 3; padding: 0 1; background: $surface; }"
    place = "Sowings"
    AUTO_FOCUS: ClassVar[str | None] = "#sowings"
    FOOTER = ("open", "done", "put_off", "sow_now", "help_keys")

    def __init__(self) -> None:
        super().__init__()
        self._reading: SowingsReading | None = None
        self._with_over = False

    def body(self) -> ComposeResult:
        yield Static("", id="summary", markup=False)
        yield VirtualList(COLUMNS, tint=tint, id="sowings")
        yield Static("", id="sowing-detail", markup=False)

    def on_mount(self) -> None:
        super().on_mount()
        self.reload()

    @property
    def standings(self) -> tuple[Standing, ...]:
        """Those that are shown."""
        if self._reading is None:
            return ()
        every = self._reading.standings
        return every if self._with_over else tuple(one for one in every if one.in_progress)

    def standing_here(self) -> Standing | None:
        if not self.is_mounted:
            return None
        place = self.query_one(VirtualList).cursor
        shown = self.standings
        return shown[place] if place < len(shown) else None

    def codes_shown(self) -> list[str]:
        return [one.growing.sowing.code for one in self.standings]

    def reload(self) -> None:
        desk = self.seedbox.desk
        here = self.standing_here()
        try:
            self._reading = read_sowings(desk.tin(), desk.today) if desk.exists else None
        except SeedboxError as error:
            self.seedbox.complain(error)
            return
        self._show(here)

    def _show(self, here: Standing | None) -> None:
        """All lines again, the cursor on the sowing on which it was."""
        listed = self.query_one(VirtualList)
        shown = self.standings
        codes = [one.growing.sowing.code for one in shown]
        wanted = here.growing.sowing.code if here else ""
        place = codes.index(wanted) if wanted in codes else listed.cursor
        listed.show_rows([row(one) for one in shown], place)
        self.query_one("#summary", Static).update(Content(self._summary()))
        self._show_detail()
        self.refresh_bars()

    def _summary(self) -> str:
        every = self._reading.standings if self._reading else ()
        if not every:
            return f" {NONE_YET}"
        if not self.standings:
            return f" {ALL_OVER}"
        return summary(self.standings, len(every) - len(self.standings))

    def _show_detail(self) -> None:
        reading = self._reading
        words = detail(self.standing_here(), described=reading is None or reading.described)
        if reading is not None and not reading.described:
            words = f"{words or NOT_DESCRIBED} {where_to_describe()}"
        self.query_one("#sowing-detail", Static).update(Content(plain(words)))

    @on(VirtualList.Moved)
    def _moved(self) -> None:
        self._show_detail()
        self.refresh_bars()

    @on(VirtualList.Chosen)
    def _chosen(self) -> None:
        self.action_open()

    @action("enter", "Open", "Open the sowing: its jobs, why, what happened.", footer=True)
    def action_open(self) -> None:
        here = self.standing_here()
        if here is not None:
            self.seedbox.jump(here.growing.sowing.code)

    @action("n", "Sow now", "Show what this tin can sow now, and why not the rest.", footer=True)
    def action_sow_now(self) -> None:
        from seedbox.tui.sow_now_page import SowNowPage

        self.app.push_screen(SowNowPage())

    @action("a", "Show what is over", "Show sowings that ended or failed too, or hide them.")
    def action_with_over(self) -> None:
        here = self.standing_here()
        self._with_over = not self._with_over
        self._show(here)


def where_to_describe() -> str:
    """Which key opens the tab that asks for frosts and places."""
    keys = [each.key for each in TABS if each.name == "Garden"]
    return f"{keys[0]} opens the Garden tab." if keys else ""
