"""The program on the screen: what holds on every page. Pages live in modules of their own."""

from __future__ import annotations

import os
import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar

from rich.text import Text
from textual import events
from textual.app import App
from textual.screen import Screen

from seedbox.errors import SeedboxError
from seedbox.tui.actions import Action, HasActions, action, actions_of
from seedbox.tui.desk import Desk
from seedbox.tui.page import Page
from seedbox.tui.scanning import ScannerKeys
from seedbox.tui.styles import SHEET
from seedbox.tui.tab_page import TabPage
from seedbox.tui.tabs import FIRST, tab, tab_actions
from seedbox.tui.themes import PLAIN, THEMES, colour_refused, starting_theme, theme_after

if TYPE_CHECKING:
    from textual.command import Provider

    from seedbox.tui.form import FormPlan

POLL_SECONDS = 2.0
FAULT = (
    "Seedbox stopped because of a fault in the program ({}). What was saved is safe.\n"
    "To see where it happened, start it again with SEEDBOX_DEBUG=1."
)
PALETTE_ID = "--command-palette"


def _palette_actions() -> type[Provider]:
    """Imported when the palette is first opened."""
    from seedbox.tui.palette import ActionProvider

    return ActionProvider


class SeedboxApp(HasActions, App[None]):
    """Seedbox over one tin, for one day."""

    CSS = SHEET
    TITLE = "Seedbox"
    COMMANDS: ClassVar[Any] = {_palette_actions}
    ENABLE_COMMAND_PALETTE = True

    def __init__(self, tin_path: Path, today: date) -> None:
        # Under NO_COLOR the framework must not mix colours of its own: the terminal's own stay.
        super().__init__(ansi_color=True if colour_refused() else None)
        self.desk = Desk(tin_path, today)
        self.drafts: dict[str, dict[str, str]] = {}
        self.opening_fault = ""
        self.tab_notes: dict[str, str] = {}
        self._counting = self._count_again = False
        self._tab_pages: dict[str, TabPage] = {}
        for known in tab_actions():
            self.bind(known.first_key, known.name, description=known.help, show=False)
        self._warned_of_drafts = False
        self._scanner = ScannerKeys(self)
        for theme in THEMES.values():
            self.register_theme(theme)
        self.theme = starting_theme(self._remembered_theme())

    def get_theme_variable_defaults(self) -> dict[str, str]:
        return THEMES[PLAIN].variables

    def on_mount(self) -> None:
        self.set_interval(POLL_SECONDS, self._look_for_changes)

    def get_default_screen(self) -> Screen[Any]:
        return self._tab_page(FIRST)

    def own_actions(self) -> tuple[Action, ...]:
        return (*tab_actions(), *actions_of(type(self)))

    # Tabs

    def _tab_page(self, name: str) -> TabPage:
        """The page of a tab, made once and kept."""
        if name not in self._tab_pages:
            page = tab(name).make()
            self._tab_pages[name] = page
            self.install_screen(page, name)
        return self._tab_pages[name]

    def action_show_tab(self, name: str) -> None:
        """Close the pages over the first tab, which lies below all, and put another over it."""
        page = self._tab_page(name)
        while len(self.screen_stack) > 1 and self.screen is not page:
            self.pop_screen()
        if self.screen is not page:
            self.push_screen(page)

    # What pages ask for

    def page(self) -> Page | None:
        """The page on top, below any prompt or form."""
        return next((s for s in reversed(self.screen_stack) if isinstance(s, Page)), None)

    def say(self, sentence: str, *, wrong: bool = False) -> None:
        """One sentence above the keys."""
        page = self.page()
        if page is not None:
            page.say(sentence, wrong=wrong)

    def complain(self, error: SeedboxError) -> None:
        self.say(f"{error.sentence} {error.hint}".strip(), wrong=True)

    def done(self, sentence: str) -> None:
        """A change was made: say so and show the tin as it is now."""
        self.reload_pages()
        if sentence:
            self.say(sentence)

    def reload_pages(self) -> None:
        for page in self._pages():
            page.stale = page not in self.screen_stack
            if not page.stale and page.stands:
                page.reload()

    def count_jobs(self) -> None:
        """Say beside Today how much is late or due, beside Labels how many wait; in a thread."""
        self._count_again = self._counting
        if self.desk.exists and not self._counting:
            self._counting = True
            self.run_worker(self._count_jobs, thread=True, group="jobs")

    def _count_jobs(self) -> None:
        from seedbox.season.sowing.today import board

        late = due = labels = 0
        try:
            with self.desk.another() as tin:
                labels = len(tin.label_queue())
                found = board(tin, self.desk.today, coming_days=0)
            late, due = len(found.late), len(found.due)
        except SeedboxError:  # whatever is wrong with the tin is said by the page that reads it
            pass
        note = f"{late} late" if late else f"{due} due"
        self.call_from_thread(self._note_jobs, "" if note == "0 due" else note, labels)

    def _note_jobs(self, note: str, labels: int) -> None:
        self._counting = False
        self._note({"Today": note, "Labels": str(labels or "")})
        if self._count_again:  # the tin was changed meanwhile
            self.count_jobs()

    def note_labels(self) -> None:
        """Say beside Labels how many wait."""
        try:
            labels = len(self.desk.tin().label_queue())
        except SeedboxError:  # said by the page that reads the tin
            return
        self._note({**self.tab_notes, "Labels": str(labels or "")})

    def _note(self, notes: dict[str, str]) -> None:
        self.tab_notes = notes
        page = self.page()
        if page is not None:
            page.refresh_bars()

    def changed_here(self, page: Page, sentence: str) -> None:
        """A change that `page` shows already; others read the tin again when they come up."""
        for other in self._pages():
            other.stale = other is not page
        page.say(sentence)

    def _pages(self) -> list[Page]:
        """Every page that is open, and every tab that was."""
        opened = [s for s in self.screen_stack if isinstance(s, Page)]
        return list(dict.fromkeys([*opened, *self._tab_pages.values()]))

    def ask(self, plan: FormPlan) -> None:
        """Put a form over the page."""
        from seedbox.tui.form import Form

        self.push_screen(Form(plan))

    def keep_draft(self, key: str, values: dict[str, str]) -> None:
        """Keep what was typed into a form that was left."""
        self.drafts[key] = values
        self._warned_of_drafts = False

    # Keys

    async def on_event(self, event: events.Event) -> None:
        if await self._scanner.takes(event):
            return
        await super().on_event(event)

    async def pass_on(self, event: events.Event) -> None:
        """Handle a key that the scanner's reader had held back."""
        await super().on_event(event)

    # Actions of every page

    @action("question_mark", "Help", "Show every key and what it does.", footer=True)
    def action_help_keys(self) -> None:
        from seedbox.tui.help_screen import HelpScreen

        if not isinstance(self.screen, HelpScreen):
            self.push_screen(HelpScreen(self.page()))

    @action("ctrl+p", "Find an action", "Find any action by a word of its name.", palette=False)
    def action_command_palette(self) -> None:
        from seedbox.tui.palette import open_palette

        open_palette(self)

    @action("u", "Undo", "Take the latest change back.")
    def action_undo(self) -> None:
        from seedbox.tin.history import undo

        self._step(undo, "Undone: {label}. U does it again.")

    @action("U,ctrl+r", "Redo", "Do again what was undone last.")
    def action_redo(self) -> None:
        from seedbox.tin.history import redo

        self._step(redo, "Done again: {label}. u takes it back.")

    def _step(self, work: Any, words: str) -> None:
        try:
            label = work(self.desk.tin())
        except SeedboxError as error:
            self.complain(error)
        else:
            self.theme = starting_theme(self._remembered_theme())
            self.done(words.format(label=label))

    @action("h", "History", "Show what was done to the tin, latest first.")
    def action_history(self) -> None:
        from seedbox.tui.history_screen import HistoryScreen

        if not isinstance(self.screen, HistoryScreen):
            self.push_screen(HistoryScreen())

    @action("S", "Stores", "Show, add and change the stores in which packets lie.")
    def action_stores(self) -> None:
        from seedbox.tui.stores_screen import StoresScreen

        if not isinstance(self.screen, StoresScreen):
            self.push_screen(StoresScreen())

    @action("c", "Go to a code", "Type a code from a packet and go to what it names.")
    def action_go_to_code(self) -> None:
        from seedbox.tui.code_prompt import CodePrompt

        self.push_screen(CodePrompt(""))

    @action(
        "p,P", "Type a packet's code", "The same, with its first letter P typed.", palette=False
    )
    def action_go_to_packet_code(self) -> None:
        from seedbox.tui.code_prompt import CodePrompt

        self.push_screen(CodePrompt("P"))

    @action("ctrl+t", "Colours", "Change between dark, light and the terminal's own colours.")
    def action_next_theme(self) -> None:
        self.theme = theme_after(self.theme)
        self._remember_theme()
        self.say(f"Colours: {self.theme}.")

    @action("q", "Quit", "Leave Seedbox. Everything is saved already.")
    async def action_quit(self) -> None:
        if self.drafts and not self._warned_of_drafts:
            self._warned_of_drafts = True
            self.say("A form you began is not saved yet and would be lost. Quit again to leave.")
            return
        self.desk.close()
        self.exit()

    @action("ctrl+q", "Quit", "The same, also out of a form.", palette=False, priority=True)
    async def action_quit_anywhere(self) -> None:
        from seedbox.tui.form import Form

        if isinstance(self.screen, Form):
            self.screen.action_leave()
        await self.action_quit()

    def action_help_quit(self) -> None:
        """Ctrl+C, which ends other programs."""
        self.say("Ctrl+C does not end Seedbox: q or Ctrl+Q does.")

    # Codes

    def jump(self, text: str) -> bool:
        """Go to what a code or a shop's number names; a page that ticks codes takes it instead.
        A fault is said as a sentence.
        """
        from seedbox.tui.code_jump import go_to, named, number_words

        page = self.page()
        if page is not None and page.takes_code(text):
            return True
        try:
            go_to(self, named(self.desk.tin(), text))
            words = number_words(self.desk.tin(), text)
        except SeedboxError as error:
            self.complain(error)
            return False
        if words:
            self.say(words)
        return True

    def jump_from_scan(self, text: str) -> bool:
        """A scanner sent a code: go there, or say what is wrong on the page that is open."""
        if self.screen.id == PALETTE_ID:
            self.pop_screen()
        return self.jump(text)

    def _fatal_error(self) -> None:
        """A fault of the program itself: a sentence, not pages of code."""
        if os.environ.get("SEEDBOX_DEBUG"):
            super()._fatal_error()
            return
        fault = sys.exc_info()[1]
        if not self._exit_renderables:
            self._exit_renderables.append(Text(FAULT.format(type(fault).__name__)))
        self._close_messages_no_wait()

    # Themes, other programs

    def watch_theme(self, name: str) -> None:
        self.set_class(name == PLAIN, "-plain")

    def _remembered_theme(self) -> str:
        if not self.desk.exists:
            return ""
        try:
            return self.desk.tin().settings().theme
        except SeedboxError as error:
            self.opening_fault = f"{error.sentence} {error.hint}".strip()
            return ""

    def _remember_theme(self) -> None:
        from seedbox.tin.settings import set_setting

        if not self.desk.exists:
            return
        try:
            set_setting(self.desk.tin(), "theme", self.theme)
        except SeedboxError as error:
            self.complain(error)

    def _look_for_changes(self) -> None:
        try:
            changed = self.desk.changed_elsewhere()
        except SeedboxError as error:
            self.complain(error)
            return
        if changed:
            self.reload_pages()
            self.say("Another program changed the tin: this is how it is now.")
