"""Which commands there are, where each one lives, and what it does. Importing this imports none."""

from __future__ import annotations

from typing import NamedTuple

_SECTIONS = {
    "What to do": (
        ("today", "today", "Say what is due today, what is late first."),
        ("now", "now", "Say what this tin can sow now, where, and how many."),
        ("sow", "sow", "Sow a packet: seed, cells, jobs and label."),
        ("sowings", "sowings", "Sowings in progress, and what is next for each."),
        ("done", "done", "Say that a job of a sowing is done."),
        ("put-off", "put_off", "Put a job off to another day."),
        ("skip", "skip", "Leave a job out."),
        ("resow", "resow", "Sow again what failed, or is due again."),
    ),
    "What is in the tin": (
        ("list", "list_packets", "List packets with germination and advice."),
        ("show", "show", "Show all that is known of one packet."),
        ("forecast", "forecast", "Say how seed would keep: what if I move it?"),
        ("crop", "crop", "Show what is known of a crop, with sources."),
    ),
    "Packets": (
        ("add", "add", "Add a packet."),
        ("edit", "edit", "Put right what is written down about a packet."),
        ("take", "take", "Take seed out: sown, given, lost or tested."),
        ("receive", "receive", "Put more seed of the same lot into a packet."),
        ("recount", "recount", "Say how much is really in a packet."),
        ("move", "move", "Move packets into another store."),
        ("remove", "remove", "Strike out a packet entered by mistake."),
        ("test", "germination_test", "Germination tests: plan, start, count, finish, list."),
        ("store", "store", "Stores: how warm and damp it is where packets lie."),
    ),
    "Garden": (
        ("garden", "garden", "Show or say when the frosts are, and where it lies."),
        ("place", "place", "Places where things grow, how warm and how light."),
        ("plan", "plan", "Plants wanted of each crop, and how often to sow."),
        ("year", "year", "The weeks of each crop, as lines or for the shed door."),
        ("calendar", "calendar", "Write jobs and sowing windows as a calendar file."),
        ("buy", "buy", "List the seed that is missing for the plans."),
        ("save-seed", "save_seed", "Say what comes true; put saved seed into a packet."),
    ),
    "Swap": (("swap", "swap", "Seed swaps: spare, wants, lists, who gives what to whom."),),
    "Labels and files": (
        ("labels", "labels", "Write labels as a PDF and read their codes back."),
        ("fold", "fold", "Write seed packets to fold, with how to sow on the back."),
        ("dividers", "dividers", "Write cards that part the packets in a tin."),
        ("scan", "scan", "List what is in photos of packets, labels or trays."),
        ("stocktake", "stocktake", "Compare what lies in a store with the tin."),
        ("import", "import_file", "Import a spreadsheet, or an exported tin."),
        ("export", "export_file", "Write the tin for other programs."),
        ("backup", "backup", "Copy the whole tin to one file."),
    ),
    "History and settings": (
        ("undo", "undo", "Take the latest change back."),
        ("redo", "redo", "Do the latest undone change again."),
        ("history", "history", "Show the latest changes."),
        ("settings", "settings", "Show or change the settings of this tin."),
    ),
    "Beginning": (
        ("demo", "demo", "Make and show the tin of an invented garden."),
        ("completion", "completion", "Print the completion script for a shell."),
    ),
}


class Entry(NamedTuple):
    """A command: its name, its module under `seedbox.cli.commands`, its section, its summary."""

    name: str
    module: str
    section: str
    summary: str


ENTRIES: dict[str, Entry] = {
    name: Entry(name, module, section, summary)
    for section, commands in _SECTIONS.items()
    for name, module, summary in commands
}


def sections() -> dict[str, list[Entry]]:
    """The commands under the heading they stand under in the help."""
    return {
        section: [entry for entry in ENTRIES.values() if entry.section == section]
        for section in _SECTIONS
    }
