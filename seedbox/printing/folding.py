"""Seed packets to cut out, fold and glue: front, back with how to sow, flaps, one code each."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from seedbox.errors import UsageError
from seedbox.printing.coded_paper import CodedPaper
from seedbox.printing.content import LabelContent, Printed
from seedbox.printing.folding_design import FoldingDesign, folding_design
from seedbox.printing.folding_net import FoldingSize, Net, Point, nets_on
from seedbox.printing.folding_panels import draw_back, draw_flap, draw_front
from seedbox.printing.list_page import broken
from seedbox.printing.measuring import Correction
from seedbox.printing.symbols import check_content
from seedbox.problems import Problem

MOST_COPIES = 1000
_HATCH_MM, _HATCH_INSET_MM, _HATCH_GREY = 2.0, 1.0, 0.55
_NOTE_PT, _NOTE_LEADING_MM = 6.0, 2.6
_HOW = (
    "Print at 100 %. Cut along the lines, fold back at the dashes. Glue the hatched flaps, press "
    "the back panel onto them. Fill, and bring the top flap over the front."
)
_CHECK_MM = 30.0


@dataclass(frozen=True, slots=True)
class FoldingPacket:
    """One packet: what its front says, by field name (see FIELDS; the design chooses among them),
    and a heading and words for each row of its back (see ROWS).
    """

    content: LabelContent
    back: tuple[tuple[str, str], ...] = ()


def print_folding(
    packets: Sequence[FoldingPacket],
    size: FoldingSize,
    page: str,
    path: Path,
    *,
    design: FoldingDesign | None = None,
    copies: int = 1,
    proof: bool = True,
    dpi: int = 300,
    corrected: Correction | None = None,
) -> Printed:
    """Writes the nets as a PDF, as many to a page as fit, and reads every code back from it.

    `page` is a4 or letter. The flaps are those of the design. `labels` of what comes back counts
    packets. `corrected` is what was measured of the printer. Raises UsageError (a size that does
    not fit, nothing to print) and BadDataError (what no code can hold).
    """
    if not packets:
        raise UsageError("There is nothing to print: no packets were chosen.")
    if not 1 <= copies <= MOST_COPIES:
        raise UsageError(f"{copies} copies are out of range: 1 to {MOST_COPIES}.")
    for packet in packets:
        check_content(packet.content.code)
    design = design or folding_design()
    nets = nets_on(replace(size, flaps=design.flaps), page)
    paper = CodedPaper(design.title, page, dpi=dpi, corrected=corrected)
    warnings: dict[str, Problem] = {}
    wanted = (packet for packet in packets for _ in range(copies))
    for number, packet in enumerate(wanted):
        if number and number % len(nets) == 0:
            paper.next_page()
        _draw_net(paper, nets[number % len(nets)])
        for problem in _draw_words(paper, nets[number % len(nets)], design, packet):
            warnings[str(problem)] = problem
    return paper.deliver(path, proof=proof, warnings=tuple(warnings.values()))


def _draw_net(paper: CodedPaper, net: Net) -> None:
    for flap in (net.side_flap, net.bottom_flap):
        for start, end in hatching(flap):
            paper.line(*start, *end, grey=_HATCH_GREY, pt=0.3)
    paper.outline(net.outline, pt=0.5)
    for start, end in net.fold_marks:
        paper.dashes(start, end, pt=0.5)
    _draw_how(paper, net)


def _draw_how(paper: CodedPaper, net: Net) -> None:
    """How it is done, in the waste above the front, with a line to hold a ruler to."""
    x, y, room = net.front.x + 2.0, net.y + 3.0, net.front.width - 3.0
    for number, line in enumerate(broken(_HOW, room, _NOTE_PT)):
        paper.text(x, y + number * _NOTE_LEADING_MM, line, _NOTE_PT, grey=0.3)
    foot = net.front.y - 2.2
    paper.line(x, foot, x + _CHECK_MM, foot, pt=0.5)
    for end in (x, x + _CHECK_MM):
        paper.line(end, foot - 0.8, end, foot + 0.8, pt=0.5)
    paper.text(x, foot - 1.2, f"{_CHECK_MM:g} mm", _NOTE_PT, grey=0.3)


def _draw_words(
    paper: CodedPaper, net: Net, design: FoldingDesign, packet: FoldingPacket
) -> Iterator[Problem]:
    where = packet.content.text("code")
    if not draw_front(paper, net, design, packet.content):
        yield Problem(
            "the caution does not fit the front in full. Take a larger packet, or write it on by "
            "hand.",
            field="caution",
            where=where,
        )
    draw_flap(paper, net, design, packet.content)
    left_out = draw_back(paper, net.back, design, packet.back)
    if left_out:
        yield Problem(
            f"the back has no room for all of: {', '.join(left_out)}. Take a larger packet.",
            where=where,
        )


def hatching(flap: Sequence[Point]) -> list[tuple[Point, Point]]:
    """Slanting lines in a flap (any convex shape), a little inside of its edges."""
    middle = (sum(x for x, _ in flap) / len(flap), sum(y for _, y in flap) / len(flap))
    inner = [_towards(point, middle, _HATCH_INSET_MM) for point in flap]
    sums = [x + y for x, y in inner]
    first = int(min(sums) // _HATCH_MM) + 1
    crossings = (
        _crossing(inner, number * _HATCH_MM)
        for number in range(first, int(max(sums) // _HATCH_MM) + 1)
    )
    return [(found[0], found[-1]) for found in crossings if len(found) > 1]


def _towards(point: Point, middle: Point, by: float) -> Point:
    """A corner moved inwards, along each of the two directions of the page."""
    moved = [at + by * ((to > at) - (to < at)) for at, to in zip(point, middle, strict=True)]
    return moved[0], moved[1]


def _crossing(shape: Sequence[Point], total: float) -> list[Point]:
    """Where the line x + y = total meets the edges of a shape, from left to right."""
    found: list[Point] = []
    for (x, y), (to_x, to_y) in _edges(shape):
        start, end = x + y - total, to_x + to_y - total
        if start * end < 0:
            part = start / (start - end)
            found.append((x + part * (to_x - x), y + part * (to_y - y)))
    return sorted(found)


def _edges(shape: Sequence[Point]) -> Iterable[tuple[Point, Point]]:
    return zip(shape, (*shape[1:], shape[0]), strict=True)
