"""What is due, what is late first: counts of germination tests and jobs of sowings alike."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static
from textual.worker import get_current_worker

from seedbox.errors import SeedboxError
from seedbox.season.jobs import Job
from seedbox.season.sowing.today import COMING_DAYS, Board, board
from seedbox.tin.codes import shown
from seedbox.tin.file import Tin
from seedbox.tui import today_sowing
from seedbox.tui.actions import action
from seedbox.tui.columns import Column
from seedbox.tui.tab_page import TabPage
from seedbox.tui.units import unbroken
from seedbox.tui.virtual_list import Row, VirtualList

COLUMNS = (
    Column("when", "When", 15),
    Column("kind", "What", 15, most=18),
    Column("code", "Code", 9),
    Column("crop", "Crop", 10, most=24),
    Column("variety", "Variety", 9, most=30),
)
_NOTHING = (
    f"Nothing is due in the next {COMING_DAYS} days. A germination test makes counts (3 shows which"
    " packets are worth one), a sowing makes jobs."
)


class TodayTab(TabPage):
    """The list of jobs, and what to do about the highlighted one."""

    DEFAULT_CSS = """
    #sow-now { height: 2; padding: 0 1; color: $foreground; }
    """
    place = "Today"
    AUTO_FOCUS: ClassVar[str | None] = "#jobs"
    FOOTER = ("open", "done", "put_off", "sow_now", "help_keys")

    def __init__(self) -> None:
        super().__init__()
        self._board: Board | None = None

    def body(self) -> ComposeResult:
        yield Static("", id="summary", markup=False)
        yield VirtualList(COLUMNS, tint=_tint, id="jobs")
        yield Static("", id="sow-now", markup=False)
        yield Static("", id="detail", classes="-tall", markup=False)

    def on_mount(self) -> None:
        super().on_mount()
        self.reload()

    @property
    def jobs(self) -> tuple[Job, ...]:
        return self._board.all if self._board else ()

    def reload(self) -> None:
        """Read what is due in a thread of its own: sowings need the forecasts of their packets."""
        desk = self.seedbox.desk
        if not desk.exists:
            self._show(Board(desk.today, (), (), ()))
            return
        if self.tin_opens():
            self.run_worker(self._read, thread=True, exclusive=True, group="reading")

    def _read(self) -> None:
        worker, desk = get_current_worker(), self.seedbox.desk
        try:
            with desk.another() as tin:
                found = board(tin, desk.today)
        except SeedboxError as error:
            self.app.call_from_thread(self.seedbox.complain, error)
            return
        if not worker.is_cancelled:
            self.app.call_from_thread(self._show, found)

    def _show(self, found: Board) -> None:
        here = self._here()
        self._board = found
        jobs = self.query_one(VirtualList)
        names = [job.job for job in self.jobs]
        place = names.index(here.job) if here and here.job in names else jobs.cursor
        jobs.show_rows([_row(job, found.on) for job in self.jobs], place)
        self.query_one("#summary", Static).update(Content(f" {_summary(found)}"))
        self._show_detail()
        self.refresh_bars()
        self._look_what_to_sow()

    def _look_what_to_sow(self) -> None:
        """The packets to sow now, in another thread: the jobs do not wait for them."""
        if not self.seedbox.desk.exists or not self.query("#sow-now"):  # or just being closed
            return
        self.query_one("#sow-now", Static).update(today_sowing.LOOKING)
        self.run_worker(self._read_what_to_sow, thread=True, exclusive=True, group="sow now")

    def _read_what_to_sow(self) -> None:
        from seedbox.tui.sow_now_reading import look_through

        worker, desk = get_current_worker(), self.seedbox.desk
        try:
            with desk.another() as tin:
                if len(tin.packets()) > today_sowing.MOST_PACKETS:
                    words = today_sowing.MANY
                else:
                    found = look_through(tin, desk.today, lambda: worker.is_cancelled)
                    words = today_sowing.sow_now_words(found) if found else ""
        except SeedboxError:
            return  # the jobs have said so already
        if words and not worker.is_cancelled:
            self.app.call_from_thread(self._show_what_to_sow, words)

    def _show_what_to_sow(self, words: str) -> None:
        if self.is_mounted:
            self.query_one("#sow-now", Static).update(Content(words))

    def _here(self) -> Job | None:
        place = self.query_one(VirtualList).cursor
        return self.jobs[place] if place < len(self.jobs) else None

    def _show_detail(self) -> None:
        job = self._here()
        if job is not None:
            words = unbroken(f"{_name(job)}: {job.what} {job.why}")
        else:
            words = _NOTHING if self._board else "Reading what is due …"
        self.show_detail(words)

    @on(VirtualList.Moved)
    def _moved(self) -> None:
        self._show_detail()

    @on(VirtualList.Chosen)
    def _chosen(self) -> None:
        self.action_open()

    # Actions

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        job = self._here() if self.is_mounted else None
        if action in {"open", "done"}:
            return job is not None
        if action == "put_off":
            return job is not None and _of_sowing(job)
        return super().check_action(action, parameters)

    @action("enter", "Open", "Open the test or the sowing that the job is about.", footer=True)
    def action_open(self) -> None:
        job = self._here()
        if job is not None:
            self.seedbox.jump(job.code)

    @action("d", "Done", "Mark the job as done; what needs a figure opens, to be counted.")
    def action_done(self) -> None:
        from seedbox.tui import today_jobs

        job = self._here()
        if job is not None:
            self._change(lambda tin: today_jobs.do(self.seedbox, tin, job))

    @action("o", "Put off a week", "Put the job of a sowing off by a week.")
    def action_put_off(self) -> None:
        from seedbox.tui import today_jobs

        job = self._here()
        if job is not None:
            self._change(lambda tin: today_jobs.put_off_a_week(self.seedbox, tin, job))

    @action("n", "Sow now", "Show what this tin can sow now, and why not the rest.")
    def action_sow_now(self) -> None:
        from seedbox.tui.sow_now_page import SowNowPage

        self.app.push_screen(SowNowPage())

    def _change(self, work: Callable[[Tin], str]) -> None:
        try:
            sentence = self.seedbox.desk.change(work)
        except SeedboxError as error:
            self.seedbox.complain(error)
        else:
            if sentence:
                self.seedbox.done(sentence)


def _of_sowing(job: Job) -> bool:
    return job.code.startswith("S")


def _name(job: Job) -> str:
    return f"{job.crop} {job.variety}".strip()


def _summary(found: Board) -> str:
    """`2 late, 1 due today, 3 in the next 14 days`."""
    parts = [
        f"{len(found.late)} late" if found.late else "",
        f"{len(found.due)} due" if found.due else "",
        f"{len(found.coming)} in the next {COMING_DAYS} days" if found.coming else "",
    ]
    return ", ".join(filter(None, parts)) or "Nothing to do"


def _row(job: Job, today: date) -> Row:
    return (when_words(job, today), job.kind, shown(job.code), job.crop, job.variety)


def when_words(job: Job, today: date) -> str:
    """`3 d late`, `since 14 Feb`, `today`, `tomorrow`, `3 Mar, in 12 d`."""
    if job.days_late:
        return f"{job.days_late} d late"
    day, ahead = f"{job.due.day} {job.due:%b}", (job.due - today).days
    if ahead < 0:  # it may be done over several days, and the last of them is still to come
        return f"since {day}"
    return {0: "today", 1: "tomorrow"}.get(ahead, f"{day}, in {ahead} d")


def _tint(key: str, text: str) -> str:
    if key == "when":
        return "bad" if text.endswith("late") else "quiet" if "in " in text else "warn"
    return "quiet" if key == "code" else ""
