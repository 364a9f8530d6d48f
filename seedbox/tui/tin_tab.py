"""The tin: every packet on a line, filtered as you type, with what will still come up."""

from __future__ import annotations

import gc
from collections.abc import Iterable
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.widgets import Static

from seedbox.errors import SeedboxError
from seedbox.tin.codes import looks_like_code
from seedbox.tui.actions import Action, action
from seedbox.tui.cells import plain
from seedbox.tui.first_page import first_page
from seedbox.tui.tab_page import TabPage
from seedbox.tui.tin_columns import COLUMNS, tint
from seedbox.tui.tin_lines import TinLines
from seedbox.tui.virtual_list import VirtualList

if TYPE_CHECKING:
    from textual.widgets import Input

AFTER_PAINT_SECONDS = 0.02
WELCOME = """\
This tin is empty.

a        add your first packet: only its crop must be known
S        say where your packets lie (a drawer, a shed, a jar in the refrigerator)

From a shell:
seedbox import FILE.csv     bring in a spreadsheet (CSV or XLSX)
seedbox demo                look at a garden that others have filled

?        every key and what it does          q  quit"""


class TinTab(TabPage, TinLines):
    """List, filter, detail of the highlighted packet."""

    place = "Tin"
    AUTO_FOCUS: ClassVar[str | None] = "#packets"
    FOOTER = ("open", "filter", "add", "take", "sort", "help_keys")

    def body(self) -> ComposeResult:
        with Horizontal(id="filter-bar"):
            yield Static("Filter press / and type", id="filter-label")
            yield Static("", id="filter-count", markup=False)
        yield VirtualList(COLUMNS, tint=tint, id="packets")
        yield Static("", id="detail", markup=False)

    def on_mount(self) -> None:
        super().on_mount()
        self._show_first_page()
        self.call_after_refresh(self._after_first_paint)
        if self.seedbox.opening_fault:
            self.say(self.seedbox.opening_fault, wrong=True)

    def _after_first_paint(self) -> None:
        """What the first screenful did not need: the filter, and the rest of the tin."""
        gc.enable()
        gc.freeze()
        self.filter_box()
        # A moment later, so that the painted screen reaches the terminal before a thread is busy.
        self.set_timer(AFTER_PAINT_SECONDS, self.reload)

    def filter_box(self) -> Input:
        """The field for the filter, made when first needed."""
        from textual.widgets import Input

        if not self.query("#filter"):
            label = self.query_one("#filter-label", Static)
            label.update("Filter")
            label.add_class("-beside")
            box = Input(placeholder="press / and type", compact=True, id="filter")
            self.query_one("#filter-bar").mount(box, after=label)
        return self.query_one("#filter", Input)

    def _show_first_page(self) -> None:
        """Paint a screenful at once; forecasts and all other packets follow."""
        desk = self.seedbox.desk
        if not desk.exists or self.seedbox.opening_fault:
            return
        try:
            rows, every = first_page(desk.tin(), self.app.size.height)
        except SeedboxError as error:
            self.say(f"{error.sentence} {error.hint}".strip(), wrong=True)
            return
        self.query_one(VirtualList).show_rows(rows)
        self.query_one("#filter-count", Static).update(Content(f"{every} packets"))

    # Showing it

    def show_lines(self, code: str = "") -> None:
        """Draw the lines that are shown now, with the cursor on `code` where that is shown."""
        packets = self.query_one(VirtualList)
        place = self.catalogue.place_of(code) if code else None
        if place is not None:
            self.wanted_code = ""
        shown = self.catalogue.shown
        packets.show_rows(
            self.catalogue.rows,
            packets.cursor if place is None else place,
            lambda index: shown[index].packet.code in self.marked,
        )
        self._welcome(not len(self.catalogue))
        self._show_count()
        self._show_detail()
        self.refresh_bars()

    def _welcome(self, wanted: bool) -> None:
        """An empty tin says what to do next."""
        if wanted and not self.query("#welcome"):
            self.mount(Static(WELCOME, id="welcome", markup=False), before="#packets")
        for welcome in self.query("#welcome"):
            welcome.display = wanted
        self.query_one("#packets").display = not wanted

    def _show_count(self) -> None:
        some, every = len(self.catalogue.shown), len(self.catalogue)
        hidden = 0 if self.catalogue.with_empty else self.catalogue.empty_count
        parts = [f"{some} of {every} packets" if some != every else f"{every} packets"]
        if hidden:
            parts.append(f"{hidden} empty hidden")
        if self.marked:
            parts.append(f"{len(self.marked)} marked")
        parts.append(f"by {self.catalogue.sort}")
        self.query_one("#filter-count", Static).update(Content(" · ".join(parts)))

    def _show_detail(self) -> None:
        from seedbox.tui.line_words import detail_words

        line = self.line_here()
        if line is not None:
            words = detail_words(line)
        elif len(self.catalogue):
            words = "No packet fits this filter. Esc shows them all again."
        else:
            words = ""
        self.query_one("#detail", Static).update(Content(plain(words)))

    @on(VirtualList.Moved)
    def _moved(self) -> None:
        if self.reading is not None:
            self._show_detail()

    @on(VirtualList.Chosen)
    def _chosen(self) -> None:
        self.action_open()

    # Filter

    def on_input_changed(self, event: Input.Changed) -> None:
        if self.reading is None:
            return
        here = self.code_here()
        self.catalogue.select(event.value)
        self.show_lines(here)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        if self._names_something(event.value) and self.seedbox.jump(event.value):
            event.input.value = ""
        self.set_focus(self.query_one(VirtualList))

    def _names_something(self, text: str) -> bool:
        from seedbox.season.trade_numbers import looks_like_trade_number

        return looks_like_code(text) or looks_like_trade_number(text)

    # Actions

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        needs_packet = {
            "open", "edit", "take", "recount", "move", "record_test", "mark",
            "mark_all", "remove", "copy_code", "sort",
        }  # fmt: skip
        if action in needs_packet:
            return self.line_here() is not None
        if action == "filter":
            in_it = self.focused is self.filter_box()
            return not in_it and (self.reading is None or bool(len(self.catalogue)))
        return super().check_action(action, parameters)

    @action("enter", "Open", "Open the packet: forecast, history, storage, cautions.", footer=True)
    def action_open(self) -> None:
        from seedbox.tui.packet_page import PacketPage

        line = self.line_here()
        if line is not None:
            self.app.push_screen(PacketPage(line.packet.code))

    # Before all others and at once, or keys typed right behind it would act on the list.
    @action(
        "slash",
        "Filter",
        "Type any words: crop, variety, store, advice.",
        footer=True,
        priority=True,
    )
    def action_filter(self) -> None:
        self.set_focus(self.filter_box())

    @action("a", "Add", "Add a packet to the tin.", footer=True)
    def action_add(self) -> None:
        from seedbox.tui.packet_form import add_plan

        try:
            self.seedbox.ask(add_plan(self.seedbox.desk, self.show_packet_next))
        except SeedboxError as error:
            self.seedbox.complain(error)

    @action("s", "Sort", "Sort by the next of: crop, year, germination, advice, …", footer=True)
    def action_sort(self) -> None:
        from seedbox.season.listing import Sort

        kinds = list(Sort)
        self.action_sort_by(kinds[(kinds.index(self.catalogue.sort) + 1) % len(kinds)])

    def action_sort_by(self, kind: str) -> None:
        """Put the list in this order, with the cursor on its first line."""
        from seedbox.season.listing import Sort

        self.catalogue.order(Sort(kind))
        self.show_lines()
        self.query_one(VirtualList).move_to(0)

    def possible_actions(self) -> Iterable[Action]:
        """For the palette: each order by its name as well."""
        from seedbox.season.listing import Sort

        yield from super().possible_actions()
        for kind in Sort:
            yield Action(
                f"sort_by('{kind}')", (), f"Sort by {kind}", f"Put the list in order of {kind}."
            )

    @action("space", "Mark", "Mark this packet, to move or label several at once.")
    def action_mark(self) -> None:
        code = self.code_here()
        self.marked ^= {code}
        self.query_one(VirtualList).move_by(1)
        self._show_count()

    @action("asterisk", "Mark all shown", "Mark every packet that the filter shows, or none.")
    def action_mark_all(self) -> None:
        shown = {line.packet.code for line in self.catalogue.shown}
        self.marked = self.marked - shown if shown <= self.marked else self.marked | shown
        self.show_lines(self.code_here())

    @action("z", "Show empty packets", "Show packets with nothing left, or hide them again.")
    def action_show_empty(self) -> None:
        if self.reading is None:
            return
        here = self.code_here()
        self.catalogue.show_empty(not self.catalogue.with_empty)
        self.show_lines(here)

    @action("C", "Stocktake", "Tick what lies in a store, by scanner or by hand.")
    def action_stocktake(self) -> None:
        from seedbox.tui.stocktake_forms import ask_which_store

        line = self.line_here()
        ask_which_store(self.seedbox, line.store if line else "")

    @action("escape", "Back", "Leave the filter, then clear it, then clear the marks.")
    def action_clear(self) -> None:
        box = self.filter_box()
        self.say("")
        if box.value:
            box.value = ""
        elif self.marked:
            self.marked.clear()
            self.show_lines(self.code_here())
        self.set_focus(self.query_one(VirtualList))

    @action("down", "To the list", "From the filter to the list.", palette=False)
    def action_to_list(self) -> None:
        self.set_focus(self.query_one(VirtualList))

    def footer_actions(self) -> tuple[Action, ...]:
        if self.focused is not None and self.focused.id == "filter":
            return tuple(FILTER_KEYS)
        return super().footer_actions()

    def on_descendant_focus(self) -> None:
        self.refresh_bars()


FILTER_KEYS: Iterable[Action] = (
    Action("clear", ("escape",), "Show all again", ""),
    Action("to_list", ("enter",), "To the list", ""),
)
