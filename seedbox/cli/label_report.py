"""What was printed, in a sentence and for programs. A code that cannot be read back is an error."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from seedbox.cli.output import say, say_json, warn
from seedbox.cli.words import count
from seedbox.errors import UnreadableCodeError

if TYPE_CHECKING:
    from seedbox.printing.content import Printed

_MOST_WARNINGS = 8


def report(printed: Printed, as_json: bool) -> None:
    """Say what was printed; a code that cannot be read is an error after that."""
    warn_of(printed)
    if as_json:
        say_json(facts(printed))
    else:
        say(sentence(printed))
    refuse_unreadable(printed)


def warn_of(printed: Printed) -> None:
    """What is not as it should be on the page, beside the answer."""
    warn(*map(str, printed.warnings[:_MOST_WARNINGS]))
    if len(printed.warnings) > _MOST_WARNINGS:
        warn(f"and {len(printed.warnings) - _MOST_WARNINGS} more such.")


def facts(printed: Printed, what: str = "labels") -> dict[str, Any]:
    """What was printed, for programs."""
    return {
        "path": str(printed.path),
        what: printed.labels,
        "pages": printed.pages,
        "proofed": printed.proofed,
        "unreadable": printed.unreadable,
        "warnings": [str(problem) for problem in printed.warnings],
    }


def refuse_unreadable(printed: Printed) -> None:
    """A label that does not scan is worse than none."""
    if printed.unreadable:
        names = ", ".join(printed.unreadable)
        raise UnreadableCodeError(
            f"Could not be read back: {names}.",
            hint="The file was written, but do not use those labels. Try a larger label or --dpi.",
        )


def sentence(printed: Printed, what: str = "label", where: str = "") -> str:
    """What was printed, and whether it was read back."""
    size = f"{count(printed.labels, what)} on {count(printed.pages, 'page')}"
    if not printed.proofed:
        proof = "The codes were not read back."
    elif printed.unreadable:
        proof = f"{count(len(printed.unreadable), 'code')} could not be read back."
    else:
        proof = "Every code was read back from the page."
    return f"Wrote {size} to {where or printed.path}. {proof}"
