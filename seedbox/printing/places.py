"""Where things stand on a label: symbols, boxes of words, thin lines."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from seedbox.printing.content import Box
from seedbox.printing.styles import Style


@dataclass(frozen=True, slots=True)
class SymbolPlace:
    """A symbol with its quiet zone in `box`, one module `module` wide [points]. A turned one
    reads downwards.
    """

    kind: str
    box: Box
    module: float
    turned: bool = False


@dataclass(frozen=True, slots=True)
class TextPlace:
    """A box of words [points]; turned ones read downwards. `centred` lines stand in its middle;
    type may become `growth` times as large as its style where few words have much room.
    """

    box: Box
    styles: tuple[Style, ...]
    growth: float = 1.0
    turned: bool = False
    centred: bool = False
    from_top: bool = False

    @property
    def measure(self) -> tuple[float, float]:
        """Length of a line, and room for lines [points]."""
        box = self.box
        return (box.height, box.width) if self.turned else (box.width, box.height)


@dataclass(frozen=True, slots=True)
class Layout:
    """Places on a label, from its bottom left [points]. When `typed` is None the code in type
    is the last line of `words`. A `tab` takes the first line of the design. `rules` are thin
    lines: to write on with a pencil, and below a tab.
    """

    symbols: tuple[SymbolPlace, ...]
    words: TextPlace
    typed: TextPlace | None = None
    tab: TextPlace | None = None
    rules: tuple[Box, ...] = ()

    @property
    def kinds(self) -> tuple[str, ...]:
        """The kinds of code on the label, one for each symbol."""
        return tuple(symbol.kind for symbol in self.symbols)

    def boxes(self) -> Iterator[Box]:
        """Everything that must not overlap."""
        yield from (symbol.box for symbol in self.symbols)
        yield from (place.box for place in (self.words, self.typed, self.tab) if place)
