"""Going back from a screen, once: a second Esc may come before the first has had its effect."""

from __future__ import annotations

from textual.screen import Screen


class Leaves(Screen[None]):
    """A screen that is left by `leave`."""

    _left = False

    def leave(self) -> None:
        """Go back to the screen below."""
        if not self._left and self.is_current:
            self._left = True
            self.dismiss()
