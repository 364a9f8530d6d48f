"""Several photos of one tin, or of many trays, as one list in which no code stands twice."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from seedbox.errors import SeedboxError
from seedbox.problems import Problem
from seedbox.scanning.sightings import Meaning, Point, Sighting, Symbol


@dataclass(frozen=True, slots=True)
class SeenCode:
    """A code of ours, and where it stands in the first photo that shows it [pixels]."""

    code: str
    photo: str
    centre: Point
    photos: int = 1


@dataclass(frozen=True, slots=True)
class SeenOther:
    """A symbol that is no code of ours: a trade number, or whatever a stranger printed."""

    text: str
    symbol: Symbol
    photo: str


@dataclass(frozen=True, slots=True)
class Scan:
    """All that some photos show; each thing once, in the order of photos, in reading order.

    `read` names the photos that could be looked at; `problems` tell of the others.
    """

    read: tuple[str, ...] = ()
    codes: tuple[SeenCode, ...] = ()
    trade_numbers: tuple[SeenOther, ...] = ()
    foreign: tuple[SeenOther, ...] = ()
    problems: tuple[Problem, ...] = ()


def scan_photos(paths: Iterable[Path], *, thorough: bool = False) -> Scan:
    """Looks through photos, one in memory at a time. A photo that cannot be read is a problem."""
    from seedbox.scanning.finding import find
    from seedbox.scanning.placing import in_reading_order
    from seedbox.scanning.reading import read_photo

    seen: list[tuple[str, Sighting]] = []
    read: list[str] = []
    problems: list[Problem] = []
    for path in paths:
        try:
            image = read_photo(path)
        except SeedboxError as error:
            problems.append(Problem(" ".join(filter(None, (error.sentence, error.hint)))))
            continue
        read.append(str(path))
        seen += [(str(path), each) for each in in_reading_order(find(image, thorough=thorough))]
    return Scan(
        read=tuple(read),
        codes=tuple(_codes(seen)),
        trade_numbers=tuple(_others(seen, Meaning.TRADE_NUMBER)),
        foreign=tuple(_others(seen, Meaning.FOREIGN)),
        problems=tuple(problems),
    )


def _codes(seen: Iterable[tuple[str, Sighting]]) -> Iterator[SeenCode]:
    """A label may carry its code twice, and two photos may overlap."""
    first: dict[str, tuple[str, Point]] = {}
    photos: dict[str, set[str]] = {}
    for photo, sighting in seen:
        if sighting.meaning is Meaning.OURS:
            first.setdefault(sighting.code, (photo, sighting.centre))
            photos.setdefault(sighting.code, set()).add(photo)
    for code, (photo, centre) in first.items():
        yield SeenCode(code, photo, centre, len(photos[code]))


def _others(seen: Iterable[tuple[str, Sighting]], wanted: Meaning) -> Iterator[SeenOther]:
    first: dict[str, SeenOther] = {}
    for photo, sighting in seen:
        if sighting.meaning is wanted:
            first.setdefault(sighting.text, SeenOther(sighting.text, sighting.symbol, photo))
    yield from first.values()
