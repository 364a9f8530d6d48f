"""A page that says all about one line of the swap."""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.widgets import Static

from seedbox.season.swapping.cautions import law_cautions
from seedbox.season.swapping.list_writing import germination_words
from seedbox.season.swapping.records import Offer
from seedbox.season.swapping.spare import Spare
from seedbox.season.swapping.words import named
from seedbox.tui.actions import action
from seedbox.tui.scrolling_page import ScrollingPage
from seedbox.tui.swap_words import capital, offered
from seedbox.tui.text_lines import Line, content, heading, item, paragraph
from seedbox.tui.units import unbroken

Lines = Callable[[int], list[Line]]


class SwapTextPage(ScrollingPage):
    """Text that scrolls; `code` is the packet that it is about, '' for none of this tin."""

    SCROLLED: ClassVar[str] = "#swap-text"
    AUTO_FOCUS: ClassVar[str | None] = "#swap-text"
    FOOTER = ("back", "packet", "scroll_down", "scroll_up", "help_keys")
    place = "Swap"

    def __init__(self, title: str, lines: Lines, code: str = "") -> None:
        super().__init__()
        self._title, self._lines, self._code = title, lines, code

    def title_words(self) -> str:
        return f" Seedbox · Swap · {self._title}"

    def body(self) -> ComposeResult:
        with VerticalScroll(id="swap-text", classes="page-body"):
            yield Static("", id="swap-text-lines", markup=False)

    def on_mount(self) -> None:
        super().on_mount()
        self._draw()

    def on_resize(self, event: events.Resize) -> None:
        super().on_resize(event)
        self._draw()

    def _draw(self) -> None:
        width = max(40, self.app.size.width - 6)
        for text in self.query("#swap-text-lines").results(Static):  # none before it is mounted
            text.update(content(self._lines(width)))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action == "packet":
            return bool(self._code)
        return super().check_action(action, parameters)

    @action("v", "Packet", "Show the packet that this is about.")
    def action_packet(self) -> None:
        if self._code:
            self.seedbox.jump(self._code)

    @action("escape,b", "Back", "Back to where you were.")
    def action_back(self) -> None:
        self.leave()


def spare_lines(one: Spare, law: str, width: int) -> list[Line]:
    """What can be given of a packet and why, what to say with it, and the law."""
    lines = paragraph(f"{named(one.line.crop, one.line.packet.variety)}  {one.line.code}", width,
                      "bold")  # fmt: skip
    lines += paragraph(unbroken(f"{capital(offered(one))}. {one.why}"), width)
    return [*lines, *seed_lines(one.offer, width), *law_lines(law, width)]


def seed_lines(offer: Offer, width: int) -> list[Line]:
    """How good the seed is, and what must be said with it."""
    lines = heading("How good it is")
    lines += paragraph(unbroken(f"{capital(germination_words(offer.germination))}."), width)
    if offer.harvest_year:
        lines += paragraph(f"Harvested {offer.harvest_year}.", width)
    if offer.note:
        lines += heading("Note of its giver")
        lines += paragraph(" ".join(offer.note.split()), width)
    lines += heading("What to say with it")
    for caution in offer.cautions or ("Nothing besides.",):
        lines += item(unbroken(caution), width, "$warning" if offer.cautions else "")
    return lines


def law_lines(law: str, width: int) -> list[Line]:
    """What holds for every swap, by the setting swap_law."""
    lines = heading("Passing seed on")
    for sentence in law_cautions(law):
        lines += item(sentence, width)
    return lines
