"""Which commands there are and where each one lives. Importing this imports no command."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Entry:
    """A command: its name, the module under `seedbox.cli.commands`, its place in the help."""

    name: str
    module: str
    section: str


_SECTIONS: dict[str, dict[str, str]] = {
    "What is in the tin": {
        "list": "list_packets",
        "show": "show",
        "forecast": "forecast",
        "crop": "crop",
    },
    "Packets": {
        "add": "add",
        "edit": "edit",
        "take": "take",
        "recount": "recount",
        "move": "move",
        "remove": "remove",
        "test": "germination_test",
        "store": "store",
    },
    "Labels and files": {
        "labels": "labels",
        "import": "import_file",
        "export": "export_file",
        "backup": "backup",
    },
    "History and settings": {
        "undo": "undo",
        "redo": "redo",
        "history": "history",
        "settings": "settings",
    },
    "Beginning": {
        "demo": "demo",
        "completion": "completion",
    },
}

ENTRIES: dict[str, Entry] = {
    name: Entry(name, module, section)
    for section, commands in _SECTIONS.items()
    for name, module in commands.items()
}


def sections() -> dict[str, tuple[str, ...]]:
    """Command names under the heading they stand under in the help."""
    return {section: tuple(commands) for section, commands in _SECTIONS.items()}
