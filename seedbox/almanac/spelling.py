"""Names that look like a mistyped one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

# Comparing letter by letter is slow: only the names that share most pairs of letters are compared.
COMPARED = 40
ALIKE = 0.75


def pairs(word: str) -> set[str]:
    """Neighbouring letters of a word, its ends marked: `pea` gives ` p`, `pe`, `ea`, `a `."""
    ended = f" {word} "
    return {ended[i : i + 2] for i in range(len(ended) - 1)}


def index(known: Iterable[str]) -> dict[str, list[str]]:
    """The known words under each pair of letters that they hold."""
    found: dict[str, list[str]] = {}
    for word in known:
        for pair in pairs(word):
            found.setdefault(pair, []).append(word)
    return found


def alike(word: str, indexed: Mapping[str, list[str]], limit: int) -> list[str]:
    """Known words that look like `word`, the likest first."""
    from difflib import get_close_matches

    shared: dict[str, int] = {}
    for pair in pairs(word):
        for each in indexed.get(pair, ()):
            shared[each] = shared.get(each, 0) + 1
    likely = sorted(shared, key=lambda each: -shared[each] / (len(each) + len(word)))
    return get_close_matches(word, likely[:COMPARED], n=limit, cutoff=ALIKE)
