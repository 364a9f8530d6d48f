"""The tabs in their order. A new one is a line in TABS and a function that makes its page.

A page is made when its tab is first opened and is then kept: cursor, filter and scrolling stay as
they were left. Seedbox opens on the tin: the first screen is the same every day and waits for
nothing that the tin does not need. How much is due stands beside Today in the first line.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from seedbox.tui.actions import Action

if TYPE_CHECKING:
    from seedbox.tui.tab_page import TabPage


@dataclass(frozen=True, slots=True)
class Tab:
    """One tab: its word in the first line, its key, what makes its page, what it is for."""

    name: str
    key: str
    make: Callable[[], TabPage]
    help: str

    @property
    def action(self) -> Action:
        return Action(f"show_tab('{self.name}')", (self.key,), f"{self.name} tab", self.help)


def _today() -> TabPage:
    from seedbox.tui.today_tab import TodayTab

    return TodayTab()


def _tin() -> TabPage:
    from seedbox.tui.tin_tab import TinTab

    return TinTab()


def _tests() -> TabPage:
    from seedbox.tui.tests_tab import TestsTab

    return TestsTab()


def _sowings() -> TabPage:
    from seedbox.tui.sowings_tab import SowingsTab

    return SowingsTab()


def _labels() -> TabPage:
    from seedbox.tui.labels_tab import LabelsTab

    return LabelsTab()


def _swap() -> TabPage:
    from seedbox.tui.swap_tab import SwapTab

    return SwapTab()


def _garden() -> TabPage:
    from seedbox.tui.garden_tab import GardenTab

    return GardenTab()


FIRST = "Tin"
TABS = (
    Tab("Today", "1", _today, "Show what is due today, what is late first."),
    Tab("Tin", "2", _tin, "Show the packets in the tin."),
    Tab("Tests", "3", _tests, "Show germination tests: running, finished, worth making."),
    Tab("Sowings", "4", _sowings, "Show trays and rows in progress, and what can be sown now."),
    Tab("Labels", "5", _labels, "Show the labels that wait, how they will look; print them."),
    Tab("Swap", "6", _swap, "Show what is spare and what is wanted; read lists, match, book."),
    Tab("Garden", "7", _garden, "Show frosts, places, plans and the year; change them."),
)


def tab(name: str) -> Tab:
    """The tab with this name."""
    return next(each for each in TABS if each.name == name)


def tab_actions() -> tuple[Action, ...]:
    """An action a tab, for keys, help and palette."""
    return tuple(each.action for each in TABS)
