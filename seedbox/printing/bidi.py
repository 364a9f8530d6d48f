"""The order of the eye for lines that run from right to left, wholly or in part.

This is the implicit part of the bidirectional algorithm (Unicode Standard Annex 9; names of rules
from memory, checked against another implementation): its control characters are dropped before.
"""

from __future__ import annotations

import unicodedata
from itertools import groupby

_MIRROR = str.maketrans("()[]{}<>«»‹›≤≥", ")(][}{><»«›‹≥≤")
_PAIRS = {"(": ")", "[": "]", "{": "}"}
_STRONG = {"L": "L", "R": "R", "EN": "R", "AN": "R"}
_NEUTRAL = ("B", "S", "WS", "ON", "BN", "ES", "ET", "CS")
_KNOWN = (*_STRONG, *_NEUTRAL, "AL", "NSM")
_INSIDE_NUMBERS = (("ES", "EN"), ("CS", "EN"), ("CS", "AN"))


def visual(text: str) -> str:
    """One line in the order in which it is drawn from left to right."""
    if text.isascii() or not any(unicodedata.bidirectional(char) in ("R", "AL") for char in text):
        return text
    base = _base_level(text)
    levels = _levels(text, base)
    order = list(range(len(text)))
    for level in range(max(levels), 0, -1):
        runs = groupby(order, lambda at, least=level: levels[at] >= least)  # type: ignore[misc]
        order = [at for high, run in runs for at in (reversed(list(run)) if high else run)]
    return "".join(mirrored(text[at]) if levels[at] % 2 else text[at] for at in order)


def mirrored(char: str) -> str:
    """A bracket as it looks from the other side (rule L4)."""
    return char.translate(_MIRROR)


def _base_level(text: str) -> int:
    """The direction of the first letter that has one (rules P2 and P3)."""
    kinds = map(_kind, text)
    return int(next((kind for kind in kinds if kind in ("L", "R", "AL")), "L") != "L")


def _kind(char: str) -> str:
    """The bidirectional class; what is not assigned runs from left to right, what would command
    the direction is a neutral sign.
    """
    kind = unicodedata.bidirectional(char) or "L"
    return kind if kind in _KNOWN else "ON"


def _levels(text: str, base: int) -> list[int]:
    """The embedding level of each character (rules W1 to W7, N0 to N2, I1, I2, L1)."""
    outside = "R" if base else "L"
    kinds = _weak([_kind(char) for char in text], outside)
    _brackets(text, kinds, outside)
    _neutral(kinds, outside)
    levels = [_level(kind, base) for kind in kinds]
    for at in range(len(text) - 1, -1, -1):
        if not text[at].isspace():
            break
        levels[at] = base
    return levels


def _level(kind: str, base: int) -> int:
    if base:
        return 1 if kind == "R" else 2
    return {"L": 0, "R": 1}.get(kind, 2)


def _weak(kinds: list[str], outside: str) -> list[str]:
    """Marks, numbers and what belongs to numbers (rules W1 to W7)."""
    kinds = _plain(kinds, outside)
    for at in range(1, len(kinds) - 1):  # W4
        left, kind, right = kinds[at - 1 : at + 2]
        if left == right and (kind, left) in _INSIDE_NUMBERS:
            kinds[at] = left
    _signs_of_numbers(kinds)
    strong = outside
    for at, kind in enumerate(kinds):  # W6, W7
        if kind in ("ES", "ET", "CS"):
            kinds[at] = "ON"
        elif kind in ("L", "R"):
            strong = kind
        elif kind == "EN" and strong == "L":
            kinds[at] = "L"
    return kinds


def _plain(kinds: list[str], outside: str) -> list[str]:
    """Marks as what they sit on, numbers behind Arabic letters as Arabic (rules W1 to W3)."""
    plain: list[str] = []
    strong = before = outside
    for given in kinds:
        before = kind = before if given == "NSM" else given
        if kind in ("L", "R", "AL"):
            strong = kind
        plain.append("AN" if kind == "EN" and strong == "AL" else kind)
    return ["R" if kind == "AL" else kind for kind in plain]


def _signs_of_numbers(kinds: list[str]) -> None:
    """Currency and per cent signs beside a number go with it (rule W5)."""
    at = 0
    while at < len(kinds):
        end = at
        while end < len(kinds) and kinds[end] == "ET":
            end += 1
        if end > at and "EN" in (kinds[at - 1] if at else "", *kinds[end : end + 1]):
            kinds[at:end] = ["EN"] * (end - at)
        at = max(end, at + 1)


def _brackets(text: str, kinds: list[str], outside: str) -> None:
    """Both of a pair of brackets go with what they hold (rule N0)."""
    for first, last in sorted(_bracket_pairs(text, kinds)):
        held = {_STRONG[kind] for kind in kinds[first + 1 : last] if kind in _STRONG}
        if not held:
            continue
        side = outside
        if outside not in held:
            before = next((_STRONG[k] for k in reversed(kinds[:first]) if k in _STRONG), outside)
            side = before if before != outside else outside
        kinds[first] = kinds[last] = side


def _bracket_pairs(text: str, kinds: list[str]) -> list[tuple[int, int]]:
    opened: list[tuple[str, int]] = []
    pairs = []
    for at, char in enumerate(text):
        if kinds[at] != "ON":
            continue
        if char in _PAIRS:
            opened.append((_PAIRS[char], at))
        else:
            match = next((n for n in range(len(opened) - 1, -1, -1) if opened[n][0] == char), None)
            if match is not None:
                pairs.append((opened[match][1], at))
                del opened[match:]
    return pairs


def _neutral(kinds: list[str], outside: str) -> None:
    """Blanks and signs go with both their neighbours, else with the line (rules N1 and N2)."""
    at = 0
    while at < len(kinds):
        end = at
        while end < len(kinds) and kinds[end] in _NEUTRAL:
            end += 1
        if end > at:
            left = _STRONG[kinds[at - 1]] if at else outside
            right = _STRONG[kinds[end]] if end < len(kinds) else outside
            kinds[at:end] = [left if left == right else outside] * (end - at)
        at = max(end, at + 1)
