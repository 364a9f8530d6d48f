"""What can be done to a sowing, the same keys on the list and on its page."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from seedbox.errors import SeedboxError
from seedbox.tin.garden_records import EventKind
from seedbox.tui.actions import action
from seedbox.tui.labels_queueing import QueuesLabels

if TYPE_CHECKING:
    from seedbox.tin.file import Tin
    from seedbox.tui.form import FormPlan
    from seedbox.tui.sowings_reading import Standing

_NEEDS_A_JOB = {"done", "done_with_more", "put_off", "skip"}
_NEEDS_A_SOWING = {
    "resow",
    "write_down",
    "over",
    "packet",
    "strike_out",
    "copy_code",
}


class SowingActions(QueuesLabels):
    """A page with a sowing on it."""

    def standing_here(self) -> Standing | None:
        raise NotImplementedError

    def codes_meant(self) -> list[str]:
        here = self.standing_here()
        return [here.growing.sowing.code] if here else []

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        here = self.standing_here()
        if action in _NEEDS_A_JOB:
            return here is not None and bool(here.jobs)
        if action in _NEEDS_A_SOWING:
            return here is not None
        return super().check_action(action, parameters)

    def _ask(self, plan_of: Callable[[Standing], FormPlan]) -> None:
        here = self.standing_here()
        if here is None:
            return
        try:
            plan = plan_of(here)
        except SeedboxError as error:
            self.seedbox.complain(error)
        else:
            self.seedbox.ask(plan)

    def _change(self, work: Callable[[Tin], str]) -> None:
        try:
            sentence = self.seedbox.desk.change(work)
        except SeedboxError as error:
            self.seedbox.complain(error)
        else:
            self.seedbox.done(sentence)

    @action("d", "Done", "Mark the next job as done; emergence asks for its count.", footer=True)
    def action_done(self) -> None:
        from seedbox.season.sowing.done import done
        from seedbox.tui.job_forms import BY_SOWING, done_words, marks_at_once

        here = self.standing_here()
        if here is None or here.next is None:
            return
        job, today = here.next, self.seedbox.desk.today
        if job.when.kind in BY_SOWING:
            self.action_resow()
        elif marks_at_once(here):
            self._change(lambda tin: done_words(here, done(tin, job.id, today=today), today))
        else:
            self.action_done_with_more()

    @action("D", "Done, with more", "Mark a job as done: which, when, how many, where it stands.")
    def action_done_with_more(self) -> None:
        from seedbox.tui.job_forms import done_plan

        self._ask(lambda here: done_plan(self.seedbox.desk, here))

    @action("o", "Put off", "Put a job off to a later day.", footer=True)
    def action_put_off(self) -> None:
        from seedbox.tui.job_forms import put_off_plan

        self._ask(lambda here: put_off_plan(self.seedbox.desk, here))

    @action("s", "Skip", "Leave the next job out for good; the later ones stay.")
    def action_skip(self) -> None:
        from seedbox.season.sowing.done import skip
        from seedbox.tui.job_forms import next_words

        here = self.standing_here()
        if here is None or here.next is None:
            return
        job, today = here.next, self.seedbox.desk.today
        kind = job.when.kind.value

        def work(tin: Tin) -> str:
            found = skip(tin, job.id, today=today)
            return (
                f"{here.growing.what}: {kind} left out.{next_words(found, today)} u takes it back."
            )

        self._change(work)

    @action("r", "Resow", "Sow it again: what is missing, or as many as then.")
    def action_resow(self) -> None:
        from seedbox.tui.sow_form import ask_to_resow

        here = self.standing_here()
        if here is not None:
            ask_to_resow(self.seedbox, here.growing)

    @action("w", "Write down", "Write down what happened: moved, counted again, failed, over.")
    def action_write_down(self) -> None:
        self._ask_what_happened(EventKind.MOVED)

    @action("E", "Over", "Say that it is over: harvested, cleared, or given away.")
    def action_over(self) -> None:
        self._ask_what_happened(EventKind.ENDED)

    def _ask_what_happened(self, kind: EventKind) -> None:
        from seedbox.tui.job_forms import happened_plan

        self._ask(lambda here: happened_plan(self.seedbox.desk, here, kind))

    @action("v", "Packet", "Show the packet that it was sown from.")
    def action_packet(self) -> None:
        here = self.standing_here()
        if here is not None:
            self.seedbox.jump(here.growing.packet.code)

    @action("x", "Strike out", "Strike out a sowing that was entered by mistake.")
    def action_strike_out(self) -> None:
        from seedbox.tin.sowings import remove_sowing

        here = self.standing_here()
        if here is None:
            return
        code = here.growing.sowing.code

        def work(tin: Tin) -> str:
            remove_sowing(tin, code)
            return (
                f"Struck out {here.growing.code}; its seed stays taken: recount the packet, or"
                " u brings it back."
            )

        self._change(work)

    @action("y", "Copy code", "Copy the sowing's code.")
    def action_copy_code(self) -> None:
        from seedbox.tui.copying import copy

        here = self.standing_here()
        if here is not None:
            self.say(copy(self.app, here.growing.sowing.code))
