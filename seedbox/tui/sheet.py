"""A small screen over a page: a prompt or a form."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, cast

from textual.screen import ModalScreen

from seedbox.tui.actions import Action, HasActions, actions_of
from seedbox.tui.leaving import Leaves
from seedbox.tui.styles import SHEET_OVER_PAGE

if TYPE_CHECKING:
    from seedbox.tui.app import SeedboxApp


class Sheet(HasActions, Leaves, ModalScreen[None]):
    """A small screen over another one: a prompt, a form. Keys of the app do not reach past it."""

    DEFAULT_CSS = SHEET_OVER_PAGE

    @property
    def seedbox(self) -> SeedboxApp:
        return cast("SeedboxApp", self.app)

    def possible_actions(self) -> Iterable[Action]:
        return actions_of(type(self))
