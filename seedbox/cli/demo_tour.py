"""What the demo says: the tin by advice, one packet in words, labels read back, what to try."""

from __future__ import annotations

import shlex
from collections.abc import Iterator, Sequence
from dataclasses import replace
from textwrap import wrap

from seedbox.cli.commands.list_packets import COLUMNS, cells_of
from seedbox.cli.demo_folder import DemoFolder
from seedbox.cli.forecast_words import forecast_lines
from seedbox.cli.label_jobs import contents, printed_labels
from seedbox.cli.label_report import report
from seedbox.cli.output import say
from seedbox.cli.packet_page import title
from seedbox.cli.tables import room, table
from seedbox.cli.words import count, day
from seedbox.season.cautions import packet_cautions
from seedbox.season.listing import Filter, Listing, PacketLine, Sort

_WIDTH = 98
_PICKS = {
    "use up": ("Use up this year: good now, but not to be relied on next year", 4),
    "sow thick": ("Sow thick", 3),
    "test": ("Test before sowing: nobody can tell from their age", 3),
    "spent": ("Spent", 2),
    "sow": ("Sow as usual", 3),
}


def tour(demo: DemoFolder) -> None:
    """Print everything, and write the labels on the way."""
    with demo.session().tin() as tin:
        listing = Listing(tin, demo.today)
    lines = listing.select(Filter(), Sort.CROP)
    crops = len({line.packet.crop_id for line in lines})
    say(
        f"The tin of an invented garden on {day(demo.today)}: "
        f"{count(len(lines), 'packet')} of {crops} crops in {count(len(listing.stores), 'store')}.",
        "Germination is the expected share; 9 times in 10 a sowing lies within the brackets.",
    )
    say(*_by_advice(lines))
    say(*_one_packet(listing, lines))
    say("", "Labels")
    _labels(demo, listing)
    say(*_next_steps(demo, lines))


def _by_advice(lines: Sequence[PacketLine]) -> Iterator[str]:
    """A few packets under each advice, all in the same columns."""
    groups = {word: [line for line in lines if line.advice == word] for word in _PICKS}
    picked = {word: _spread(group, _PICKS[word][1]) for word, group in groups.items()}
    rows = [cells_of(line) for group in picked.values() for line in group]
    heading, *drawn = table(COLUMNS, rows, None if room() is None else _width() - 2)
    yield from ("", f"  {heading}")
    rest = iter(drawn)
    for word, group in picked.items():
        if group:
            yield f"{_PICKS[word][0]} ({len(groups[word])})"
            yield from (f"  {next(rest)}" for _ in group)
    yield 'See all with seedbox list, or with seedbox list --advice "use up".'


def _width() -> int:
    return min(room() or _WIDTH, _WIDTH)


def _spread(lines: Sequence[PacketLine], most: int) -> list[PacketLine]:
    """A few lines from all over the list rather than its first crop."""
    step = max(1, len(lines) // most)
    return list(lines[::step][:most])


def _one_packet(listing: Listing, lines: Sequence[PacketLine]) -> Iterator[str]:
    """The packet with the most tests, in words."""
    line = max(lines, key=lambda each: len(each.dossier.tests))
    yield ""
    yield f"One packet in words (seedbox show {line.packet.code})"
    yield f"  {title(line)}"
    if line.forecast:
        for sentence in forecast_lines(line.forecast, listing.settings, listing.today):
            yield from _wrapped(sentence, "  ")
        yield from _wrapped("It rests on: " + " ".join(line.forecast.rests_on), "  ")
    for sentence in packet_cautions(line.packet, line.crop)[:1]:
        yield from _wrapped(f"Caution: {sentence}", "  ")


def _labels(demo: DemoFolder, listing: Listing) -> None:
    every = contents(listing, [])
    now = contents(listing, [], text="use up")[:8]
    for design, items in (("packet", every), ("tray", now)):
        path = demo.path / f"{design}-labels.pdf"
        printed = printed_labels(listing.settings, path, items, {"design": design})
        report(replace(printed, warnings=()), as_json=False)
        boxes = len({problem.where for problem in printed.warnings if problem.where})
        if boxes:
            say(f"  ({count(boxes, 'label')} with letters that no font here has.)")


def _next_steps(demo: DemoFolder, lines: Sequence[PacketLine]) -> Iterator[str]:
    tin, today = shlex.quote(str(demo.tin)), demo.today.isoformat()
    code = lines[0].packet.code
    yield ""
    yield "Open it on the screens:"
    yield f"  seedbox --tin {tin} --today {today}"
    yield "Or set it for this terminal, then type commands:"
    yield f"  export SEEDBOX_TIN={tin} SEEDBOX_TODAY={today}"
    yield "  seedbox list tomato"
    yield f"  seedbox show {code}"
    yield f"  seedbox take {code} 5 && seedbox undo"
    yield "  seedbox now"
    yield "  seedbox today"
    yield "  seedbox test plan"
    yield "  seedbox swap spare"
    lists = " ".join(shlex.quote(str(path)) for path in demo.neighbours)
    yield f"  seedbox swap match tin {lists}"
    yield f"  seedbox import {shlex.quote(str(demo.list_to_import))} --dry-run"
    yield "  seedbox forecast leek --germination 85% --tested 50 --temperature 18 --humidity 55 \\"
    yield '      --years 2 --then "temperature=4,moisture=6,years=3"'


def _wrapped(text: str, indent: str = "") -> list[str]:
    return wrap(text, _width(), initial_indent=indent, subsequent_indent=indent)
