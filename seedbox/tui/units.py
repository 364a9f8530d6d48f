"""Sentences made elsewhere, with their units set as on all screens."""

from __future__ import annotations

import re

_RANGE = re.compile(r"(\d) ?% to (\d)")
_PER_CENT = re.compile(r"(\d) ?%")
_DEGREES = re.compile(r"(\d) ?C\b")


def with_units(sentence: str) -> str:
    """Per cent after a space that does not break, degrees with their sign.

    >>> with_units("16 to 21 C"), with_units("60% to 98% came").replace("\u00a0", "_")
    ('16 to 21\xa0°C', '60 to 98_% came')
    """
    sentence = _RANGE.sub(r"\1 to \2", sentence)
    return _DEGREES.sub("\\1\u00a0°C", _PER_CENT.sub("\\1\u00a0%", sentence))
