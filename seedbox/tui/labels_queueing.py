"""From any list into the queue of labels by one key: a packet, a sowing, the slips of a test."""

from __future__ import annotations

from collections.abc import Sequence

from seedbox.errors import SeedboxError
from seedbox.tin.file import Tin
from seedbox.tui.actions import action
from seedbox.tui.page import Page


class QueuesLabels(Page):
    """A page with things on it that carry a code."""

    def codes_meant(self) -> Sequence[str]:
        """Codes of the marked lines, or of the highlighted one."""
        raise NotImplementedError

    def codes_shown(self) -> Sequence[str]:
        """Codes of every line that is shown; a page of one thing has no such list."""
        return ()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action == "queue_label":
            return bool(self.codes_meant())
        if action == "queue_shown":
            return bool(self.codes_shown())
        return super().check_action(action, parameters)

    @action("l", "Label", "Queue a label of this one, or of all that are marked, for printing.")
    def action_queue_label(self) -> None:
        self._queue(self.codes_meant())

    @action("L", "Label all shown", "Queue a label of each line that the list shows.")
    def action_queue_shown(self) -> None:
        self._queue(self.codes_shown())

    def _queue(self, codes: Sequence[str]) -> None:
        if not codes:
            return
        try:
            sentence = self.seedbox.desk.change(lambda tin: queued(tin, codes))
        except SeedboxError as error:
            self.seedbox.complain(error)
        else:
            self.seedbox.changed_here(self, sentence)
            self.seedbox.note_labels()


def queued(tin: Tin, codes: Sequence[str]) -> str:
    """Queue what does not wait yet, in its usual design; the sentence says what was done."""
    from seedbox.tin.label_queue import queue_labels
    from seedbox.tui.labels_rows import counted

    waiting = tin.label_queue()
    before = {one.code for one in waiting if not one.design}
    new = [code for code in dict.fromkeys(codes) if code not in before]
    if not new:
        what = "This label waits" if len(codes) == 1 else "All of these labels wait"
        return f"{what} in the Labels tab already."
    queue_labels(tin, new)
    again = f" ({len(codes) - len(new)} waited already)" if len(new) < len(codes) else ""
    them = "it" if len(new) == 1 else "them"
    return f"Queued {counted(len(new))}{again}: the Labels tab prints {them}. u takes {them} back."
