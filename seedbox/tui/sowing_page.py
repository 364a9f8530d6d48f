"""One sowing: how it was sown, its jobs and why, what happened to it."""

from __future__ import annotations

from typing import ClassVar

from seedbox.season.sowing.desk import Desk as Season
from seedbox.tin.codes import shown
from seedbox.tui.code_page import CodePage
from seedbox.tui.sowing_actions import SowingActions
from seedbox.tui.sowing_text import sowing_lines
from seedbox.tui.sowings_reading import Standing, read_sowing
from seedbox.tui.text_lines import Line


class SowingPage(SowingActions, CodePage):
    """Shows the sowing with this code."""

    SCROLLED: ClassVar[str] = "#sowing"
    place = "sowing"
    AUTO_FOCUS: ClassVar[str | None] = "#sowing"
    FOOTER = ("back", "done", "put_off", "skip", "resow", "write_down", "help_keys")

    def __init__(self, code: str) -> None:
        super().__init__(code)
        self._found: tuple[Season, Standing] | None = None

    def title_words(self) -> str:
        return f" Seedbox · Sowings · {shown(self.code)}"

    def standing_here(self) -> Standing | None:
        return self._found[1] if self._found else None

    def read(self) -> None:
        desk = self.seedbox.desk
        self._found = read_sowing(desk.tin(), self.code, desk.today)

    def forget(self) -> None:
        self._found = None

    def lines(self, width: int) -> list[Line]:
        return sowing_lines(*self._found, width) if self._found else []
