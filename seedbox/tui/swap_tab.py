"""The swap: what is spare and what is wanted, the lists of others, and the way to an exchange."""

from __future__ import annotations

from contextlib import suppress
from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Container, Vertical
from textual.content import Content
from textual.css.query import NoMatches
from textual.widgets import Static

from seedbox.season.swapping.spare import Spare
from seedbox.season.swapping.wants import wishes
from seedbox.tin.list_records import Want
from seedbox.tui.actions import Action
from seedbox.tui.cells import plain
from seedbox.tui.sowing_words import counted
from seedbox.tui.swap_known import SwapKnown
from seedbox.tui.swap_table import Offered, SwapTable, offer_words
from seedbox.tui.swap_words import (
    LAW,
    SPARE,
    TALL,
    WANTS,
    clipped,
    spare_heading,
    spare_row,
    spare_words,
    tint,
    want_row,
    want_words,
)
from seedbox.tui.tab_page import TabPage
from seedbox.tui.tabs import tab
from seedbox.tui.virtual_list import VirtualList

SIDES = ("spare", "wants")
WIDE = 110
MORE = "Enter shows all."
_RECKONING = "Reckoning what is spare of {} …"
_EMPTY = "This tin is empty: add your packets on the Tin tab first, which {} opens."
_NO_WANTS = "Nothing is wanted yet: a adds a want, t takes what your plans miss."
_FOOTER_OF = {
    "spare": ("other_side", "offer", "keep", "limit", "read_lists", "propose", "help_keys"),
    "wants": ("other_side", "add", "edit", "remove", "take_missing", "propose", "help_keys"),
}


class SwapTab(SwapKnown, TabPage):
    """Two lists, side by side where there is room, and what the highlighted line means."""

    DEFAULT_CSS = """
    #swap-sides { height: 1fr; layout: vertical; }
    #spare-side { height: 2fr; }
    #wants-side { height: 1fr; min-height: 4; }
    SwapTab.-wide #swap-sides { layout: horizontal; }
    SwapTab.-wide #spare-side { width: 2fr; height: 1fr; }
    SwapTab.-wide #wants-side { width: 1fr; height: 1fr; padding: 0 0 0 1; }
    .swap-heading { height: 1; color: $quiet; background: $surface; }
    #swap-detail { height: 5; padding: 0 1; background: $surface; color: $foreground; }
    SwapTab.-tall #swap-detail { height: 8; }
    #swap-law { height: 1; padding: 0 1; color: $warning; }
    """
    place = "Swap"
    AUTO_FOCUS: ClassVar[str | None] = "#spare"
    FOOTER = (*_FOOTER_OF["spare"][:4], *_FOOTER_OF["wants"][1:5], *_FOOTER_OF["spare"][4:])

    def __init__(self) -> None:
        super().__init__()
        self.table = SwapTable()
        self.side = SIDES[0]
        # What is highlighted stays so, wherever the next reading puts it.
        self._code = ""
        self._want_id = 0

    def body(self) -> ComposeResult:
        with Container(id="swap-sides"):
            with Vertical(id="spare-side"):
                yield Static("", id="spare-heading", classes="swap-heading", markup=False)
                yield VirtualList(SPARE, tint=tint, id="spare")
            with Vertical(id="wants-side"):
                yield Static("", id="wants-heading", classes="swap-heading", markup=False)
                yield VirtualList(WANTS, tint=tint, id="wants")
        yield Static("", id="swap-detail", markup=False)
        yield Static("", id="swap-law", markup=False)

    def on_mount(self) -> None:
        super().on_mount()
        self.reload()

    # What is shown

    def list_of(self, side: str) -> VirtualList:
        return self.query_one(f"#{side}", VirtualList)

    def _place(self, side: str) -> int:
        """Number of the highlighted line; 0 while the list is not on the screen yet."""
        lists = self.query(f"#{side}").results(VirtualList)
        return next((one.cursor for one in lists), 0)

    def spare_here(self) -> Spare | None:
        """The highlighted packet, when that list is in use."""
        place = self._place("spare")
        return self.found[place] if self.side == "spare" and place < len(self.found) else None

    def want_here(self) -> Want | None:
        """The highlighted want, when that list is in use."""
        place = self._place("wants")
        return self.wants[place] if self.side == "wants" and place < len(self.wants) else None

    def show_table(self) -> None:
        """Lists were read, or taken away."""
        self._show()

    def _show(self) -> None:
        with suppress(NoMatches):  # a page that is just being closed
            spare, wants = self.list_of("spare"), self.list_of("wants")
            codes, ids = [one.code for one in self.found], [one.id for one in self.wants]
            place = codes.index(self._code) if self._code in codes else spare.cursor
            want_place = ids.index(self._want_id) if self._want_id in ids else wants.cursor
            spare.show_rows([spare_row(one) for one in self.found], place)
            wants.show_rows(self._want_rows(), want_place)
            self._tell()

    def _offered(self) -> Offered:
        return Offered(self.table.lists)

    def _want_rows(self) -> list[tuple[str, ...]]:
        if self._wanted is None:
            return []
        book, offered = self._wanted.book, self._offered()
        rows = []
        for want, wish in zip(self.wants, wishes(self.wants, book), strict=True):
            there = sum(offer.portions for _, offer in offered.for_wish(wish))
            rows.append(want_row(want, book, there if self.table.lists else None))
        return rows

    def _tell(self) -> None:
        """Headings, the highlighted line in full, and the caution with the lists read."""
        wanted = sum(want.portions for want in self.wants)
        for side, words in (
            ("spare", self._spare_heading()),
            ("wants", f"Wants: {counted(wanted, 'portion')} of {counted(len(self.wants), 'kind')}"),
        ):
            here = side == self.side
            text = (f"[{plain(words)}]", "bold reverse") if here else (f" {plain(words)} ", "")
            self.query_one(f"#{side}-heading", Static).update(Content.assemble(text))
        width = max(20, self.app.size.width - 2)
        room = 8 if self.has_class("-tall") else 5
        lines = clipped(self._words(), width, room, MORE)
        self.query_one("#swap-detail", Static).update(Content("\n".join(lines)))
        self.query_one("#swap-law", Static).update(Content(f"{LAW} {self._table_words()}"))
        self.refresh_bars()

    def _spare_heading(self) -> str:
        if self._reading is None:
            return self._waiting()
        return spare_heading(self.found) + (" …" if self._reckoning else "")

    def _waiting(self) -> str:
        if self._wanted is None:
            return "Spare"
        return _RECKONING.format(counted(self._wanted.packets, "packet"))

    def _table_words(self) -> str:
        lists = len(self.table.lists)
        return f"{counted(lists, 'list')} read." if lists else "r reads lists of others."

    def _words(self) -> str:
        empty = self._wanted is not None and not self._wanted.packets
        if self.side == "spare" and (empty or not self.seedbox.desk.exists):
            return _EMPTY.format(tab("Tin").key)
        spare, want = self.spare_here(), self.want_here()
        if spare is not None:
            return spare_words(spare)
        if want is not None and self._wanted is not None:
            (wish,) = wishes([want], self._wanted.book)
            who = [offer_words(*found) for found in self._offered().for_wish(wish)]
            return want_words(want, self._wanted.book, who)
        return _NO_WANTS if self.side == "wants" else self._waiting()

    @on(VirtualList.Moved)
    def _moved(self) -> None:
        spare, want = self._place("spare"), self._place("wants")
        self._code = self.found[spare].code if spare < len(self.found) else ""
        self._want_id = self.wants[want].id if want < len(self.wants) else 0
        self._tell()

    @on(VirtualList.Chosen)
    def _chosen(self) -> None:
        self.action_open()

    def on_descendant_focus(self, event: events.DescendantFocus) -> None:
        if event.widget.id in SIDES and event.widget.id != self.side:
            self.side = event.widget.id
            self._tell()

    def on_resize(self, event: events.Resize) -> None:
        super().on_resize(event)
        self.set_class(event.size.width >= WIDE, "-wide")
        self.set_class(event.size.height >= TALL, "-tall")
        with suppress(NoMatches):  # it may come before all is on the screen
            self._tell()

    def footer_actions(self) -> tuple[Action, ...]:
        """The keys that matter for the list in use."""
        mine = _FOOTER_OF[self.side]
        return tuple(known for known in super().footer_actions() if known.name in mine)

    def turn_to(self, side: str) -> None:
        """Go to one of the two lists."""
        self.list_of(side).focus()
