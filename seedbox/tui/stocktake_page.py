"""A stocktake: a code scanned or typed ticks its packet, and what differs is seen live."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.widgets import Input, Static

from seedbox.errors import BadDataError, SeedboxError
from seedbox.season.named import NameBook
from seedbox.season.stocktake import Counted, Stocktake, compare, write
from seedbox.season.trade_numbers import looks_like_trade_number
from seedbox.tin.codes import KINDS, looks_like_code, parse, shown
from seedbox.tin.exchange.amounts import quantity
from seedbox.tin.exchange.outcome import CellFaultError, Read
from seedbox.tin.records import Store, Unit
from seedbox.tui.actions import Action, action
from seedbox.tui.cells import plain
from seedbox.tui.page import Page
from seedbox.tui.stocktake_forms import writing_plan
from seedbox.tui.stocktake_rows import COLUMNS, rows, summary, tick_words, tint, written_words
from seedbox.tui.virtual_list import VirtualList

BEGIN = "Scan the packets of {} one after the other, or type their codes with Enter."
GO_ON = "What you had ticked before is here again. Ctrl+N starts afresh."


class StocktakePage(Page):
    """Ticks are kept in the program until they are written, whichever way the page is left."""

    AUTO_FOCUS: ClassVar[str | None] = "#tick"
    FOOTER = ("tick", "untick", "write", "start_afresh", "back")

    def __init__(self, store: Store) -> None:
        super().__init__()
        self.place = f"Stocktake of {store.name}"
        self._store = store
        self._ticked: dict[str, str] = {}
        self._book: NameBook | None = None
        self._last = ""
        self._written = ""

    def body(self) -> ComposeResult:
        with Horizontal(id="filter-bar"):
            yield Static("Code", id="filter-label", classes="-beside")
            yield Input(compact=True, select_on_focus=False, id="tick")
        yield Static("", id="summary", markup=False)
        yield VirtualList(COLUMNS, tint=tint, id="stock")
        yield Static("", id="detail", markup=False)

    def on_mount(self) -> None:
        super().on_mount()
        self._ticked = dict(self.seedbox.drafts.get(self._key, {}))
        self._tell(GO_ON if self._ticked else BEGIN.format(self._store.name))
        self.reload()

    def on_screen_resume(self) -> None:
        super().on_screen_resume()
        if self._written:  # the form that wrote it has just been closed
            self._finish(self._written)

    @property
    def _key(self) -> str:
        """Where the ticks are kept until they are written."""
        return f"stocktake {self._store.id}"

    @property
    def counted(self) -> dict[str, Counted]:
        """What was counted in packets, by their codes."""
        found = {}
        for code, text in self._ticked.items():
            amount, _, unit = text.partition(" ")
            if amount:
                found[code] = float(amount), Unit(unit)
        return found

    def stock(self) -> Stocktake:
        """What was ticked so far, set against the tin."""
        book = self._book or NameBook(self.seedbox.desk.tin(), self.seedbox.desk.today)
        dossiers = [line.dossier for line in book.listing.lines]
        return compare(dossiers, self._store, self._ticked)

    # Showing it

    def reload(self) -> None:
        desk = self.seedbox.desk
        try:
            self._book = NameBook(desk.tin(), desk.today)
            self._store = desk.tin().store_by_id(self._store.id)
        except SeedboxError as error:
            self.seedbox.complain(error)
            return
        self._show()

    def _show(self, code: str = "") -> None:
        """Draw the lines; with `code` its line is highlighted."""
        if self._book is None:
            return
        stock, packets = self.stock(), self.query_one(VirtualList)
        shown_rows = list(rows(stock, self._book, self.counted))
        places = (number for number, row in enumerate(shown_rows) if row[1] == shown(code))
        packets.show_rows(shown_rows, next(places, packets.cursor))
        self.query_one("#summary", Static).update(Content(plain(f" {summary(stock)}")))
        self.refresh_bars()

    def _tell(self, sentence: str) -> None:
        self.query_one("#detail", Static).update(Content(plain(sentence)))

    # Ticking

    def takes_code(self, text: str) -> bool:
        """Every scanned code is ticked here."""
        self.tick(text)
        return True

    @on(Input.Submitted)
    def _typed(self, event: Input.Submitted) -> None:
        event.stop()
        text, event.input.value = event.input.value.strip(), ""
        if text:
            self.tick(text)

    def tick(self, text: str) -> None:
        """Take a code, or what was counted in the packet ticked last; a fault is said."""
        self.say("")
        try:
            if looks_like_code(text) or not self._last or looks_like_trade_number(text):
                self._tick(_code(text))
            else:
                self._count(text)
        except (SeedboxError, CellFaultError) as error:
            self.app.bell()
            self.say(str(error), wrong=True)

    def _tick(self, code: str) -> None:
        assert self._book is not None
        before = code in self._ticked
        self._last = code if self._book.get(code) else ""
        self._keep({**self._ticked, code: self._ticked.get(code, "")})
        self._show(code)
        words = tick_words(self.stock(), self._book, code)
        self._tell(f"Ticked before. {words}" if before else words)
        if not self._last:
            self.app.bell()

    def _count(self, text: str) -> None:
        assert self._book is not None
        named = self._book.get(self._last)
        assert named is not None
        packet = named.line.packet
        found = quantity(text, packet.unit)
        amount = found.value if isinstance(found, Read) else found
        if amount.value is None:
            raise CellFaultError(f"“{text}” is no number that was counted.")
        unit = amount.unit or packet.unit or Unit.SEEDS
        if packet.unit is not None and unit is not packet.unit:
            raise BadDataError(f"{shown(self._last)} is kept in {packet.unit}: count it in these.")
        self._keep({**self._ticked, self._last: f"{amount.value!r} {unit}"})
        self._show(self._last)
        self._tell(f"Counted: {shown(self._last)} {named.title} holds {text}.")

    def _keep(self, ticked: dict[str, str]) -> None:
        self._ticked = ticked
        if ticked:
            self.seedbox.keep_draft(self._key, ticked)
        else:
            self.seedbox.drafts.pop(self._key, None)

    # Actions

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action in ("write", "start_afresh"):
            return bool(self._ticked)
        if action == "untick":
            return bool(self._ticked) and isinstance(self.focused, VirtualList)
        return super().check_action(action, parameters)

    def footer_actions(self) -> tuple[Action, ...]:
        known = super().footer_actions()
        in_list = isinstance(self.focused, VirtualList)
        return known if in_list else (*known, Action("focus_next", ("tab",), "To the list", ""))

    def on_descendant_focus(self) -> None:
        self.refresh_bars()

    @action("enter", "Tick", "Tick the code that was typed; a scanner does it by itself.")
    def action_tick(self) -> None:
        self.set_focus(self.query_one("#tick"))

    @action("x", "Untick", "Take the tick of the highlighted line back.")
    def action_untick(self) -> None:
        packets = self.query_one(VirtualList)
        code = packets.row_at_cursor[1].replace(" ", "") if packets.row_count else ""
        if code in self._ticked:
            self._keep({each: how for each, how in self._ticked.items() if each != code})
            self._last = ""
            self._show(code)
            self._tell(f"{shown(code)} is not ticked any more.")

    @action("ctrl+s", "Write", "Write moves and counts into the tin, as one change.", priority=True)
    def action_write(self) -> None:
        stock = self.stock()
        plan = writing_plan(stock, self._write)
        if plan is not None:
            self.seedbox.ask(plan)
            return
        try:
            self._write(move_here=False, gone=False)
        except SeedboxError as error:
            self.seedbox.complain(error)
        else:
            self._finish(self._written)

    def _write(self, move_here: bool, gone: bool) -> str:
        desk, stock, counted = self.seedbox.desk, self.stock(), self.counted
        moved, written_off = desk.change(
            lambda tin: write(
                tin, stock, today=desk.today, move_here=move_here, missing_are_gone=gone,
                counted=counted,
            )
        )  # fmt: skip
        self._written = written_words(stock, moved, written_off, len(counted))
        self._keep({})
        return ""

    def _finish(self, sentence: str) -> None:
        self._written = ""
        self.app.pop_screen()
        self.seedbox.done(sentence)

    @action("ctrl+n", "Start afresh", "Take all ticks back.", palette=False)
    def action_start_afresh(self) -> None:
        self._keep({})
        self._last = ""
        self._show()
        self._tell(BEGIN.format(self._store.name))

    @action("escape", "Leave", "Leave; the ticks are kept until they are written.", palette=False)
    def action_back(self) -> None:
        ticks = len(self._ticked)
        self.app.pop_screen()
        if ticks:
            self.seedbox.say(
                f"Nothing is written. What was ticked in {self._store.name} is kept ({ticks}):"
                " the next stocktake of it goes on from there."
            )


def _code(text: str) -> str:
    """The code of a packet; raises BadDataError for anything else."""
    if looks_like_trade_number(text):
        raise BadDataError(
            f"{text} is a shop's number, which many packets may carry: scan the packet's own code."
        )
    code = parse(text)
    if not code.startswith("P"):
        raise BadDataError(f"{shown(code)} is a {KINDS[code[0]]}: a stocktake ticks packets.")
    return code
