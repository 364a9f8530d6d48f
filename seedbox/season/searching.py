"""Text as a filter compares it: without case and accents, so that `fruher` finds `Früher`."""

from __future__ import annotations


def search_key(text: str) -> str:
    """Case and accents folded away; letters that have no plain form stay as they are.

    >>> search_key("Früher Ὀξύς")
    'fruher οξυσ'
    """
    if text.isascii():
        return text.casefold()
    from unicodedata import combining, normalize

    return "".join(c for c in normalize("NFKD", text.casefold()) if not combining(c))
