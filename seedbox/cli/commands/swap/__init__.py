"""`swap`: what is spare, what is wanted, whose lists go together, and booking it."""

from __future__ import annotations

from seedbox.cli.command import LazyFamily

command = LazyFamily(
    "swap",
    package=__name__,
    modules={
        "spare": "spare",
        "offer": "offer",
        "keep": "keep",
        "want": "want",
        "list": "list_to_give",
        "match": "match",
        "give": "give",
        "receive": "receive",
        "book": "book",
    },
    help=(
        "Seed swaps: what is spare, what is wanted, who gives what to whom, and booking it.\n\n"
        "spare says what the plans leave over, want what you look for. list writes both for the "
        "others, match proposes an exchange among any number of lists, and book puts it into the "
        "tin as one change that undo takes back."
    ),
)
