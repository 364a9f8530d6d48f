"""Codes in the order in which a person reads the photo: row by row, left to right."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import atan2, cos, pi, sin
from statistics import median

from seedbox.scanning.sightings import Point, Sighting

_SAME_ROW = 0.9
"""How far two neighbours of a row may differ in height, in sides of a symbol."""


@dataclass(slots=True)
class _Row:
    """Sightings of one row so far, left to right, with where each stands once made level."""

    members: list[Sighting] = field(default_factory=list)
    places: list[Point] = field(default_factory=list)

    @property
    def height(self) -> float:
        return sum(y for _, y in self.places) / len(self.places)


def in_reading_order(sightings: Sequence[Sighting]) -> list[Sighting]:
    """Row by row from the top, each from the left. A tilt of up to 45 degrees is taken out first.

    A row may rise or fall, as rows do in a photo taken askew: each is followed from neighbour to
    neighbour.
    """
    if not sightings:
        return []
    tilt, reach = _tilt(sightings), _SAME_ROW * median(each.side for each in sightings)
    level = {id(each): _level(each.centre, tilt) for each in sightings}
    rows: list[_Row] = []
    for each in sorted(sightings, key=lambda one: level[id(one)]):
        place = level[id(each)]
        row = _nearest(rows, place, reach)
        if row is None:
            rows.append(row := _Row())
        row.members.append(each)
        row.places.append(place)
    return [each for row in sorted(rows, key=lambda one: one.height) for each in row.members]


def _nearest(rows: Sequence[_Row], place: Point, reach: float) -> _Row | None:
    """The row whose last member stands at this height, if any does."""
    near = min(rows, key=lambda row: abs(row.places[-1][1] - place[1]), default=None)
    if near is None or abs(near.places[-1][1] - place[1]) > reach:
        return None
    return near


def _tilt(sightings: Sequence[Sighting]) -> float:
    """By how much the symbols lean [radians, clockwise], within an eighth of a turn either way.

    Labels that lie every which way have no tilt in common: the median is then near none.
    """
    return median(map(_lean, sightings))


def _lean(sighting: Sighting) -> float:
    (left, top), (right, end) = sighting.corners[:2]
    quarter = pi / 2
    angle = atan2(end - top, right - left)
    return (angle + quarter / 2) % quarter - quarter / 2


def _level(point: Point, tilt: float) -> Point:
    x, y = point
    return x * cos(tilt) + y * sin(tilt), y * cos(tilt) - x * sin(tilt)
