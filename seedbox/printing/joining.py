"""Arabic letters take the shape that their neighbours ask for.

The shapes are the joined forms that Unicode keeps for them (The Unicode Standard, section 9.2, and
the blocks from FB50 and FE70; numbers from memory), read from the character data of Python.
"""

from __future__ import annotations

import unicodedata
from functools import cache

_ZWJ, _TATWEEL, _LAM = "\u200d", "\u0640", "\u0644"
_ALEFS = "\u0622\u0623\u0625\u0627"
_FORM_BLOCKS = ((0xFB50, 0xFE00), (0xFE70, 0xFEFD))
_KINDS = ("isolated", "final", "initial", "medial")


def joined(text: str) -> str:
    """Arabic letters in their joined forms, in the order of speech; all else as it was."""
    if not any("\u0600" <= char <= "\u06ff" for char in text):
        return text
    shaped: list[str] = []
    at = 0
    while at < len(text):
        taken, char = _form_at(text, at)
        shaped.append(char)
        at += taken
    return "".join(shaped)


@cache
def _forms() -> dict[str, dict[str, str]]:
    """Shapes of each letter, and of lam with alef, by kind: from the Unicode character data."""
    found: dict[str, dict[str, str]] = {}
    for start, end in _FORM_BLOCKS:
        for code in range(start, end):
            kind, *letters = unicodedata.decomposition(chr(code)).split() or [""]
            plain = "".join(chr(int(letter, 16)) for letter in letters)
            wanted = len(plain) == 1 or (len(plain) == 2 and plain[0] == _LAM)
            if kind.strip("<>") in _KINDS and wanted:
                found.setdefault(plain, {}).setdefault(kind.strip("<>"), chr(code))
    return found


def _form_at(text: str, at: int) -> tuple[int, str]:
    """How many characters are drawn as one here, and as which."""
    reached = _joins_on(_neighbour(text, at, -1))
    pair = text[at : at + 2]
    ligature = _forms().get(pair, {}) if len(pair) == 2 and pair[1] in _ALEFS else {}
    if ligature:
        return 2, ligature.get("final" if reached else "isolated", ligature["isolated"])
    forms = _forms().get(text[at], {})
    before = reached and "final" in forms
    after = "initial" in forms and _is_joined_to(_neighbour(text, at, 1))
    kind = {(True, True): "medial", (True, False): "final", (False, True): "initial"}.get(
        (before, after), "isolated"
    )
    return 1, forms.get(kind, text[at])


def _neighbour(text: str, at: int, step: int) -> str:
    """The next letter on that side; marks on letters are looked through."""
    at += step
    while 0 <= at < len(text) and unicodedata.category(text[at]) == "Mn":
        at += step
    return text[at] if 0 <= at < len(text) else ""


def _joins_on(char: str) -> bool:
    """Whether a letter reaches out to the one after it."""
    return char in (_TATWEEL, _ZWJ) or "initial" in _forms().get(char, {})


def _is_joined_to(char: str) -> bool:
    """Whether a letter takes the hand of the one before it."""
    return char in (_TATWEEL, _ZWJ) or "final" in _forms().get(char, {})
