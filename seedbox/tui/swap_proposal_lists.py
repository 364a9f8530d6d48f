"""What is seen of a proposal: its lines and its people, and the highlighted one in full."""

from __future__ import annotations

from contextlib import suppress

from textual import events, on
from textual.app import ComposeResult
from textual.content import Content
from textual.css.query import NoMatches
from textual.widgets import Static

from seedbox.season.swapping.records import Proposal, Transfer
from seedbox.tui.cells import wrapped
from seedbox.tui.page import Page
from seedbox.tui.swap_proposal_words import (
    BALANCES,
    FIRST,
    TRANSFERS,
    balance_row,
    balance_words,
    is_mine,
    mine_first,
    summary,
    transfer_row,
    transfer_words,
)
from seedbox.tui.swap_words import LAW, TALL, clipped
from seedbox.tui.virtual_list import VirtualList

MORE = "Enter shows all."
LOW = 20  # below so many lines the summary and the reason are cut shorter


class ProposalLists(Page):
    """The lines of a proposal, mine first, over how it comes out for each, and why."""

    DEFAULT_CSS = """
    #proposal-summary { height: auto; max-height: 4; padding: 0 1; }
    #transfers { height: 2fr; }
    #balances { height: 1fr; min-height: 4; }
    #proposal-detail { height: 5; padding: 0 1; background: $surface; color: $foreground; }
    ProposalLists.-tall #proposal-detail { height: 8; }
    ProposalLists.-low #proposal-detail { height: 3; }
    ProposalLists.-low #proposal-summary { max-height: 2; }
    ProposalLists.-low #balances { min-height: 2; }
    #proposal-law { height: 1; padding: 0 1; color: $warning; }
    """

    def __init__(self, me: int = FIRST) -> None:
        """Number `me` of the people is mine."""
        super().__init__()
        self._me = me
        self._proposal: Proposal | None = None
        self._shown: tuple[Transfer, ...] = ()

    def body(self) -> ComposeResult:
        yield Static("", id="proposal-summary", markup=False)
        yield VirtualList(TRANSFERS, id="transfers")
        yield VirtualList(BALANCES, id="balances")
        yield Static("", id="proposal-detail", markup=False)
        yield Static(Content(LAW), id="proposal-law", markup=False)

    def _say_above(self, words: str) -> None:
        lines = wrapped(words, max(20, self.app.size.width - 2))
        for said in self.query("#proposal-summary").results(Static):  # none while it is closed
            said.update(Content("\n".join(lines)))

    def _show(self, found: Proposal | None) -> None:
        self._proposal = found
        self._shown = mine_first(found, self._me) if found else ()
        transfers, balances = self._list("transfers"), self._list("balances")
        if found is None:
            transfers.show_rows([])
            balances.show_rows([])
        else:
            shown, me = self._shown, self._me
            rows = [transfer_row(one, found, me) for one in shown]
            transfers.show_rows(rows, marked=lambda at: at < len(shown) and is_mine(shown[at], me))
            people = range(len(found.balances))
            balances.show_rows([balance_row(found, at, me) for at in people])
            self._say_above(summary(found, me))
        self._tell()

    def _list(self, name: str) -> VirtualList:
        return self.query_one(f"#{name}", VirtualList)

    @property
    def _on_balances(self) -> bool:
        return self.is_mounted and self._list("balances").has_focus

    def _here(self) -> Transfer | None:
        place = self._list("transfers").cursor
        return self._shown[place] if not self._on_balances and place < len(self._shown) else None

    def _tell(self) -> None:
        width = max(20, self.app.size.width - 2)
        room = 8 if self.has_class("-tall") else 3 if self.has_class("-low") else 5
        lines = clipped(self._words(), width, room, MORE)
        self.query_one("#proposal-detail", Static).update(Content("\n".join(lines)))
        self.refresh_bars()

    def _words(self) -> str:
        here, proposal = self._here(), self._proposal
        if proposal is None:
            return ""
        if here is not None:
            return transfer_words(here, proposal, self._me)
        place = self._list("balances").cursor
        if self._on_balances and place < len(proposal.balances):
            return balance_words(proposal, place, self._me)
        return ""

    @on(VirtualList.Moved)
    def _moved(self) -> None:
        self._tell()

    def on_descendant_focus(self, event: events.DescendantFocus) -> None:
        self._tell()

    def on_resize(self, event: events.Resize) -> None:
        super().on_resize(event)
        self.set_class(event.size.height >= TALL, "-tall")
        self.set_class(event.size.height < LOW, "-low")
        if self._proposal is not None:
            with suppress(NoMatches):  # it may come before all is on the screen
                self.reload()
                self._tell()
