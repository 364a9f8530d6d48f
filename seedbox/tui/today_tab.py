"""What is due today, what is late first, whatever it comes from."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from seedbox.errors import SeedboxError
from seedbox.season.jobs import Job
from seedbox.season.sowing.today import Board, board
from seedbox.tin.codes import shown
from seedbox.tui.actions import action
from seedbox.tui.cells import plain
from seedbox.tui.columns import Column
from seedbox.tui.tab_page import TabPage
from seedbox.tui.virtual_list import Row, VirtualList

COLUMNS = (
    Column("when", "When", 14),
    Column("kind", "What", 12, most=16),
    Column("code", "Code", 9),
    Column("crop", "Crop", 10, most=24),
    Column("variety", "Variety", 9, most=30),
)


class TodayTab(TabPage):
    """The list of jobs, and what to do about the highlighted one."""

    place = "Today"
    AUTO_FOCUS: ClassVar[str | None] = "#jobs"
    FOOTER = ("open", "help_keys", "quit")

    def __init__(self) -> None:
        super().__init__()
        self._board: Board | None = None

    def body(self) -> ComposeResult:
        yield Static("", id="summary", markup=False)
        yield VirtualList(COLUMNS, tint=_tint, id="jobs")
        yield Static("", id="detail", classes="-tall", markup=False)

    def on_mount(self) -> None:
        super().on_mount()
        self.reload()

    @property
    def jobs(self) -> tuple[Job, ...]:
        return self._board.all if self._board else ()

    def reload(self) -> None:
        desk = self.seedbox.desk
        try:
            self._board = board(desk.tin(), desk.today) if desk.exists else None
        except SeedboxError as error:
            self.seedbox.complain(error)
            return
        jobs = self.query_one(VirtualList)
        jobs.show_rows([self._row(job) for job in self.jobs], jobs.cursor)
        self.query_one("#summary", Static).update(Content(self._summary()))
        self._show_detail()
        self.refresh_bars()

    def _summary(self) -> str:
        found = self._board
        if found is None or not found.all:
            return " Nothing is due in the next two weeks."
        counted = (("late", found.late), ("due today", found.due), ("to come", found.coming))
        return " " + ", ".join(f"{len(jobs)} {word}" for word, jobs in counted)

    def _row(self, job: Job) -> Row:
        return (
            _when(job, self.seedbox.desk.today.toordinal()),
            job.kind,
            shown(job.code),
            job.crop,
            job.variety,
        )

    def _here(self) -> Job | None:
        place = self.query_one(VirtualList).cursor
        return self.jobs[place] if place < len(self.jobs) else None

    def _show_detail(self) -> None:
        job = self._here()
        words = f"{job.what} {job.why}" if job else ""
        self.query_one("#detail", Static).update(Content(plain(words)))

    @on(VirtualList.Moved)
    def _moved(self) -> None:
        self._show_detail()

    @on(VirtualList.Chosen)
    def _chosen(self) -> None:
        self.action_open()

    @action("enter", "Open", "Open what the job is about.", footer=True)
    def action_open(self) -> None:
        job = self._here()
        if job is not None:
            self.seedbox.jump(job.code)


def _when(job: Job, today: int) -> str:
    ahead = job.due.toordinal() - today
    if job.days_late:
        return f"{job.days_late} d late"
    day = f"{job.due.day} {job.due:%b}"
    if ahead < 0:  # it may be done over several days, and the last of them is still to come
        return f"since {day}"
    return {0: "today", 1: "tomorrow"}.get(ahead, f"{day}, in {ahead} d")


def _tint(key: str, text: str) -> str:
    if key == "when" and text.endswith("late"):
        return "warn"
    return "quiet" if key == "code" else ""
