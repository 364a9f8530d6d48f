"""One code seen in a photo: what it says, what it means, where it stands."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from math import dist

from seedbox.errors import BadDataError
from seedbox.tin.codes import looks_like_code, parse

Point = tuple[float, float]
"""Pixels from the left and from the top of the upright photo."""


class Symbol(StrEnum):
    """The symbols that are looked for."""

    QR = "QR"
    CODE_128 = "Code 128"
    EAN_13 = "EAN-13"


class Meaning(StrEnum):
    """What the text of a symbol is to us. A misread one is as good as not seen."""

    OURS = "ours"
    MISREAD = "misread"
    TRADE_NUMBER = "trade number"
    FOREIGN = "foreign"


@dataclass(frozen=True, slots=True)
class Sighting:
    """A symbol that was read. `corners` begin at its own top left and go round clockwise.

    The text is data: it is shown, compared and never followed, whatever it says.
    """

    text: str
    symbol: Symbol
    corners: tuple[Point, Point, Point, Point]

    @property
    def centre(self) -> Point:
        """Mean of the corners [pixels]."""
        return (sum(x for x, _ in self.corners) / 4, sum(y for _, y in self.corners) / 4)

    @property
    def side(self) -> float:
        """Length of the upper edge [pixels]."""
        return dist(self.corners[0], self.corners[1])

    @property
    def meaning(self) -> Meaning:
        """Whether it is a code of ours, by its check character."""
        return meaning(self.text, self.symbol)

    @property
    def code(self) -> str:
        """The text of a code of ours in its plain form."""
        return parse(self.text)


def meaning(text: str, symbol: Symbol) -> Meaning:
    """What a text read from a symbol is. Readers misread, so the check character decides.

    >>> meaning("P1G1D22F", Symbol.QR).value, meaning("P1G1D22G", Symbol.CODE_128).value
    ('ours', 'misread')
    >>> meaning("https://example.org/", Symbol.QR).value
    'foreign'
    """
    if symbol is Symbol.EAN_13:
        return Meaning.TRADE_NUMBER
    try:
        parse(text)
    except BadDataError:
        return Meaning.MISREAD if looks_like_code(text) else Meaning.FOREIGN
    return Meaning.OURS
