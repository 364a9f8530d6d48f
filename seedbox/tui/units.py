"""Sentences made elsewhere, with their units set as on all screens."""

from __future__ import annotations

import re

_RANGE = re.compile(r"(\d)% to (\d)")
_PER_CENT = re.compile(r"(\d)%")
_DEGREES = re.compile(r"(\d) ?C\b")


def with_units(sentence: str) -> str:
    """Per cent after a space, degrees with their sign.

    >>> with_units("16 to 21 C, 55% humidity"), with_units("60% to 98% came")
    ('16 to 21 °C, 55 % humidity', '60 to 98 % came')
    """
    sentence = _RANGE.sub(r"\1 to \2", sentence)
    return _DEGREES.sub(r"\1 °C", _PER_CENT.sub(r"\1 %", sentence))
