"""A hand scanner types like a keyboard, only faster: its codes are caught before keys act.

While nothing is being typed in, P, S or T is held back for a moment; if a whole code follows
faster than fingers go, it is a scan, with Enter behind it or without, as the scanner is set;
otherwise the keys are handed on as they came.
Inside a text field keys pass at once, and a scanned code is taken out of the field again.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import events
from textual.timer import Timer

from seedbox.tin.codes import looks_like_code
from seedbox.tui.burst import Burst

if TYPE_CHECKING:
    from textual.widgets import Input

    from seedbox.tui.app import SeedboxApp

GAP_SECONDS = 0.04


class ScannerKeys:
    """Stands between the keyboard and the app."""

    def __init__(self, app: SeedboxApp) -> None:
        self._app = app
        self._burst = Burst(GAP_SECONDS)
        self._held: list[events.Key] = []
        self._timer: Timer | None = None

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
            self._burst.add(event.character, event.time)
            return False
        code = self._burst.code(event.time) if event.key == "enter" else ""
        self._burst.clear()
        if not code or not looks_like_code(code):
            return False
        # The field handles its keys in its own time: this is asked of it after the last of them.
        field.call_later(self._take_out, field, code)
        return True

    async def _take_out(self, field: Input, code: str) -> None:
        """Take a scanned code out of the field it was typed into, and go to what it names."""
        if field.value.endswith(code):
            field.value = field.value.removesuffix(code)
            self._app.jump_from_scan(code)
        else:
            await field.action_submit()

    async def _watch_keys(self, event: events.Key) -> bool:
        char = event.character or ""
        if event.key == "enter" and self._held:
            code = self._burst.code(event.time)
            if code and looks_like_code(code):
                self._forget()
                self._app.jump_from_scan(code)
                return True
        if event.is_printable and char and self._burst.opens(char):
            self._burst.add(char, event.time)
            self._held.append(event)
            self._wait()
            return True
        await self._hand_on()
        return False

    def _wait(self) -> None:
        if self._timer is not None:
            self._timer.stop()
        self._timer = self._app.set_timer(GAP_SECONDS, self._settle)

    async def _settle(self) -> None:
        """The keys have stopped: a whole code by now came from a scanner that sends no Enter."""
        code = self._burst.tail()
        if looks_like_code(code):
            self._forget()
            self._app.jump_from_scan(code)
        else:
            await self._hand_on()

    def _forget(self) -> list[events.Key]:
        held, self._held = self._held, []
        self._burst.clear()
        if self._timer is not None:
            self._timer.stop()
            self._timer = None
        return held

    async def _hand_on(self) -> None:
        """It was a person: let the keys that were held back act."""
        for event in self._forget():
            await self._app.pass_on(event)
