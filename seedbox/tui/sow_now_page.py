"""What this tin can sow now, most urgent first, with a key to sow; and why not the rest."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static
from textual.worker import get_current_worker

from seedbox.errors import SeedboxError
from seedbox.season.sowing.now import SowingNow
from seedbox.tui.actions import action
from seedbox.tui.cells import plain
from seedbox.tui.page import Page
from seedbox.tui.sow_now_reading import look_through
from seedbox.tui.sow_now_rows import (
    LEFT_OUT,
    OFFERS,
    left_out_row,
    left_out_words,
    offer_row,
    offer_words,
    summary,
)
from seedbox.tui.virtual_list import VirtualList

LOOKING = " Looking through the packets…"


class SowNowPage(Page):
    """Two lists, one shown at a time: what can be sown, and what is left out."""

    DEFAULT_CSS = """
    #offer-detail { height: 4; padding: 0 1; background: $surface; color: $foreground; }
    """
    place = "Sow now"
    AUTO_FOCUS: ClassVar[str | None] = "#offers"
    FOOTER = ("back", "sow", "why_not", "packet", "help_keys")

    def __init__(self) -> None:
        super().__init__()
        self._found: SowingNow | None = None
        self._why_not = False

    def body(self) -> ComposeResult:
        yield Static(LOOKING, id="summary", markup=False)
        yield VirtualList(OFFERS, id="offers")
        left_out = VirtualList(LEFT_OUT, id="left-out")
        left_out.display = False
        yield left_out
        yield Static("", id="offer-detail", markup=False)

    def on_mount(self) -> None:
        super().on_mount()
        self.reload()

    def reload(self) -> None:
        """Look through the tin in a thread of its own: a full one takes a second."""
        desk = self.seedbox.desk
        if not desk.exists:
            self._say_first("This tin is empty: add your packets on the Tin tab first.")
            return
        if self.tin_opens():
            self.run_worker(self._read, thread=True, exclusive=True, group="now")

    def _read(self) -> None:
        desk, worker = self.seedbox.desk, get_current_worker()
        try:
            with desk.another() as tin:
                found = look_through(tin, desk.today, lambda: worker.is_cancelled)
        except SeedboxError as error:
            self.app.call_from_thread(self.seedbox.complain, error)
            return
        if found is not None and not worker.is_cancelled:
            self.app.call_from_thread(self._show, found)

    def _show(self, found: SowingNow) -> None:
        if not self.is_mounted:
            return
        self._found = found
        if found.missing and not found.offers and not found.left_out:
            self._say_first(_first(found))
            return
        offers, left_out = self._list("offers"), self._list("left-out")
        offers.show_rows([offer_row(one) for one in found.offers], offers.cursor)
        left_out.show_rows([left_out_row(one) for one in found.left_out], left_out.cursor)
        self._tell()

    def _say_first(self, sentence: str) -> None:
        self.query_one("#summary", Static).update(Content(" What can be sown is not known yet."))
        self.query_one("#offer-detail", Static).update(Content(plain(sentence)))
        self.refresh_bars()

    def _list(self, name: str) -> VirtualList:
        return self.query_one(f"#{name}", VirtualList)

    def _tell(self) -> None:
        """Counts above, the highlighted packet below."""
        found = self._found
        if found is None or (found.missing and not found.offers and not found.left_out):
            return
        line = summary(found.offers, found.left_out, why_not=self._why_not)
        self.query_one("#summary", Static).update(Content(line))
        self.query_one("#offer-detail", Static).update(Content(plain(self._words(found))))
        self.refresh_bars()

    def _words(self, found: SowingNow) -> str:
        place = self._shown().cursor
        if self._why_not:
            some = found.left_out[place : place + 1]
            return left_out_words(some[0]) if some else ""
        offers = found.offers[place : place + 1]
        if not offers:
            return "Nothing in this tin can be sown now. w says why, packet by packet."
        return offer_words(offers[0])

    def _shown(self) -> VirtualList:
        return self._list("left-out" if self._why_not else "offers")

    def _code_here(self) -> str:
        """Code of the highlighted packet."""
        found = self._found
        if found is None or not self.is_mounted:
            return ""
        lines = [one.line for one in (found.left_out if self._why_not else found.offers)]
        place = self._shown().cursor
        return lines[place].packet.code if place < len(lines) else ""

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action in ("sow", "packet"):
            return bool(self._code_here())
        return super().check_action(action, parameters)

    @on(VirtualList.Moved)
    def _moved(self) -> None:
        self._tell()

    @on(VirtualList.Chosen)
    def _chosen(self) -> None:
        self.action_sow()

    @action("enter,s", "Sow", "Sow the highlighted packet: a form proposes how.", footer=True)
    def action_sow(self) -> None:
        from seedbox.tui.sow_form import ask_to_sow

        code = self._code_here()
        if not code or self._found is None:
            return
        place = ""
        if not self._why_not:
            offer = self._found.offers[self._shown().cursor]
            place = offer.choice.place.name
        ask_to_sow(self.seedbox, code, place)

    @action("w", "Why not", "Show what is left out and why, or go back.", footer=True)
    def action_why_not(self) -> None:
        self._why_not = not self._why_not
        self._list("offers").display = not self._why_not
        self._list("left-out").display = self._why_not
        self._shown().focus()
        self._tell()

    @action("v", "Packet", "Show the packet.", footer=True)
    def action_packet(self) -> None:
        if code := self._code_here():
            self.seedbox.jump(code)

    @action("escape,b", "Back", "Back to where you were.", footer=True)
    def action_back(self) -> None:
        self.leave()


def _first(found: SowingNow) -> str:
    """What the garden must say before anything can be told, and where to say it."""
    from seedbox.tui.sowings_tab import where_to_describe

    asked = []
    if any("place add" not in said for said in found.missing):
        asked.append("f there sets the frosts and the latitude.")
    if any("place add" in said for said in found.missing):
        asked.append("a there adds a place, with its temperature.")
    start = "What can be sown now depends on your garden, which is not described yet."
    return " ".join([start, where_to_describe(), *asked])
