"""What was drawn as pictures, in a sentence and for programs."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from seedbox.cli.label_report import facts, refuse_unreadable, sentence, warn_of
from seedbox.cli.output import say, say_json

if TYPE_CHECKING:
    from seedbox.printing.content import Printed


def report_pictures(printed: Printed, file: Path, what: str, as_json: bool) -> None:
    """Say which files hold the pages; a code that cannot be read is an error after that."""
    from seedbox.printing.pictures import page_paths

    paths = page_paths(file, printed.pages)
    warn_of(printed)
    if as_json:
        told = facts(printed, f"{what}s")
        say_json({**told, "path": str(paths[0]), "paths": [str(path) for path in paths]})
    else:
        named = str(paths[0]) if len(paths) == 1 else f"{paths[0]} to {paths[-1].name}"
        say(sentence(printed, what, named))
    refuse_unreadable(printed)
