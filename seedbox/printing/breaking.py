"""Text broken into lines between words, and cut with an ellipsis; never hyphened."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence

from seedbox.printing.fonts import is_cjk, width

ELLIPSIS = "…"


def clusters(text: str) -> Iterator[str]:
    """The text in pieces that must not be cut: a character with the marks that sit on it."""
    held = ""
    for char in text:
        if held and not unicodedata.category(char).startswith("M"):
            yield held
            held = ""
        held += char
    if held:
        yield held


def wrapped(text: str, weight: str, limit: float, most: int) -> list[str]:
    """Up to `most` lines no wider than `limit` at 1 point; the last one takes the cut."""
    lines: list[str] = []
    rest = text
    while rest and len(lines) < most - 1:
        head, rest = _head(rest, weight, limit)
        if not head:
            break
        lines.append(head)
    if rest:
        lines.append(cut(rest, weight, limit))
    return lines


def _head(text: str, weight: str, limit: float) -> tuple[str, str]:
    """As many words as fit, and the rest. A word wider than the line is cut, never hyphened;
    one of Chinese, Japanese or Korean signs goes on in the next line.
    """
    if width(text, weight) <= limit:
        return text, ""
    taken = ""
    for word in text.split(" "):
        longer = f"{taken} {word}" if taken else word
        if width(longer, weight) > limit:
            break
        taken = longer
    if taken:
        return taken, text[len(taken) :].lstrip(" ")
    word, _, after = text.partition(" ")
    taken = _as_much(word, weight, limit)
    rest = text[len(taken) :]
    if taken and rest and is_cjk(rest[0]):
        return taken, rest
    return cut(word, weight, limit), after


def cut(text: str, weight: str, limit: float) -> str:
    """The text, or as much of it as fits before an ellipsis; empty if not even that fits."""
    if width(text, weight) <= limit:
        return text
    mark = width(ELLIPSIS, weight)
    return _as_much(text, weight, limit - mark).rstrip() + ELLIPSIS if mark <= limit else ""


def _as_much(text: str, weight: str, limit: float) -> str:
    taken, used = "", 0.0
    for cluster in clusters(text):
        used += width(cluster, weight)
        if used > limit:
            break
        taken += cluster
    return taken


def is_cut(lines: Sequence[str]) -> bool:
    return any(line.endswith(ELLIPSIS) for line in lines)
