"""Germination tests in words: what was found, how it stands, how it is done."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from seedbox.cli.tables import wrapped
from seedbox.cli.words import count, percent
from seedbox.tin.codes import shown

if TYPE_CHECKING:
    from seedbox.season.testing.progress import Progress, Share
    from seedbox.season.testing.protocol import Protocol
    from seedbox.season.testing.tally import Tally
    from seedbox.tin.records import Packet, TestCount

_METHODS = {"wilson": "Wilson", "clopper-pearson": "Clopper-Pearson", "jeffreys": "Jeffreys"}
_NAMES = {
    "normal": "normal seedling",
    "abnormal": "abnormal seedling",
    "hard": "hard seed",
    "fresh": "fresh seed",
    "dead": "dead seed",
}


def title(packet: Packet, crop: str) -> str:
    """Code, crop and variety of a packet."""
    return f"{shown(packet.code)} {', '.join(filter(None, (crop, packet.variety)))}"


def found_words(found: TestCount | Tally) -> list[str]:
    """What was found, category by category; what was not found is left out."""
    numbers = {name: getattr(found, name) for name in _NAMES}
    return [count(number, _NAMES[name]) for name, number in numbers.items() if number]


def between(share: Share) -> str:
    """An estimate with its interval, as everywhere: `60 % (31 to 83)`."""
    return f"{percent(share.estimate)} ({round(share.low * 100)} to {round(share.high * 100)})"


def share(progress: Progress) -> str:
    """Germination so far; nothing for a test that was not counted yet."""
    counted = progress.looked_on is not None or progress.total.unclassed < progress.total.seeds
    return between(progress.germination) if counted or progress.next_count is None else ""


def interval_words(progress: Progress) -> str:
    """Which interval it is: `95 % interval by Wilson`."""
    return f"{percent(progress.confidence)} interval by {_METHODS[progress.method]}"


def verdict(progress: Progress) -> str:
    """`good` or `poor` when the counts decide it with the error asked for, else nothing."""
    return progress.decision.verdict if progress.decision.firm else ""


def protocol_lines(protocol: Protocol) -> Iterator[str]:
    """How a test is done, cautions first."""
    sections = [("Cautions", protocol.cautions)]
    sections += [(section.title, section.sentences) for section in protocol.sections]
    for place, (heading, sentences) in enumerate((name, said) for name, said in sections if said):
        if place:
            yield ""
        yield heading
        for sentence in sentences:
            yield from wrapped(sentence, "  - ", "    ")
