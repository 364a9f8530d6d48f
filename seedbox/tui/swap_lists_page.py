"""The lists of others that were read: what could not be read, and what of them matches mine."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from datetime import date
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.css.query import NoMatches
from textual.widgets import Static
from textual.worker import get_current_worker

from seedbox.errors import SeedboxError
from seedbox.season.crops import CropBook
from seedbox.season.swapping.list_reading import read_list
from seedbox.tin.preferences import Settings
from seedbox.tui.actions import action
from seedbox.tui.page import Page
from seedbox.tui.sowing_words import counted
from seedbox.tui.swap_files import read_plan
from seedbox.tui.swap_list_text import LISTS, list_lines, list_row
from seedbox.tui.swap_table import TableList
from seedbox.tui.swap_words import LAW
from seedbox.tui.text_lines import content
from seedbox.tui.virtual_list import VirtualList

if TYPE_CHECKING:
    from seedbox.tui.app import SeedboxApp
    from seedbox.tui.swap_actions import SwapActions

_NONE = "No list was read yet. r reads the lists of others: CSV, JSON or XLSX."


class SwapListsPage(Page):
    """Lists above, and below all that is to be said of the highlighted one."""

    DEFAULT_CSS = """
    #swap-lists { height: 2fr; }
    #list-scroll { height: 3fr; padding: 0 1; scrollbar-size-vertical: 1; background: $surface; }
    #list-text { height: auto; }
    #list-law { height: 1; padding: 0 1; color: $warning; }
    """
    place = "Swap · Lists"
    AUTO_FOCUS: ClassVar[str | None] = "#swap-lists"
    FOOTER = ("back", "read_lists", "remove", "propose", "scroll_on", "help_keys")

    def __init__(self, tab: SwapActions, paths: Sequence[Path] = ()) -> None:
        super().__init__()
        self._tab = tab
        self._paths = list(paths)

    def body(self) -> ComposeResult:
        yield Static("", id="summary", markup=False)
        yield VirtualList(LISTS, id="swap-lists")
        with VerticalScroll(id="list-scroll", can_focus=False):
            yield Static("", id="list-text", markup=False)
        yield Static(Content(LAW), id="list-law", markup=False)

    def on_mount(self) -> None:
        super().on_mount()
        self.reload()
        if self._paths:
            self.read_files(self._paths)

    @property
    def _files(self) -> list[TableList]:
        return self._tab.table.files

    def reload(self) -> None:
        """Show what lies on the table now."""
        own = self._tab.own_list()
        with suppress(NoMatches):  # a page that is just being closed
            shown = self.query_one(VirtualList)
            shown.show_rows([list_row(one, own) for one in self._files], shown.cursor)
            self._tell()

    def _tell(self) -> None:
        read = self._tab.table.lists
        offers = counted(sum(len(one.offers) for one in read), "offer")
        words = f" {counted(len(read), 'list')} read, {offers}." if self._files else f" {_NONE}"
        self.query_one("#summary", Static).update(Content(words))
        here = self._here()
        width = max(20, self.app.size.width - 4)
        lines = list_lines(here, self._tab.own_list(), width) if here else []
        self.query_one("#list-text", Static).update(content(lines) if lines else "")
        self.refresh_bars()

    def _here(self) -> TableList | None:
        place = next((one.cursor for one in self.query(VirtualList)), 0)
        return self._files[place] if place < len(self._files) else None

    @on(VirtualList.Moved)
    def _moved(self) -> None:
        self.query_one("#list-scroll").scroll_home(animate=False)
        self._tell()

    def on_resize(self, event: events.Resize) -> None:
        super().on_resize(event)
        with suppress(NoMatches):  # it may come before all is on the screen
            self._tell()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action in ("remove", "scroll_on", "scroll_back"):
            return self._here() is not None
        return super().check_action(action, parameters)

    # Reading, in a thread: a list may be long, and a hall has forty

    def read_files(self, paths: list[Path]) -> None:
        """Read these files and lay them on the table."""
        self.query_one("#summary", Static).update(Content(f" Reading {_files(len(paths))} …"))
        work = partial(self._read, self.seedbox, paths)
        self.run_worker(work, thread=True, exclusive=True, group="lists")

    def _read(self, app: SeedboxApp, paths: list[Path]) -> None:
        desk, worker = app.desk, get_current_worker()
        try:
            with desk.another() as tin:
                settings = tin.settings()
                book = CropBook(settings, tin.own_crops())
        except SeedboxError as error:
            app.call_from_thread(app.complain, error)
            return
        for path in paths:
            if worker.is_cancelled:
                return
            one = _read_one(path, book, desk.today, settings)
            app.call_from_thread(self._lay, one)
        if not worker.is_cancelled:
            app.call_from_thread(self._read_all, paths)

    def _lay(self, one: TableList) -> None:
        self._tab.table.put(one)
        self.reload()

    def _read_all(self, paths: list[Path]) -> None:
        self._tab.show_table()
        places = {one.path: at for at, one in enumerate(self._files)}
        with suppress(NoMatches):
            self.query_one(VirtualList).move_to(places.get(paths[0], 0))
        faults = sum(bool(one.fault) for one in self._files if one.path in paths)
        if faults:
            self.say(f"{_files(faults)} could not be read; why stands below.", wrong=True)

    @action("r", "Read more", "Read more lists, or a list again.")
    def action_read_lists(self) -> None:
        self.seedbox.ask(read_plan(lambda paths: self.app.call_later(self.read_files, paths)))

    @action("x", "Take away", "Take the highlighted list off the table. Its file stays.")
    def action_remove(self) -> None:
        if self._here() is None:
            return
        gone = self._tab.table.remove(self.query_one(VirtualList).cursor)
        self._tab.show_table()
        self.reload()
        self.say(f"Taken off the table: {gone.listed.name}. r reads it again.")

    @action("m", "Match", "Propose an exchange between your list and these.")
    def action_propose(self) -> None:
        self._tab.action_propose()

    @action("space", "More below", "Scroll what is said of the list; at its end, to the top.")
    def action_scroll_on(self) -> None:
        scrolled = self.query_one("#list-scroll", VerticalScroll)
        if scrolled.scroll_offset.y >= scrolled.max_scroll_y:
            scrolled.scroll_home(animate=False)
        else:
            scrolled.scroll_page_down(animate=False)

    @action("escape,b", "Back", "Back to the Swap tab.")
    def action_back(self) -> None:
        self.leave()


def _files(number: int) -> str:
    return counted(number, "file")


def _read_one(path: Path, book: CropBook, today: date, settings: Settings) -> TableList:
    try:
        month_first = settings.dates == "month first"
        return TableList(path, read_list(path, book, today, month_first=month_first))
    except SeedboxError as error:
        return TableList(path, None, f"{error.sentence} {error.hint}".strip())
