"""What all screens share: the fixed lines, the smallest size, who may do what now."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, ClassVar, cast

from textual import events
from textual.app import ComposeResult

from seedbox.errors import SeedboxError
from seedbox.tui.actions import Action, HasActions, actions_of
from seedbox.tui.bars import KeyBar, TitleBar
from seedbox.tui.leaving import Leaves

if TYPE_CHECKING:
    from seedbox.tui.app import SeedboxApp

LEAST_WIDTH, LEAST_HEIGHT = 60, 15


class Page(HasActions, Leaves):
    """A whole screen. A subclass gives `body` and its actions."""

    place = ""
    # Names of the actions that the footer shows, in order; without it, those marked `footer`.
    FOOTER: ClassVar[tuple[str, ...]] = ()
    # Whether the tin was changed while another page was shown.
    stale = False

    @property
    def seedbox(self) -> SeedboxApp:
        return cast("SeedboxApp", self.app)

    def compose(self) -> ComposeResult:
        yield self.top()
        yield from self.body()
        yield KeyBar()

    def top(self) -> TitleBar:
        """The first line."""
        return TitleBar()

    def body(self) -> ComposeResult:
        raise NotImplementedError

    def on_mount(self) -> None:
        self.refresh_bars()

    def on_screen_resume(self) -> None:
        self.refresh_bars()
        if self.stale:
            self.stale = False
            self.reload()

    def on_resize(self, event: events.Resize) -> None:
        width, height = event.size
        small = width < LEAST_WIDTH or height < LEAST_HEIGHT
        self.set_class(small, "-small")
        if small:
            self._say_too_small(width, height)

    def refresh_bars(self) -> None:
        """Show where we are and which keys matter now."""
        if not self.stands:
            return
        self.query_one(TitleBar).say(self.title_words(), self.seedbox.desk.shown_place())
        self.query_one(KeyBar).show(self.footer_actions())

    @property
    def stands(self) -> bool:
        """Whether the page is put together: not while it is being opened or closed."""
        return self.is_mounted and bool(self.query(KeyBar))

    def title_words(self) -> str:
        return f" Seedbox · {self.place}"

    def say(self, sentence: str, *, wrong: bool = False) -> None:
        """One sentence above the keys; an empty one takes the last away."""
        from seedbox.tui.notices import Notice

        if not self.is_mounted:  # just opened: it is said once the page is there
            self.call_later(self.say, sentence, wrong=wrong)
            return
        if not self.query(Notice):
            if not sentence or not self.query(KeyBar):
                return
            self.mount(Notice(), before=self.query_one(KeyBar))
        for notice in self.query(Notice):  # none on a page that is just being closed
            notice.say(sentence, wrong=wrong)

    def _say_too_small(self, width: int, height: int) -> None:
        from seedbox.tui.notices import TooSmall

        if not self.query(TooSmall):
            self.mount(TooSmall())
        self.query_one(TooSmall).measure(width, height, f"{LEAST_WIDTH} by {LEAST_HEIGHT}")

    def reload(self) -> None:
        """Show the tin as it is now."""

    def tin_opens(self) -> bool:
        """Whether the tin can be read: judged on the thread that draws, before another opens it
        too. What is the matter is said.
        """
        try:
            self.seedbox.desk.tin()
        except SeedboxError as error:
            self.seedbox.complain(error)
            return False
        return True

    def takes_code(self, text: str) -> bool:
        """Whether this page uses a scanned code itself, so that nobody is led away from it."""
        return False

    def own_actions(self) -> tuple[Action, ...]:
        return actions_of(type(self))

    def footer_actions(self) -> tuple[Action, ...]:
        """Actions of this screen that a footer should name and that can be done now."""
        every = (*self.own_actions(), *self.seedbox.own_actions())
        if self.FOOTER:
            by_name = {known.name: known for known in reversed(every)}
            every = tuple(by_name[name] for name in self.FOOTER)
        return tuple(a for a in every if (self.FOOTER or a.footer) and self._possible(a))

    def possible_actions(self) -> Iterable[Action]:
        """Everything that can be done now, for the palette."""
        return (a for a in (*self.own_actions(), *self.seedbox.own_actions()) if self._possible(a))

    def _possible(self, known: Action) -> bool:
        owner = self if hasattr(self, known.method) else self.app
        return bool(owner.check_action(known.name, ()))
