"""What can be done on the Swap tab: choose portions, want things, read lists, propose, write."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING

from textual.worker import get_current_worker

from seedbox.errors import SeedboxError
from seedbox.season.swapping.spare import Spare
from seedbox.season.swapping.words import named
from seedbox.tin.file import Tin
from seedbox.tin.list_records import SwapWord, Want
from seedbox.tin.swap_choices import clear_swap_choice, set_swap_choice
from seedbox.tui.actions import action
from seedbox.tui.page import Page
from seedbox.tui.swap_table import SwapTable

if TYPE_CHECKING:
    from pathlib import Path

    from seedbox.season.sowing.buying import BuyLine
    from seedbox.season.swapping.records import Proposal, SwapList
    from seedbox.tui.app import SeedboxApp
    from seedbox.tui.form import FormPlan

_OF_SPARE = {"offer", "keep", "limit", "forget", "packet"}
_OF_WANTS = {"edit", "remove"}
_NO_TIN = "There is no tin yet: add packets first, on the Tin tab."
_NOT_YET = "What is spare is still being reckoned: a moment."


class SwapActions(Page):
    """The keys of the Swap tab, which says what is highlighted and what was read."""

    table: SwapTable
    side: str

    def spare_here(self) -> Spare | None:
        raise NotImplementedError

    def want_here(self) -> Want | None:
        raise NotImplementedError

    def own_list(self, name: str = "", town: str = "", *, notes: bool = False) -> SwapList | None:
        raise NotImplementedError

    def spare_now(self) -> tuple[Spare, ...] | None:
        raise NotImplementedError

    def show_table(self) -> None:
        raise NotImplementedError

    def turn_to(self, side: str) -> None:
        raise NotImplementedError

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action in _OF_SPARE:
            return self.spare_here() is not None
        if action in _OF_WANTS:
            return self.want_here() is not None
        return super().check_action(action, parameters)

    def _ask(self, plan_of: Callable[[], FormPlan]) -> None:
        try:
            plan = plan_of()
        except SeedboxError as error:
            self.seedbox.complain(error)
        else:
            self.seedbox.ask(plan)

    def change(self, work: Callable[[Tin], object], sentence: str, mind: str = "") -> None:
        """Carry out a change and say it; a fault is said instead."""
        try:
            self.seedbox.desk.change(work)
        except SeedboxError as error:
            self.seedbox.complain(error)
        else:
            self.seedbox.done(f"{sentence} u takes it back.{mind}")

    @action("right,left", "Other list", "Go from what is spare to what is wanted, and back.")
    def action_other_side(self) -> None:
        self.turn_to("spare" if self.side == "wants" else "wants")

    @action("enter", "Open", "Show all about a packet; change a want.", palette=False)
    def action_open(self) -> None:
        from seedbox.tui.swap_text_page import SwapTextPage, spare_lines

        one = self.spare_here()
        if self.want_here() is not None:
            self.action_edit()
        elif one is not None:
            law = self.seedbox.desk.tin().settings().swap_law
            page = SwapTextPage("Spare", lambda width: spare_lines(one, law, width), one.code)
            self.app.push_screen(page)

    # What is given

    @action("o", "Offer", "Offer this packet in spite of a caution; again: as Seedbox judges.")
    def action_offer(self) -> None:
        one = self.spare_here()
        if one is None:
            return
        said = one.choice
        if said and said.choice is SwapWord.OFFER and said.portions is None:
            self._leave(one)
        elif not one.could_give:
            self.say(f"Nothing of it is spare. {one.why}", wrong=True)
        else:
            mind = f" Mind: {' '.join(one.offer.cautions)}" if one.offer.cautions else ""
            self._choose(one, SwapWord.OFFER, f"Offered: {what(one)}.", mind)

    @action("K", "Keep back", "Keep this packet back; again: as Seedbox judges.")
    def action_keep(self) -> None:
        one = self.spare_here()
        if one is None:
            return
        if one.choice and one.choice.choice is SwapWord.KEEP:
            self._leave(one)
        else:
            self._choose(one, SwapWord.KEEP, f"Kept back: {what(one)}.")

    @action("n", "At most", "Offer at most so many portions of this packet.")
    def action_limit(self) -> None:
        from seedbox.tui.swap_forms import limit_plan

        one = self.spare_here()
        if one is not None and not one.could_give:
            self.say(f"Nothing of it is spare. {one.why}", wrong=True)
        elif one is not None:
            self._ask(lambda: limit_plan(self.seedbox.desk, one))

    @action("f", "Forget your word", "Forget your word on this packet: as Seedbox judges.")
    def action_forget(self) -> None:
        one = self.spare_here()
        if one is not None:
            self._leave(one)

    def _choose(self, one: Spare, word: SwapWord, sentence: str, mind: str = "") -> None:
        self.change(lambda tin: set_swap_choice(tin, one.line.packet, word), sentence, mind)

    def _leave(self, one: Spare) -> None:
        sentence = f"As Seedbox judges: {what(one)}."
        self.change(lambda tin: clear_swap_choice(tin, one.line.packet), sentence)

    @action("v", "Packet", "Show the packet of this line.")
    def action_packet(self) -> None:
        one = self.spare_here()
        if one is not None:
            self.seedbox.jump(one.code)

    # What is wanted

    @action("a", "Add a want", "Write down what you would like to get.")
    def action_add(self) -> None:
        from seedbox.tui.swap_forms import want_plan

        self._ask(lambda: want_plan(self.seedbox.desk, None))

    @action("e", "Change", "Change the highlighted want.")
    def action_edit(self) -> None:
        from seedbox.tui.swap_forms import want_plan

        want = self.want_here()
        if want is not None:
            self._ask(lambda: want_plan(self.seedbox.desk, want))

    @action("x", "Strike out", "Strike the highlighted want out.")
    def action_remove(self) -> None:
        from seedbox.tin.wants import remove_want

        want = self.want_here()
        if want is not None:
            self.change(lambda tin: remove_want(tin, want.id), "Struck out.")

    @action("t", "Take missing", "Take what your plans miss, as buy tells it, into the wants.")
    def action_take_missing(self) -> None:
        if not self.seedbox.desk.exists:
            self.say(_NO_TIN)
            return
        self.say("Reckoning what your plans miss …")
        work = partial(self._look_what_is_missing, self.seedbox)
        self.run_worker(work, thread=True, exclusive=True, group="missing")

    def _look_what_is_missing(self, app: SeedboxApp) -> None:
        from seedbox.tui.swap_reading import SwapReader

        desk, worker = app.desk, get_current_worker()
        try:
            with desk.another() as tin:
                found = SwapReader(tin, desk.today, lambda: worker.is_cancelled).missing()
        except SeedboxError as error:
            app.call_from_thread(app.complain, error)
            return
        if found is not None and not worker.is_cancelled:
            app.call_from_thread(self._take, found)

    def _take(self, missing: tuple[BuyLine, ...]) -> None:
        from seedbox.season.swapping.wants import take_missing
        from seedbox.tui.swap_forms import nothing_missing, taken_words

        if not missing:
            self.say(nothing_missing(self.seedbox.desk.tin()))
            return
        try:
            taken = self.seedbox.desk.change(lambda tin: take_missing(tin, missing))
        except SeedboxError as error:
            self.seedbox.complain(error)
        else:
            self.seedbox.done(taken_words(taken))

    # Lists, and the exchange

    @action("r", "Read lists", "Read the lists of others: CSV, JSON or XLSX.")
    def action_read_lists(self) -> None:
        from seedbox.tui.swap_files import read_plan

        self._ask(lambda: read_plan(lambda paths: self.app.call_later(self._show_lists, paths)))

    def _show_lists(self, paths: Sequence[Path] = ()) -> None:
        """Show the lists, with these files read."""
        from seedbox.tui.swap_lists_page import SwapListsPage

        self.app.push_screen(SwapListsPage(self, paths))

    @action("L", "Lists", "Show the lists that were read, and what of them matches yours.")
    def action_lists(self) -> None:
        self._show_lists()

    @action("m", "Match", "Propose an exchange between your list and those you read.")
    def action_propose(self) -> None:
        from seedbox.tui.swap_proposal_page import SwapProposalPage

        if not self.table.lists:
            self.seedbox.say("Read somebody's list first: r asks for the file.")
        elif self.own_list() is None:
            self.seedbox.say(self._not_yet())
        else:
            self.app.push_screen(SwapProposalPage(self))

    def _not_yet(self) -> str:
        return _NOT_YET if self.seedbox.desk.exists else _NO_TIN

    def own_list_named(self) -> SwapList | None:
        """The same list under the name by which it takes part in a proposal."""
        return self.own_list(self.seedbox.desk.tin().settings().grower_name or "you")

    @action("T", "How you swap", "Set the tolerance, whose rules hold, your name on labels.")
    def action_settings(self) -> None:
        from seedbox.tui.swap_forms import settings_plan

        self._ask(lambda: settings_plan(self.seedbox.desk, lambda: None))

    @action("B", "Kept proposal", "Open a proposal that was kept in a file, to book it.")
    def action_kept_proposal(self) -> None:
        from seedbox.tui.swap_booking import kept_plan

        self._ask(lambda: kept_plan(self.seedbox, self._show_proposal))

    def _show_proposal(self, proposal: Proposal, me: int) -> None:
        from seedbox.tui.swap_proposal_page import SwapProposalPage

        self.app.push_screen(SwapProposalPage(self, proposal, me))

    @action("w", "Write list", "Write your own list: CSV, JSON, or a sheet to print.")
    def action_write_list(self) -> None:
        from seedbox.tui.swap_files import write_plan

        if self.own_list() is None:
            self.say(self._not_yet())
        else:
            self._ask(lambda: write_plan(self.seedbox.desk, self.own_list))


def what(one: Spare) -> str:
    """Crop and variety with the packet's code."""
    return f"{named(one.line.crop, one.line.packet.variety)} ({one.line.code})"
