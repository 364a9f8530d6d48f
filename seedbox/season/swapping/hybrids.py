"""Hybrids and protected varieties, by the words that stand on packets."""

from __future__ import annotations

import re

from seedbox.tin.records import Packet

# Sellers must mark hybrid seed; the mark stands behind the variety's name (common practice).
_HYBRID = re.compile(r"\bF\s?1\b|\bhybrids?\b", re.IGNORECASE)
_NO_HYBRID = re.compile(r"\b(not|no|non|never)[ -](an? )?(F\s?1|hybrid)", re.IGNORECASE)
_PROTECTED = re.compile(
    r"[®™]|\bP\.?B\.?R\b|\bP\.?V\.?P\b|\bprotected variety\b|\bplant breeders[’']? rights\b"
    r"|\bpatented\b",
    re.IGNORECASE,
)


def is_hybrid(*texts: str) -> bool:
    """Whether a packet's words call it a hybrid.

    >>> is_hybrid("Slate Roof F1"), is_hybrid("F 1 hybrid"), is_hybrid("not a hybrid")
    (True, True, False)
    """
    return any(_HYBRID.search(text) and not _NO_HYBRID.search(text) for text in texts)


def is_protected(*texts: str) -> bool:
    """Whether a packet's words say that somebody holds rights in the variety.

    >>> is_protected("Slate Roof PBR"), is_protected("Slate Roof®"), is_protected("Slate Roof")
    (True, True, False)
    """
    return any(_PROTECTED.search(text) for text in texts)


def packet_words(packet: Packet) -> tuple[str, ...]:
    """Where such words stand: variety, tags and note."""
    return (packet.variety, *packet.tags, packet.note)
