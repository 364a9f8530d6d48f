"""Lines of styled text put together by hand, so that two columns stay aligned in cells."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import zip_longest

from textual.content import Content

from seedbox.tui.cells import plain, width_of, wrapped

Piece = tuple[str, str]
Line = list[Piece]

LABEL = 14


def heading(text: str) -> list[Line]:
    return [[], [(text, "bold $primary")]]


def paragraph(text: str, width: int, style: str = "", *, indent: int = 0) -> list[Line]:
    """Text broken into lines between words; later lines keep the indent."""
    margin = " " * indent
    return [[(margin + line, style)] for line in wrapped(text, max(10, width - indent))]


def item(text: str, width: int, style: str = "", mark: str = "-") -> list[Line]:
    """One point of a list: its mark, and the text hanging beside it."""
    lines = paragraph(text, width, style, indent=2)
    first = lines[0][0][0]
    return [[(f"{mark} {first[2:]}", style)], *lines[1:]]


def pair(label: str, text: str, width: int, style: str = "") -> list[Line]:
    """A label and its text in a column of its own."""
    lines = wrapped(text, max(10, width - LABEL))
    head: Line = [(f"{label:<{LABEL}}", "$quiet"), (lines[0], style)]
    return [head, *([(" " * LABEL + line, style)] for line in lines[1:])]


def line_width(line: Line) -> int:
    return sum(width_of(text) for text, _ in line)


def beside(left: Sequence[Line], right: Sequence[Line], left_width: int, gap: int) -> list[Line]:
    """Two columns of lines; the left one is filled up to its width."""
    joined: list[Line] = []
    nothing: Line = []
    for one, other in zip_longest(left, right, fillvalue=nothing):
        fill = " " * (left_width + gap - line_width(one)) if other else ""
        joined.append([*one, (fill, ""), *other])
    return joined


def content(lines: Iterable[Line]) -> Content:
    """The lines as something a widget shows. Text is never read as markup."""
    parts: list[str | tuple[str, str]] = []
    for line in lines:
        parts += [(_kept(text), style) if style else _kept(text) for text, style in line]
        parts.append("\n")
    return Content.assemble(*parts[:-1])


def _kept(text: str) -> str:
    return plain(text)
