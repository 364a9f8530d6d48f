"""Free text of a cell as a tin keeps it: cleaned, and no longer than the tin takes."""

from __future__ import annotations

from seedbox.tin.drafts import LONGEST_LINE, LONGEST_NOTE, LONGEST_TAG, MOST_TAGS
from seedbox.tin.exchange import words
from seedbox.tin.exchange.outcome import CellFaultError
from seedbox.tin.stores import LONGEST_NAME
from seedbox.tin.text import clean_line, clean_note


def line(text: str, longest: int = LONGEST_LINE) -> str:
    """One line of text."""
    _refuse_longer(text, longest)
    return clean_line(text)


def store_name(text: str) -> str:
    return line(text, LONGEST_NAME)


def note(text: str) -> str:
    """Several lines; a cell that has swallowed other rows is a fault."""
    _refuse_longer(text, LONGEST_NOTE)
    if text.count("\n") > 2 and _looks_like_rows(text):
        raise CellFaultError(
            "The cell holds several lines that look like rows of the table. "
            "Is a quotation mark left open?"
        )
    return exact_note(text)


def exact_note(text: str) -> str:
    """Several lines, whatever they look like."""
    _refuse_longer(text, LONGEST_NOTE)
    return clean_note(text)


def import_key(text: str) -> str | None:
    return line(text) or None


def tags(text: str) -> str:
    """Tags as the tin keeps them: parted by commas."""
    found = words.tags(text)
    if len(found) > MOST_TAGS:
        raise CellFaultError(f"There are {len(found)} tags; {MOST_TAGS} are the most.")
    for tag in found:
        _refuse_longer(tag, LONGEST_TAG)
    return ",".join(found)


def _refuse_longer(text: str, longest: int) -> None:
    if len(text) > longest:
        raise CellFaultError(f"The cell holds {len(text):,} characters; {longest:,} are the most.")


def _looks_like_rows(text: str) -> bool:
    """Whether most lines have the same delimiter equally often, at least three times."""
    lines = [line for line in text.split("\n") if line]
    for delimiter in ",;\t|":
        counts = [line.count(delimiter) for line in lines[1:-1]]
        if counts and min(counts) >= 3 and max(counts) == min(counts):
            return True
    return False
