"""The words by which a packet is taken for planting stock where nobody says what it is."""

from __future__ import annotations

import re

# Plural only: Crown, Runner and Bulb stand in the names of crops and varieties grown from seed.
_PIECES = frozenset(
    ("sets", "cloves", "bulbs", "bulbils", "tubers", "slips", "crowns", "offsets", "corms")
)
# Crops that are all but never grown from true seed (common practice, no source).
_PLANTED = re.compile(r"(garlic|(seed )?potato(es)?)(?! chives| mustard)\b")
_RUNNERS = re.compile(r"strawberr(y|ies)\b.*\brunners\b")
_TRUE_SEED = re.compile(r"\b(true seed|true potato seed|from seed|seeds)\b")


def stock_word(crop: str, variety: str = "") -> str:
    """The word that speaks for planting stock in what a person wrote; empty where none does.

    >>> stock_word("onion", "Brown Sets"), stock_word("Seed potatoes"), stock_word("garlic chives")
    ('sets', 'seed potatoes', '')
    >>> stock_word("runner bean", "Scarlet Runners"), stock_word("squash", "Crown")
    ('', '')
    """
    crop, variety = _plain(crop), _plain(variety)
    both = f"{crop} {variety}".strip()
    if _TRUE_SEED.search(both):
        return ""
    if _RUNNERS.search(both):
        return "runners"
    named = variety.split()
    # Within a variety's name only at either end: elsewhere it is part of the name.
    for word in (*crop.split(), *named[:1], *named[-1:]):
        if word in _PIECES:
            return word
    planted = _PLANTED.match(crop)
    return planted[0] if planted else ""


def _plain(text: str) -> str:
    return " ".join(re.findall(r"[^\W_]+", text.casefold()))
