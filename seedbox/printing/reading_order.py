"""Words that run from right to left, and letters that join: from the order of speech to the page.

The libraries are loaded only for text that needs them.
"""

from __future__ import annotations

import re
import unicodedata
from functools import cache
from typing import Any

_ARABIC = re.compile("[\\u0600-\\u06ff]")
# Blocks of scripts that run from right to left, and where Unicode keeps room for more of them.
_RIGHT = re.compile(
    "[\\u0590-\\u08ff\\ufb1d-\\ufdff\\ufe70-\\ufefc\\U00010800-\\U00010fff\\U0001e800-\\U0001efff]"
)
_REFUSED = ("", "LRI", "RLI", "FSI", "PDI")


def joined(text: str) -> str:
    """Arabic letters in their joined forms, in the order of speech; all else as it was."""
    if not _ARABIC.search(text):
        return text
    shaped: str = _reshaper().reshape(text)
    return shaped


def visual(text: str) -> str:
    """One line in the order in which it is drawn from left to right (Unicode Standard Annex 9)."""
    if not _RIGHT.search(text):
        return text
    from bidi.algorithm import get_display

    return str(get_display("".join(map(_orderable, text))))


def _orderable(char: str) -> str:
    """What has no direction of its own stands as a sign for the unknown: the library refuses it."""
    return char if unicodedata.bidirectional(char) not in _REFUSED else "\ufffd"


@cache
def _reshaper() -> Any:
    """Keeps the stretching stroke that a person typed, and no ligature that spells a whole word."""
    from arabic_reshaper import ArabicReshaper

    return ArabicReshaper({"delete_tatweel": False, "ARABIC LIGATURE ALLAH": False})
