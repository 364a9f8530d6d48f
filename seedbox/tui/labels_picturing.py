"""Pictures of labels made in a thread: one at a time, and what was wished last is drawn last."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from seedbox.errors import SeedboxError
from seedbox.tui.labels_picture import Drawn, drawn, scale_for, used_mm
from seedbox.tui.page import Page

if TYPE_CHECKING:
    from seedbox.printing.content import LabelJob

Room = tuple[int, int]
_MOST_KEPT = 200


@dataclass(frozen=True, slots=True)
class Wish:
    """A picture that is wanted: the key by which it is kept, how its job is made, how much room
    there is for it, and the printer's dots.
    """

    key: Hashable
    make: Callable[[], LabelJob]
    room: Room
    dpi: int


@dataclass(frozen=True, slots=True)
class Look:
    """A picture, or the sentence that says why there is none, and what the printer warns of."""

    drawn: Drawn | None = None
    refused: str = ""
    warnings: tuple[str, ...] = ()


class Picturing(Page):
    """A page with a picture of a label on it."""

    def __init__(self) -> None:
        super().__init__()
        self._wish: Wish | None = None
        self._drawing = False
        self._looks: dict[Hashable, Look] = {}

    def show_look(self, look: Look | None) -> None:
        """Show it; None while it is still being drawn."""
        raise NotImplementedError

    def forget_looks(self) -> None:
        """What was drawn may be another now."""
        self._looks.clear()

    def wish_for(self, wish: Wish) -> None:
        """Show this picture, at once if it is known."""
        self._wish = wish
        known = self._looks.get(wish.key)
        self.show_look(known)
        if known is None and not self._drawing:
            self._drawing = True
            self.run_worker(lambda: self._draw(wish), thread=True, group="picture")

    def _draw(self, wish: Wish) -> None:
        look = look_of(wish)
        if self.app.is_running:
            self.app.call_from_thread(self._drawn, wish, look)

    def _drawn(self, wish: Wish, look: Look) -> None:
        self._drawing = False
        if len(self._looks) >= _MOST_KEPT:
            self._looks.clear()
        self._looks[wish.key] = look
        if self._wish is not None and self.is_mounted:
            self.wish_for(self._wish)


def look_of(wish: Wish) -> Look:
    """Draw it. A label that lies is drawn twice: only then is it known how far it is used."""
    from seedbox.printing.label_picture import label_picture

    try:
        job = wish.make()
        size = job.sheet.label_width_mm, job.sheet.label_height_mm
        scale = scale_for(*size, wish.room)
        picture = label_picture(job, scale.pixels_per_mm, dpi=wish.dpi)
        if scale.lying:
            scale = scale_for(*size, wish.room, used_mm(picture))
            picture = label_picture(job, scale.pixels_per_mm, dpi=wish.dpi)
    except SeedboxError as error:
        return Look(refused=f"{error.sentence} {error.hint}".strip())
    return Look(drawn(picture, scale, job.sheet.corner), warnings=tuple(map(str, picture.warnings)))
