"""What can be done to the labels of the queue."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from seedbox.errors import SeedboxError
from seedbox.season.waiting_labels import LabelQueue, Waiting
from seedbox.tin.file import Tin
from seedbox.tui.actions import action
from seedbox.tui.labels_job import Choices, Written, sheet_of
from seedbox.tui.labels_picturing import Picturing, Room, Wish
from seedbox.tui.labels_rows import counted
from seedbox.tui.virtual_list import VirtualList

if TYPE_CHECKING:
    from seedbox.printing.sheets import Sheet
    from seedbox.tui.form import FormPlan

_NEEDS_A_LABEL = {
    "look", "thing", "mark", "mark_all", "more_copies", "fewer_copies", "copies", "design",
    "remove", "clear_queue", "copy_code",
}  # fmt: skip


class LabelsActions(Picturing):
    """The queue and what was chosen for it, without how it is shown."""

    def __init__(self) -> None:
        super().__init__()
        self.queue: LabelQueue | None = None
        self.choices = Choices()
        self.marked: set[int] = set()
        self.written: Written | None = None
        self.writing = False
        self.sheet_fault = ""

    def read_queue(self) -> None:
        """Read the queue again; the words on the labels are as they were."""
        raise NotImplementedError

    def show_all(self) -> None:
        """Show what was chosen."""
        raise NotImplementedError

    def wish_of(self, waiting: Waiting, room: Room) -> Wish:
        raise NotImplementedError

    @property
    def waiting(self) -> tuple[Waiting, ...]:
        return self.queue.waiting if self.queue else ()

    @property
    def sheet(self) -> Sheet | None:
        """The sheet in use; when it cannot be read, `sheet_fault` says why."""
        if self.queue is None:
            return None
        try:
            found = sheet_of(self.queue)
        except SeedboxError as error:
            self.sheet_fault = f"{error.sentence} {error.hint}".strip()
            return None
        self.sheet_fault = ""
        return found

    def waiting_here(self) -> Waiting | None:
        """The highlighted label."""
        for listed in self.query(VirtualList):  # none before the page is there, nor when it goes
            if listed.cursor < len(self.waiting):
                return self.waiting[listed.cursor]
        return None

    def meant(self) -> list[Waiting]:
        """The marked labels, or else the highlighted one."""
        marked = [one for one in self.waiting if one.entry.id in self.marked]
        here = self.waiting_here()
        return marked or ([here] if here else [])

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action in _NEEDS_A_LABEL:
            return self.waiting_here() is not None
        return super().check_action(action, parameters)

    def _change(self, work: Callable[[Tin], object], sentence: str) -> None:
        try:
            self.seedbox.desk.change(work)
        except SeedboxError as error:
            self.seedbox.complain(error)
        else:
            self._changed(sentence)

    def _changed(self, sentence: str) -> None:
        """The queue was changed here: read it again, other pages when they come up."""
        self.seedbox.changed_here(self, sentence)
        self.seedbox.note_labels()
        self.read_queue()

    def _ask(self, plan_of: Callable[[], FormPlan]) -> None:
        try:
            plan = plan_of()
        except SeedboxError as error:
            self.seedbox.complain(error)
        else:
            self.seedbox.ask(plan)

    # Single labels

    @action("enter", "Look", "Look at this label as large as the screen has room.", footer=True)
    def action_look(self) -> None:
        from seedbox.tui.labels_look_page import LookPage

        if self.waiting_here() is not None and self.sheet is not None:
            at = self.query_one(VirtualList).cursor
            self.app.push_screen(LookPage(self.waiting, at, self.wish_of))

    @action("v", "What it is for", "Show the packet, sowing or test that the label is for.")
    def action_thing(self) -> None:
        here = self.waiting_here()
        if here is not None:
            self.seedbox.jump(here.entry.code)

    @action("space", "Mark", "Mark this label, to change several at once.")
    def action_mark(self) -> None:
        here = self.waiting_here()
        if here is not None:
            self.marked ^= {here.entry.id}
            self.query_one(VirtualList).move_by(1)
            self.show_all()

    @action("asterisk", "Mark all", "Mark every label of the queue, or none.")
    def action_mark_all(self) -> None:
        every = {one.entry.id for one in self.waiting}
        self.marked = set() if every <= self.marked else every
        self.query_one(VirtualList).refresh()
        self.show_all()

    @action("escape", "No marks", "Take all marks away.")
    def action_clear_marks(self) -> None:
        self.say("")
        self.marked.clear()
        self.query_one(VirtualList).refresh()
        self.show_all()

    @action("plus", "One copy more", "One copy more of the marked labels, or of this one.")
    def action_more_copies(self) -> None:
        self._add_copies(1)

    @action("minus", "One copy fewer", "One copy fewer of the marked labels, or of this one.")
    def action_fewer_copies(self) -> None:
        self._add_copies(-1)

    def _add_copies(self, step: int) -> None:
        from seedbox.tin.label_changes import add_copies

        meant = self.meant()
        if step < 0 and any(one.entry.copies == 1 for one in meant):
            self.say("One copy is the least; x takes a label out of the queue.")
            return
        ids = [one.entry.id for one in meant]
        what = "One copy more" if step > 0 else "One copy fewer"
        words = f"{what} of {self._named(meant)}. u takes it back."
        self._change(lambda tin: add_copies(tin, ids, step), words)

    @action("n", "Copies", "Say how many copies of the marked labels, or of this one.")
    def action_copies(self) -> None:
        from seedbox.tui.labels_forms import copies_plan

        meant = self.meant()
        if meant:
            self._ask(lambda: copies_plan(self.seedbox.desk, meant))

    # At once, so that words typed right behind the key go into the filter of the list.
    @action(
        "d",
        "Design",
        "Choose the design of the marked labels, or of this one.",
        footer=True,
        priority=True,
    )
    def action_design(self) -> None:
        from seedbox.tui.labels_chooser import Chooser
        from seedbox.tui.labels_choosing import USUAL, Fitting, design_question

        meant, sheet = self.meant(), self.sheet
        if not meant or sheet is None or self.queue is None:
            return
        fitting = Fitting(self.choices, self.queue.settings.label_dpi)
        current = meant[0].entry.design or USUAL
        what = self._named(meant)
        question = design_question(what, sheet, fitting, current, self._take_design(meant))
        self.app.push_screen(Chooser(question))

    def _take_design(self, meant: Sequence[Waiting]) -> Callable[[str], str]:
        from seedbox.tui.labels_choosing import USUAL

        def take(name: str) -> str:
            from seedbox.printing.designs import design
            from seedbox.tin.label_changes import change_queued

            own = "" if name == USUAL else name
            ids = [one.entry.id for one in meant]
            try:
                if own:
                    design(own)
                self.seedbox.desk.change(lambda tin: change_queued(tin, ids, design=own))
            except SeedboxError as error:
                return f"{error.sentence} {error.hint}".strip()
            self._changed(f"{self._named(meant)}: design {name}. u takes it back.")
            return ""

        return take

    @action("x", "Take out", "Take the marked labels, or this one, out of the queue.")
    def action_remove(self) -> None:
        from seedbox.tin.label_queue import unqueue

        meant = self.meant()
        ids = [one.entry.id for one in meant]
        words = f"Took {self._named(meant)} out of the queue. u brings it back."
        self._change(lambda tin: unqueue(tin, ids), words)

    @action("X", "Empty the queue", "Take every label out of the queue.")
    def action_clear_queue(self) -> None:
        from seedbox.tin.label_queue import clear_queue

        words = f"Took {counted(len(self.waiting))} out of the queue. u brings them back."
        self._change(clear_queue, words)

    @action("y", "Copy code", "Copy the code of this label.")
    def action_copy_code(self) -> None:
        from seedbox.tui.copying import copy

        here = self.waiting_here()
        if here is not None:
            self.say(copy(self.app, here.code))

    @staticmethod
    def _named(meant: Sequence[Waiting]) -> str:
        from seedbox.tui.labels_forms import named

        return named(meant)
