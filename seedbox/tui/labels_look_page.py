"""One label of the queue as large as the screen has room."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from textual import events
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from seedbox.tui.actions import action
from seedbox.tui.cells import plain, wrapped
from seedbox.tui.labels_picturing import Look, Picturing, Room, Wish
from seedbox.tui.labels_rows import counted
from seedbox.tui.text_lines import content

if TYPE_CHECKING:
    from seedbox.season.waiting_labels import Waiting

DRAWING = "Drawing …"


class LookPage(Picturing):
    """Left and right turn to the other labels."""

    DEFAULT_CSS = """
    #look { height: 1fr; width: 100%; align: center middle; }
    #look-picture { width: 100%; height: 1fr; content-align: center middle; }
    #look-words { height: 2; padding: 0 1; background: $surface; }
    """
    place = "Labels · Look"
    FOOTER = ("back", "next_label", "label_before", "help_keys")

    def __init__(
        self, waiting: Sequence[Waiting], at: int, wish_of: Callable[[Waiting, Room], Wish]
    ) -> None:
        super().__init__()
        self._waiting, self._at, self._wish_of = waiting, at, wish_of

    def body(self) -> ComposeResult:
        yield Static("", id="look-picture", markup=False)
        yield Static("", id="look-words", markup=False)

    def on_mount(self) -> None:
        super().on_mount()
        self._ask()

    def on_resize(self, event: events.Resize) -> None:
        super().on_resize(event)
        self._ask()

    def _ask(self) -> None:
        width, height = self.app.size
        room = max(10, width - 4), max(3, height - 6)
        self.wish_for(self._wish_of(self._waiting[self._at], room))

    def show_look(self, look: Look | None) -> None:
        one = self._waiting[self._at]
        picture = Content(DRAWING)
        said = f"{self._at + 1} of {len(self._waiting)}: {one.crop} {one.variety}".rstrip()
        said += f", {one.code}, design {one.design}, {counted(one.labels)}."
        if look is not None and look.drawn is not None:
            picture = content(look.drawn.lines)
            left_out = look.drawn.left_out
            said += f" {counted(left_out, 'line')} more on paper." if left_out else ""
            said += "".join(f" ! {warning}" for warning in look.warnings)
        elif look is not None:
            picture = Content("\n".join(wrapped(look.refused, max(20, self.app.size.width - 8))))
        for shown in self.query("#look-picture").results(Static):  # none once it is being closed
            shown.update(picture)
        for words in self.query("#look-words").results(Static):
            words.update(Content(plain(said)))

    def _turn(self, step: int) -> None:
        self._at = (self._at + step) % len(self._waiting)
        self._ask()

    @action("right,j,down,space", "Next label", "Look at the next label.", footer=True)
    def action_next_label(self) -> None:
        self._turn(1)

    @action("left,k,up", "Label before", "Look at the label before.", footer=True)
    def action_label_before(self) -> None:
        self._turn(-1)

    @action("escape,b,enter", "Back", "Back to the queue.", footer=True)
    def action_back(self) -> None:
        self.leave()
