from __future__ import annotations

import pytest

from seedbox.tui.actions import Action, actions_of, key_word
from seedbox.tui.app import SeedboxApp
from seedbox.tui.code_prompt import CodePrompt
from seedbox.tui.form import Form
from seedbox.tui.help_screen import HelpScreen
from seedbox.tui.history_screen import HistoryScreen
from seedbox.tui.packet_page import PacketPage
from seedbox.tui.stores_screen import StoresScreen
from seedbox.tui.tin_tab import TinTab
from seedbox.tui.virtual_list import VirtualList

OWNERS = (
    SeedboxApp, TinTab, PacketPage, Form, CodePrompt, HistoryScreen, StoresScreen, HelpScreen,
    VirtualList,
)  # fmt: skip
EVERY = [(owner, known) for owner in OWNERS for known in actions_of(owner)]


@pytest.mark.parametrize("owner", OWNERS)
def test_no_key_means_two_things_on_one_screen(owner: type):
    keys = [key for known in actions_of(owner) for key in known.keys]
    assert len(keys) == len(set(keys))


@pytest.mark.parametrize(("owner", "known"), EVERY)
def test_each_action_has_a_label_and_a_sentence(owner: type, known: Action):
    assert known.label
    assert known.help.endswith((".", "…"))
    assert callable(getattr(owner, f"action_{known.name}"))


@pytest.mark.parametrize(("owner", "known"), EVERY)
def test_keys_reach_us_in_every_terminal(owner: type, known: Action):
    # Ctrl+I, Ctrl+M and Ctrl+H are Tab, Enter and Backspace (ECMA-48 control characters 9, 13, 8).
    for key in known.keys:
        assert key not in ("ctrl+i", "ctrl+m", "ctrl+h", "shift+enter")
        assert not (key.startswith("ctrl+") and key[5:].isdigit())


def test_keys_do_what_the_actions_say():
    bound = TinTab._merged_bindings.key_to_bindings if TinTab._merged_bindings else {}
    for known in actions_of(TinTab):
        for key in known.keys:
            assert [binding.action for binding in bound[key]] == [known.name]


def test_keys_are_written_for_people():
    assert key_word("question_mark") == "?"
    assert key_word("ctrl+r") == "Ctrl+R"
