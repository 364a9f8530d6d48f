"""Each action is defined once, at the method that does it: keys, footer, help and palette follow.

@action("t", "Take", "Take seeds out of this packet.", footer=True)
def action_take(self) -> None: ...
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypeVar

from textual.binding import Binding

KEY_WORDS = {
    "slash": "/",
    "question_mark": "?",
    "space": "Space",
    "enter": "Enter",
    "escape": "Esc",
    "asterisk": "*",
    "pageup": "PgUp",
    "pagedown": "PgDn",
    "up": "↑",
    "down": "↓",
    "left": "←",
    "right": "→",
    "home": "Home",
    "end": "End",
    "tab": "Tab",
    "minus": "-",
    "plus": "+",
    "backspace": "Backspace",
}

Method = TypeVar("Method", bound=Callable[..., Any])


@dataclass(frozen=True, slots=True)
class Action:
    """What one key does. `name` is the method `action_<name>` of the screen that owns it."""

    name: str
    keys: tuple[str, ...]
    label: str
    help: str
    footer: bool = False
    palette: bool = True
    priority: bool = False

    @property
    def key_words(self) -> str:
        """Keys as a person reads them: `/`, `Ctrl+P`, `j`."""
        return " ".join(key_word(key) for key in self.keys)

    @property
    def method(self) -> str:
        """The method that does it; a name may carry a value: `sort_by('year')`."""
        return f"action_{self.name.partition('(')[0]}"

    @property
    def first_key(self) -> str:
        return key_word(self.keys[0]) if self.keys else ""

    def bindings(self) -> list[Binding]:
        return [
            Binding(key, self.name, self.help, show=False, priority=self.priority)
            for key in self.keys
        ]


def key_word(key: str) -> str:
    """How a key is written for a person.

    >>> key_word("ctrl+p"), key_word("slash"), key_word("G")
    ('Ctrl+P', '/', 'G')
    """
    if key.startswith("ctrl+"):
        return f"Ctrl+{key[5:].upper()}"
    return KEY_WORDS.get(key, key)


def action(
    keys: str,
    label: str,
    help: str,
    *,
    footer: bool = False,
    palette: bool = True,
    priority: bool = False,
) -> Callable[[Method], Method]:
    """Declare the method below as an action; `keys` are split at commas, the first is shown."""

    def declare(method: Method) -> Method:
        name = method.__name__.removeprefix("action_")
        split = tuple(key.strip() for key in keys.split(",") if key.strip())
        known = Action(name, split, label, help, footer, palette, priority)
        method.__seedbox_action__ = known  # type: ignore[attr-defined]
        return method

    return declare


def actions_of(owner: type) -> tuple[Action, ...]:
    """The actions of a class, its own first, then those of its bases, in the order written."""
    found: dict[str, Action] = {}
    for base in owner.__mro__:
        for member in vars(base).values():
            known = getattr(member, "__seedbox_action__", None)
            if isinstance(known, Action):
                found.setdefault(known.name, known)
    return tuple(found.values())


class HasActions:
    """Gives a Textual class the bindings of the actions that it declares."""

    def __init_subclass__(cls, **options: Any) -> None:
        cls.BINDINGS = [  # type: ignore[attr-defined]
            binding
            for member in list(vars(cls).values())
            if isinstance(known := getattr(member, "__seedbox_action__", None), Action)
            for binding in known.bindings()
        ]
        super().__init_subclass__(**options)
