"""Folding a name as people type it to one key: case, accents, hyphens, plurals, word order."""

from __future__ import annotations

from functools import cache

# Beginnings of names are short; a cell of a megabyte is not a name, and is not worth folding.
LONGEST_NAME = 120

_SPACES = str.maketrans(dict.fromkeys('-‐‑‒–—−_/,;:()[]"“”«»', " "))
_GONE = str.maketrans(dict.fromkeys("'’‘`´ʼ.&", ""))
_LETTERS = str.maketrans({"×": "x", "ø": "o", "ł": "l", "đ": "d", "æ": "ae", "œ": "oe"})


def words(text: str) -> list[str]:
    """The words of a name, folded: `Lamb's-Lettuces` gives `lamb`, `lettuce`.

    The word seed is left out beside others: `carrot seeds` is carrot.
    """
    plain = text[:LONGEST_NAME].casefold()
    if not plain.isascii():
        plain = _without_accents(plain.translate(_LETTERS))
    found = [_singular(word) for word in plain.translate(_GONE).translate(_SPACES).split()]
    return [word for word in found if word != "seed"] or found


def keys(text: str) -> tuple[str, str]:
    """Two keys of a name: words run together in order, and words sorted.

    The first makes `sweet corn` and `sweetcorn` one; the second `bean, French, dwarf` and
    `dwarf French bean`. The sorted key keeps its spaces, so the two never meet by accident.
    """
    found = words(text)
    return "".join(found), " ".join(sorted(found))


def _without_accents(text: str) -> str:
    from unicodedata import category, normalize

    return "".join(c for c in normalize("NFKD", text) if category(c) != "Mn").casefold()


@cache
def _singular(word: str) -> str:
    """A simple English singular, applied to both sides, so it needs to be steady, not right."""
    if len(word) < 4:
        return word
    if word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith("ie"):
        return word[:-2] + "y"
    if word.endswith(("sses", "shes", "ches", "xes", "oes")):
        return word[:-2]
    return word if word.endswith("ss") else word.removesuffix("s")
