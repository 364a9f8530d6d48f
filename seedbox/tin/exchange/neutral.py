"""Text between a tin and a spreadsheet: nothing that a tin holds may run as a formula.

A cell that starts with = + - @ (also in full width, also after blanks), a tab or a line break is
written with an apostrophe before it, and so is one that starts with an apostrophe; reading takes
exactly that apostrophe off again, so the way there and back loses nothing.
"""

from __future__ import annotations

import re

from seedbox.tin.text import clean_line

_RUNS = re.compile("['\t\r\n]|[\\s\u200b\u2060\ufeff]*[=+\\-@＝＋－＠]")


def guarded(text: str) -> str:
    """The text as a spreadsheet cell that never runs.

    >>> guarded("=1+1"), guarded("'tis"), guarded("plain")
    ("'=1+1", "''tis", 'plain')
    """
    return f"'{text}" if text and _RUNS.match(text) else text


def unguarded(text: str) -> str:
    """Takes off the apostrophe that `guarded` put on, and no other.

    >>> unguarded("'=1+1"), unguarded("''tis"), unguarded("'21")
    ('=1+1', "'tis", "'21")
    """
    return text[1:] if text[:1] == "'" and _RUNS.match(text, 1) else text


def shown(text: str, longest: int = 40) -> str:
    """The text in quotation marks for a message: one line, cut where it is long."""
    line = clean_line(text[: longest * 4])
    return f"“{line}”" if len(line) <= longest else f"“{line[: longest - 1]}…”"
