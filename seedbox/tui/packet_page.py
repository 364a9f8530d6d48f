"""One packet: advice and its reason, the forecast over the years, quantity, storage, tests."""

from __future__ import annotations

from datetime import date
from typing import ClassVar

from seedbox.season.cautions import packet_cautions
from seedbox.season.listing import PacketLine
from seedbox.season.testing.due import running_tests
from seedbox.tin.codes import shown
from seedbox.tin.file import Tin
from seedbox.tui.actions import action
from seedbox.tui.answers import Answers
from seedbox.tui.code_page import CodePage
from seedbox.tui.packet_actions import PacketActions
from seedbox.tui.packet_text import PacketFacts, packet_lines
from seedbox.tui.text_lines import Line

YEARS_AHEAD, MOST_YEARS_AHEAD = 4, 12


class PacketPage(PacketActions, CodePage):
    """Shows the packet with this code; what it says scrolls when it is taller than the window."""

    SCROLLED: ClassVar[str] = "#packet"
    AUTO_FOCUS: ClassVar[str | None] = "#packet"
    FOOTER = ("back", "take", "start_test", "record_test", "move", "edit", "help_keys")

    def __init__(self, code: str) -> None:
        super().__init__(code)
        self._facts: PacketFacts | None = None

    def title_words(self) -> str:
        return f" Seedbox · Tin · {shown(self.code)}"

    def read(self) -> None:
        self._facts = facts_of(self.seedbox.desk.tin(), self.code, self.seedbox.desk.today)

    def forget(self) -> None:
        self._facts = None

    def lines(self, width: int) -> list[Line]:
        return packet_lines(self._facts, width) if self._facts else []

    def line_here(self) -> PacketLine | None:
        return self._facts.line if self._facts else None

    def lines_meant(self) -> list[PacketLine]:
        return [self._facts.line] if self._facts else []

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action == "open_test":
            return bool(self._test_code())
        return super().check_action(action, parameters)

    def _test_code(self) -> str:
        """Code of the test that runs, or else of the latest; empty when there is none."""
        if self._facts is None:
            return ""
        running = [due.test for due in self._facts.running]
        tests = running or sorted(self._facts.line.dossier.tests, key=lambda test: test.on)
        return tests[-1].code if tests else ""

    @action("T", "Open its test", "Open the test that runs, or else the latest.")
    def action_open_test(self) -> None:
        self.seedbox.jump(self._test_code())


def facts_of(tin: Tin, code: str, today: date) -> PacketFacts:
    """Read one packet with its forecast and curve."""
    answers = Answers(tin, today)
    line = answers.line(tin.dossier(code))
    parent_id = line.packet.parent_id
    parent = next((p for p in tin.packets() if p.id == parent_id), None) if parent_id else None
    return PacketFacts(
        line=line,
        botanical_name=answers.book.botanical_name(line.packet.crop_id),
        cautions=packet_cautions(line.packet, line.crop),
        movements=tin.movements(line.packet.id),
        stores=answers.stores,
        points=answers.curve(line.dossier, _until(line, today)),
        parent_code=parent.code if parent else "",
        today=today,
        running=tuple(due for due in running_tests(tin, today) if due.packet.id == line.packet.id),
    )


def _until(line: PacketLine, today: date) -> date:
    """A few years on, or a year beyond the last good day."""
    until = line.forecast.good_until if line.forecast else None
    last = (until.year + 1) if until else today.year + YEARS_AHEAD
    year = min(max(last, today.year + YEARS_AHEAD), today.year + MOST_YEARS_AHEAD)
    return date(year, today.month, min(today.day, 28))
