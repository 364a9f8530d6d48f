"""The proposal: looked for in a thread of its own, shown with its reasons, kept, booked."""

from __future__ import annotations

from contextlib import suppress
from time import monotonic
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.css.query import NoMatches
from textual.worker import Worker

from seedbox.errors import SeedboxError
from seedbox.season.swapping.records import Proposal, SwapList, Transfer
from seedbox.tui.actions import action
from seedbox.tui.background import in_background
from seedbox.tui.sowing_words import counted
from seedbox.tui.swap_proposal_lists import ProposalLists
from seedbox.tui.swap_proposal_words import FIRST, summary, transfer_lines
from seedbox.tui.swap_text_page import SwapTextPage
from seedbox.tui.virtual_list import VirtualList

if TYPE_CHECKING:
    from seedbox.tui.swap_actions import SwapActions

_STALE = "The tin has changed since this was proposed: m matches again."


class SwapProposalPage(ProposalLists):
    """Who gives what to whom, mine first; how it comes out for each; why, line by line."""

    place = "Swap · Proposal"
    AUTO_FOCUS: ClassVar[str | None] = "#transfers"
    FOOTER = ("back", "book", "save", "stop", "match_again", "other_side", "help_keys")

    def __init__(self, tab: SwapActions, kept: Proposal | None = None, me: int = FIRST) -> None:
        """`kept` is a proposal from a file, in which number `me` is mine; else one is sought."""
        super().__init__(me)
        self._tab = tab
        self._kept = kept
        self._lists: tuple[SwapList, ...] = ()
        self._worker: Worker[None] | None = None
        self._began = 0.0
        self._waits = False
        self._law = ""

    def on_mount(self) -> None:
        super().on_mount()
        self.set_interval(1.0, self._tick)
        if self._kept is None:
            self.action_match_again()
        else:
            self._law = self.seedbox.desk.tin().settings().swap_law
            self._show(self._kept)

    # Looking for it

    @property
    def matching(self) -> bool:
        return self._worker is not None

    async def _match(self, lists: tuple[SwapList, ...], tolerance: int) -> None:
        from seedbox.season.swapping.matching import match

        today = self.seedbox.desk.today
        try:
            found = await in_background(lambda: match(lists, tolerance, today))
        except SeedboxError as error:
            self._worker = None
            self._say_above("No exchange is proposed.")
            self.seedbox.complain(error)
            return
        self._worker = None
        self._tab.table.remember(lists, tolerance, found)
        with suppress(NoMatches):  # a page that is just being closed
            self._show(found)

    def _tick(self) -> None:
        if self.matching:
            self._say_above(self._matching_words())

    def _matching_words(self) -> str:
        seconds = int(monotonic() - self._began)
        so_far = f" {seconds} s so far." if seconds else ""
        lists = counted(len(self._lists), "list")
        return f"Looking for the exchange among {lists} that is worth most …{so_far} x stops it."

    def reload(self) -> None:
        """The tin was changed, perhaps by booking this very proposal."""
        if self._waits:
            self.action_match_again()
            return
        if self._proposal is not None and not self.matching:
            mine = self._tab.own_list_named() if self._lists else None
            stale = f" {_STALE}" if mine is not None and mine != self._lists[FIRST] else ""
            self._say_above(f"{summary(self._proposal, self._me)}{stale}")

    @on(VirtualList.Chosen)
    def _chosen(self) -> None:
        self.action_open()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        found = self._proposal
        if action in ("book", "open", "save"):
            return found is not None and bool(found.transfers)
        if action == "stop":
            return self.matching
        if action == "match_again":
            return not self.matching and bool(self._tab.table.lists)
        return super().check_action(action, parameters)

    # Actions

    @action("B", "Book it", "Book your part, as one change that u takes back.")
    def action_book(self) -> None:
        from seedbox.tui.swap_booking import book_plan

        if self._proposal is None:
            return
        try:
            found = self._tab.spare_now()
            plan = book_plan(self.seedbox, self._proposal, self._me, found)
        except SeedboxError as error:
            self.seedbox.complain(error)
        else:
            self.seedbox.ask(plan)

    @action("s", "Keep in a file", "Keep the proposal in a file, to look at and to book later.")
    def action_save(self) -> None:
        from seedbox.tui.swap_booking import keep_plan

        if self._proposal is not None:
            self.seedbox.ask(keep_plan(self.seedbox.desk, self._proposal, self._me))

    @action("enter", "All of it", "Show all about the highlighted line.", palette=False)
    def action_open(self) -> None:
        here, found, me, law = self._here(), self._proposal, self._me, self._law
        if here is not None and found is not None:
            page = SwapTextPage(
                "Proposal",
                lambda width: transfer_lines(here, found, me, law=law, width=width),
                self._code(here),
            )
            self.app.push_screen(page)

    def _code(self, one: Transfer) -> str:
        return one.offer.code if one.giver == self._me else ""

    @action("m", "Match again", "Look for an exchange anew, with the lists as they are now.")
    def action_match_again(self) -> None:
        mine = self._tab.own_list_named()
        if self.matching:
            return
        self._waits = mine is None
        if mine is None:
            self._say_above("Reckoning what is spare first …")
            return
        settings = self.seedbox.desk.tin().settings()
        self._law, self._me = settings.swap_law, FIRST
        self._lists = (mine, *self._tab.table.lists)
        known = self._tab.table.known(self._lists, settings.swap_tolerance)
        if known is not None:  # the same lists have the same answer
            self._show(known)
            return
        self._began = monotonic()
        self._show(None)
        work = self._match(self._lists, settings.swap_tolerance)
        self._worker = self.run_worker(work, exclusive=True, group="match")
        self._say_above(self._matching_words())
        self.refresh_bars()

    @action("x", "Stop", "Stop looking for an exchange.")
    def action_stop(self) -> None:
        if self._worker is not None:
            self._worker.cancel()
            self._worker = None
            self._say_above("Stopped. m looks again.")
            self.refresh_bars()

    @action("T", "Tolerance", "Say by how many portions giving and getting may differ.")
    def action_settings(self) -> None:
        from seedbox.tui.swap_forms import settings_plan

        def again() -> None:
            if self._tab.table.lists:
                self.app.call_later(self.action_match_again)

        self.seedbox.ask(settings_plan(self.seedbox.desk, again))

    @action("right,left", "Other list", "Go from the lines to the people, and back.")
    def action_other_side(self) -> None:
        self._list("transfers" if self._on_balances else "balances").focus()

    @action("escape,b", "Back", "Back to where you were; stops the matching.")
    def action_back(self) -> None:
        self.action_stop()
        self.leave()
