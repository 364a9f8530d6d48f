"""A label drawn in a terminal: honest proportions, its codes as blocks, its words as words.

A character is twice as high as it is wide, and a block character parts it into four: so 2 pixels
across and 4 down, two of them to a quarter, fill one character. Words are larger than they would
be on paper, or nobody could read them: they give way to each other, and what has no room is cut.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from rich.cells import set_cell_size

from seedbox.tui.cells import plain, width_of
from seedbox.tui.text_lines import Line

if TYPE_CHECKING:
    from seedbox.printing.label_picture import LabelPicture, PlacedWords

GOES_ON = "›"
_ACROSS, _DOWN = 2, 4
_DARK = 150
_LYING = 1.5
"""Height over width from which a label is drawn lying, its top on the left."""
_LEAST_CUT = 4
# Quarters of a character: upper left 1, upper right 2, lower left 4, lower right 8.
_BLOCKS = " ▘▝▀▖▌▞▛▗▚▐▜▄▙▟█"
_ROUND, _SQUARE = ("╭", "╮", "╰", "╯"), ("┌", "┐", "└", "┘")
_FOOT_MM, _WORTH_CUTTING = 6.0, 0.85


@dataclass(frozen=True, slots=True)
class Scale:
    """How large a label is drawn: characters across and down, millimetres to a character, whether
    it lies, and whether its bare foot is left off.
    """

    columns: int
    rows: int
    mm: float
    lying: bool
    cut: bool = False

    @property
    def pixels_per_mm(self) -> float:
        return _ACROSS / self.mm


def scale_for(
    width_mm: float, height_mm: float, room: tuple[int, int], used_mm: float | None = None
) -> Scale:
    """The largest drawing of a label in a room of so many columns and rows, without its frame.
    A label that lies is drawn as far as it is used, where that is much less than its length.

    >>> scale = scale_for(64, 32, (64, 10))
    >>> scale.columns, scale.rows, scale.lying
    (40, 10, False)
    """
    lying = height_mm > _LYING * width_mm
    across, down = (height_mm, width_mm) if lying else (width_mm, height_mm)
    shown = across if used_mm is None else min(across, used_mm + _FOOT_MM)
    cut = lying and shown < _WORTH_CUTTING * across
    across = shown if cut else across
    mm = max(across / room[0], down / (2 * room[1]))
    return Scale(max(1, round(across / mm)), max(1, round(down / (2 * mm))), mm, lying, cut)


def used_mm(picture: LabelPicture) -> float:
    """How far down a label anything stands [mm]."""
    words = max((one.top_mm + one.height_mm for one in picture.words), default=0.0)
    across = picture.columns
    inked = [
        row for row in range(picture.rows) if min(picture.pixels[row * across :][:across]) < _DARK
    ]
    ink = (inked[-1] + 1) * picture.height_mm / picture.rows if inked else 0.0
    return max(words, ink)


@dataclass(slots=True)
class _Row:
    """One line of characters: blocks of ink, and words that cover them."""

    ink: str
    words: list[tuple[int, int, str, str]] = field(default_factory=list)

    def free(self, column: int) -> bool:
        """Whether nothing stands in this column, nor words right beside it."""
        if not 0 <= column < len(self.ink) or self.ink[column] != " ":
            return False
        return not any(start - 1 <= column <= start + width for start, width, _, _ in self.words)

    def gap(self, column: int, step: int) -> int:
        """Free columns from this one on, to the right (1) or to the left (-1)."""
        count = 0
        while self.free(column + step * count):
            count += 1
        return count

    def pieces(self) -> Iterator[tuple[str, str]]:
        at = 0
        for start, width, text, style in sorted(self.words):
            yield self.ink[at:start], ""
            yield text, style
            at = start + width
        yield self.ink[at:], ""


@dataclass(frozen=True, slots=True)
class Drawn:
    """The lines of a picture with its frame, and how many lines of words found no room."""

    lines: list[Line]
    left_out: int


def drawn(picture: LabelPicture, scale: Scale, corner: str) -> Drawn:
    """The picture in characters. Its pixels were made for this scale."""
    rows = [_Row(line) for line in _blocks(picture, scale)]
    largest = max((one.size_pt for one in picture.words), default=0.0)
    left_out = 0
    for words in sorted(picture.words, key=lambda one: _corner(one, picture, scale)[::-1]):
        style = "bold" if words.size_pt >= 0.99 * largest else ""
        left_out += not _put(rows, plain(words.text), _corner(words, picture, scale), style)
    return Drawn(_framed(rows, scale, corner), left_out)


def _corner(words: PlacedWords, picture: LabelPicture, scale: Scale) -> tuple[int, int]:
    """Column and row in which words begin; of those that stand across a lying label the middle."""
    left, middle = words.left_mm, words.top_mm + words.height_mm / 2
    if scale.lying:
        across = picture.width_mm - words.left_mm - words.width_mm / 2
        left, middle = words.top_mm if words.turned else middle, across
        if not words.turned:
            left -= width_of(words.text) * scale.mm / 2
    column = min(max(0, int(left / scale.mm)), scale.columns - 1)
    return column, min(max(0, int(middle / (2 * scale.mm))), scale.rows - 1)


def _put(rows: Sequence[_Row], text: str, at: tuple[int, int], style: str) -> bool:
    """Find words a place near theirs: whole if that can be, else cut; tells whether there was."""
    column, nominal = at
    wide = width_of(text)
    near = [row for row in (nominal, nominal + 1, nominal - 1, nominal + 2) if 0 <= row < len(rows)]
    for shift in (0, 1, 2, 4, 8):
        for row in near:
            start = max(0, column - shift)
            if rows[row].gap(start, 1) >= wide:
                rows[row].words.append((start, wide, text, style))
                return True
    row = max(near, key=lambda each: (rows[each].gap(column, 1), -abs(each - nominal)))
    room = rows[row].gap(column, 1)
    if room < _LEAST_CUT:
        return False
    cut = set_cell_size(text, room - 1).rstrip() + GOES_ON
    rows[row].words.append((column, width_of(cut), cut, style))
    return True


def _blocks(picture: LabelPicture, scale: Scale) -> Iterator[str]:
    lines = _pixel_lines(picture, scale)
    for row in range(scale.rows):
        some = lines[_DOWN * row : _DOWN * (row + 1)]
        yield "".join(_block(some, _ACROSS * column) for column in range(scale.columns))


def _pixel_lines(picture: LabelPicture, scale: Scale) -> list[bytes]:
    """Lines of pixels as they are seen; a lying label is turned to the left."""
    across = picture.columns
    lines = [picture.pixels[at : at + across] for at in range(0, len(picture.pixels), across)]
    if not scale.lying:
        return lines
    return [bytes(line[column] for line in lines) for column in reversed(range(across))]


def _block(lines: Sequence[bytes], left: int) -> str:
    quarters = 0
    for number, (across, down) in enumerate(((0, 0), (1, 0), (0, 2), (1, 2))):
        seen = [line[left + across] for line in lines[down : down + 2] if left + across < len(line)]
        if seen and sum(seen) < _DARK * len(seen):
            quarters |= 1 << number
    return _BLOCKS[quarters]


def _framed(rows: Sequence[_Row], scale: Scale, corner: str) -> list[Line]:
    upper_left, upper_right, lower_left, lower_right = _ROUND if corner == "round" else _SQUARE
    edge, side = "─" * scale.columns, "│"
    if scale.cut:
        upper_right, lower_right, side = "┄", "┄", "┆"
    middle: list[Line] = [
        [("│", "$quiet"), *(piece for piece in row.pieces() if piece[0]), (side, "$quiet")]
        for row in rows
    ]
    top: Line = [(f"{upper_left}{edge}{upper_right}", "$quiet")]
    foot: Line = [(f"{lower_left}{edge}{lower_right}", "$quiet")]
    return [top, *middle, foot]
