"""A hand scanner types like a keyboard, only faster and evenly: its codes are caught before keys
act.

While nothing is being typed in, a key that may begin a code or a shop's number is held back for a
moment. If no other follows, it acts: a person pressed it. A slow scanner's next key may come after
that, so whatever may still belong to a code is held as long as the rhythm lasts, and what the
first key had opened is closed again when a code has come. Otherwise the keys are handed on as they
came. A capital waits longer: scanners send what is printed, and few actions have one.
Inside a text field keys pass at once, and a scanned code is taken out of the field again.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from textual import events
from textual.timer import Timer

from seedbox.tin.codes import looks_like_code
from seedbox.tui.burst import Burst

if TYPE_CHECKING:
    from textual.widgets import Input

    from seedbox.tui.app import SeedboxApp

FIRST_SECONDS = 0.04
"""How long the first key of what may be a code is held back."""
GAP_SECONDS = 0.12
"""The slowest rhythm of a scanner, from key to key; fingers type codes more slowly than that."""


class ScannerKeys:
    """Stands between the keyboard and the app."""

    def __init__(self, app: SeedboxApp) -> None:
        self._app = app
        self._burst = Burst(GAP_SECONDS)
        self._held: list[events.Key] = []
        self._timer: Timer | None = None
        self._pauses = 0
        # How many screens were open before the first key of a burst was let through, if it was.
        self._screens: int | None = None

    @property
    def holding(self) -> bool:
        """Whether keys are held back at this moment."""
        return bool(self._held)

    async def takes(self, event: events.Event) -> bool:
        """Whether the event is used up here."""
        if not isinstance(event, events.Key | events.Paste) or event.is_forwarded:
            return False
        from textual.widgets import Input

        focused = self._app.focused
        if isinstance(event, events.Paste):
            pasted = event.text.strip()
            is_code = not isinstance(focused, Input) and looks_like_code(pasted)
            return is_code and self._app.jump_from_scan(pasted)
        if isinstance(focused, Input):
            if self._held:
                await self._hand_on()
            return self._watch_field(event, focused)
        return await self._watch_keys(event)

    def _watch_field(self, event: events.Key, field: Input) -> bool:
        if event.is_printable and event.character:
            self._note(event)
            return False
        code = self._burst.text(event.time) if event.key == "enter" else ""
        screens = self._screens
        self._forget()
        if not looks_like_code(code):
            return False
        # The field handles its keys in its own time: this is asked of it after the last of them.
        field.call_later(self._take_out, field, code, screens)
        return True

    async def _take_out(self, field: Input, code: str, screens: int | None) -> None:
        """Take a scanned code out of the field it was typed into, and go to what it names. The
        field that asks for a code keeps it, and says itself what is wrong with it.
        """
        from seedbox.tui.code_prompt import CodePrompt

        if isinstance(self._app.screen, CodePrompt):
            field.value = code
            await field.action_submit()
            return
        typed = code if field.value.endswith(code) or screens is None else code[1:]
        if not field.value.endswith(typed):
            await field.action_submit()
            return
        field.value = field.value.removesuffix(typed)
        self._close(screens)
        self._app.jump_from_scan(code)

    async def _watch_keys(self, event: events.Key) -> bool:
        if event.key == "enter" and self._held and self._scanned(self._burst.text(event.time)):
            return True
        if event.is_printable and event.character and self._may_hold(event):
            if self._burst.parts_before(event.character):
                await self._hand_on()
            self._note(event)
            self._held.append(event)
            slow = len(self._burst) > 1 or event.character.isupper()
            self._wait(GAP_SECONDS if slow else FIRST_SECONDS)
            return True
        await self._hand_on()
        return False

    def _may_hold(self, event: events.Key) -> bool:
        return self._burst.takes(event.character or "", event.time)

    def _note(self, event: events.Key) -> None:
        if not self._burst.goes_on(event.time):
            self._screens = None
        self._burst.add(event.character or "", event.time)

    def _scanned(self, text: str) -> bool:
        """Go to what a scanner has sent; tells whether it sent anything."""
        from seedbox.season.trade_numbers import looks_like_trade_number

        if not (looks_like_code(text) or looks_like_trade_number(text)):
            return False
        screens = self._screens
        self._forget()
        self._close(screens)
        self._app.jump_from_scan(text)
        return True

    def _close(self, screens: int | None) -> None:
        """Close what the first letter of a slow scanner's code has opened."""
        while screens is not None and len(self._app.screen_stack) > screens:
            self._app.pop_screen()

    def _wait(self, seconds: float) -> None:
        if self._timer is not None:
            self._timer.stop()
        self._pauses += 1
        self._timer = self._app.set_timer(seconds, partial(self._settle_after, self._pauses))

    async def _settle_after(self, pause: int) -> None:
        """A timer that ran out while the next key was on its way tells of no pause."""
        if pause == self._pauses:
            await self._settle()

    async def _settle(self) -> None:
        """The keys have paused: a whole code by now came from a scanner that sends no Enter."""
        if self._scanned(self._burst.tail()):
            return
        if len(self._burst) == 1:  # a person's key, or a slow scanner's first
            event = self._held.pop()
            self._screens = len(self._app.screen_stack)
            await self._app.pass_on(event)
        else:
            await self._hand_on()

    def _forget(self) -> list[events.Key]:
        held, self._held = self._held, []
        self._burst.clear()
        self._screens = None
        self._pauses += 1
        if self._timer is not None:
            self._timer.stop()
            self._timer = None
        return held

    async def _hand_on(self) -> None:
        """It was a person: let the keys that were held back act."""
        for event in self._forget():
            await self._app.pass_on(event)
