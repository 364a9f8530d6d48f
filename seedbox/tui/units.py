"""Numbers that stay with their units where a sentence is broken into lines."""

from __future__ import annotations

import re

_UNIT = re.compile(r"(\d) (%|°C)")


def unbroken(sentence: str) -> str:
    """The same sentence with a space that does not break between a number and its unit.

    >>> unbroken("60 to 98 % at 20 °C").replace("\u00a0", "_")
    '60 to 98_% at 20_°C'
    """
    return _UNIT.sub("\\1\u00a0\\2", sentence)
